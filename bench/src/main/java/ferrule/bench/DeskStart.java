package ferrule.bench;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.net.HttpURLConnection;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.BenchmarkParams;

/**
 * From starting the process to the whole first page: the desk of a job of 100 fibres against a bare
 * page of the same web server, both as fresh Java processes with the same settings, each with a
 * class archive of its own as the command has one.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 2)
@Measurement(iterations = 12)
@Fork(1)
public class DeskStart {

  private static final long PATIENCE_MS = 30_000;

  private Path folder = Path.of("");
  private Path archive = Path.of("");

  /** Writes the job folder and the class archive of what is measured. */
  @Setup(Level.Trial)
  public void write(BenchmarkParams params) throws IOException, InterruptedException {
    folder = BigFolder.write(50);
    archive = Files.createTempFile("ferrule-bench-", ".jsa");
    Files.delete(archive);
    List<String> rehearsal =
        params.getBenchmark().endsWith("desk")
            ? List.of("ferrule.app.command.Rehearsal", folder.toString())
            : List.of("ferrule.bench.BarePage", "0");
    start("-XX:ArchiveClassesAtExit=" + archive, rehearsal).waitFor();
    if (!Files.exists(archive)) {
      throw new IllegalStateException("No class archive was written");
    }
  }

  /** Removes them. */
  @TearDown(Level.Trial)
  public void remove() throws IOException {
    Files.delete(archive);
    BigFolder.remove(folder);
  }

  /** Baseline: one route that answers with a short text. */
  @Benchmark
  public int barePage() throws IOException, InterruptedException {
    int port = freePort();
    return firstPage(port, List.of("ferrule.bench.BarePage", Integer.toString(port)));
  }

  /** The desk. */
  @Benchmark
  public int desk() throws IOException, InterruptedException {
    int port = freePort();
    return firstPage(
        port,
        List.of("ferrule.app.Main", "desk", folder.toString(), "--port", Integer.toString(port)));
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0)) {
      return socket.getLocalPort();
    }
  }

  private static Process start(String setting, List<String> command) throws IOException {
    List<String> all =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseParallelGC",
                setting,
                "-cp",
                System.getProperty("java.class.path")));
    all.addAll(command);
    return new ProcessBuilder(all)
        .redirectErrorStream(true)
        .redirectOutput(new File("/dev/null"))
        .start();
  }

  private int firstPage(int port, List<String> command) throws IOException, InterruptedException {
    Process process = start("-XX:SharedArchiveFile=" + archive, command);
    try {
      long deadline = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(PATIENCE_MS);
      while (System.nanoTime() < deadline) {
        int length = page(port);
        if (length > 0) {
          return length;
        }
        if (!process.isAlive()) {
          throw new IllegalStateException("The server ended with " + process.exitValue());
        }
        Thread.sleep(5);
      }
      throw new IllegalStateException("No page within " + PATIENCE_MS + " ms");
    } finally {
      process.destroyForcibly().waitFor();
    }
  }

  private static int page(int port) throws IOException {
    HttpURLConnection connection =
        (HttpURLConnection) URI.create("http://127.0.0.1:" + port + "/").toURL().openConnection();
    try (InputStream in = connection.getInputStream()) {
      return in.readAllBytes().length;
    } catch (java.net.ConnectException e) {
      return 0;
    }
  }
}
