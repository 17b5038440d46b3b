package ferrule.app.desk;

import java.io.IOException;
import java.net.HttpURLConnection;
import java.net.URI;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The desk as a program of its own, which can be killed like a machine that loses its power. */
final class RunningDesk implements AutoCloseable {

  private static final long STARTS_WITHIN_MS = 60_000;

  private final Path job;
  private final int port;
  private Process process;

  RunningDesk(Path job, int port) throws IOException, InterruptedException {
    this.job = job;
    this.port = port;
    this.process = launch();
    awaitOpen();
  }

  private Process launch() throws IOException {
    return new ProcessBuilder(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                "ferrule.app.Main",
                "desk",
                job.toString(),
                "--port",
                Integer.toString(port)))
        .redirectErrorStream(true)
        .redirectOutput(job.resolveSibling("desk.log").toFile())
        .start();
  }

  private void awaitOpen() throws IOException, InterruptedException {
    long until = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(STARTS_WITHIN_MS);
    while (System.nanoTime() < until) {
      if (!process.isAlive()) {
        throw new IOException("the desk ended by itself with " + process.exitValue());
      }
      if (answers()) {
        return;
      }
      TimeUnit.MILLISECONDS.sleep(50);
    }
    throw new IOException("the desk did not open");
  }

  private boolean answers() {
    try {
      HttpURLConnection connection =
          (HttpURLConnection) URI.create(address() + "changes").toURL().openConnection();
      return connection.getResponseCode() == 200;
    } catch (IOException e) {
      return false;
    }
  }

  String address() {
    return "http://127.0.0.1:" + port + "/";
  }

  /** SIGKILL: no shutdown hook, no closing of files. */
  void kill() throws InterruptedException {
    process.destroyForcibly().waitFor();
  }

  /** As Ctrl-C does. */
  void stop() throws InterruptedException {
    process.destroy();
    process.waitFor();
  }

  void startAgain() throws IOException, InterruptedException {
    process = launch();
    awaitOpen();
  }

  @Override
  public void close() throws InterruptedException {
    kill();
  }
}
