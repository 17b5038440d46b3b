package ferrule.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Starts Java programs of the test class path in processes of their own. */
public final class Children {

  private Children() {}

  /**
   * Starts a program; standard error goes with standard output.
   *
   * @param heapMegabytes its heap
   */
  public static Process start(Class<?> program, int heapMegabytes, String... arguments)
      throws IOException {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx" + heapMegabytes + "m",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                program.getName()));
    command.addAll(List.of(arguments));
    return new ProcessBuilder(command).redirectErrorStream(true).start();
  }

  /** Runs a program to its end and returns what it printed. */
  public static List<String> run(Class<?> program, int heapMegabytes, String... arguments)
      throws IOException, InterruptedException {
    Process process = start(program, heapMegabytes, arguments);
    try {
      String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      process.waitFor();
      return text.lines().toList();
    } finally {
      process.destroyForcibly();
    }
  }
}
