package ferrule.app;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * What a run of the command gave.
 *
 * @param code exit code
 * @param out standard output
 * @param err standard error
 */
record Ran(int code, String out, String err) {

  /** The root of the project. */
  static final Path ROOT = Path.of("..").toAbsolutePath().normalize();

  /** Runs the command in this process, as if into a pipe. */
  static Ran here(String... arguments) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    Terminal terminal =
        new Terminal(new PrintWriter(out), new PrintWriter(err, true), false, Map.of());
    int code = Main.run(arguments, terminal);
    terminal.out().flush();
    terminal.err().flush();
    return new Ran(code, out.toString(), err.toString());
  }

  /** Runs the script as a process. */
  static Ran script(Path directory, List<String> arguments)
      throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    command.add(ROOT.resolve("ferrule").toString());
    command.addAll(arguments);
    Path out = directory.resolve(".out");
    Path err = directory.resolve(".err");
    Process process =
        new ProcessBuilder(command)
            .directory(directory.toFile())
            .redirectOutput(out.toFile())
            .redirectError(err.toFile())
            .start();
    int code = process.waitFor();
    return new Ran(
        code,
        java.nio.file.Files.readString(out, StandardCharsets.UTF_8),
        java.nio.file.Files.readString(err, StandardCharsets.UTF_8));
  }
}
