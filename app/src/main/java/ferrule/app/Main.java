package ferrule.app;

import ferrule.app.command.FerruleCommand;
import ferrule.app.desk.DeskServer;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** Starts the command. The one place that maps what went wrong to an exit code. */
public final class Main {

  private Main() {}

  /** Runs the command and ends the process with its exit code. */
  public static void main(String[] arguments) {
    if (arguments.length > 0 && arguments[0].equals("desk")) {
      DeskServer.prepare();
    }
    PrintWriter out = new PrintWriter(System.out, false, StandardCharsets.UTF_8);
    PrintWriter err = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
    boolean interactive = System.console() != null;
    int code = run(arguments, new Terminal(out, err, interactive, System.getenv()));
    out.flush();
    err.flush();
    System.exit(code);
  }

  /** Runs the command and returns its exit code. */
  public static int run(String[] arguments, Terminal terminal) {
    return set(FerruleCommand.answering(terminal, arguments), terminal).execute(arguments);
  }

  /**
   * The command with all its sub-commands: also the source of the manual and of shell completion.
   */
  public static CommandLine commandLine(Terminal terminal) {
    return set(FerruleCommand.whole(terminal), terminal);
  }

  private static CommandLine set(CommandLine line, Terminal terminal) {
    line.setOut(terminal.out());
    line.setErr(terminal.err());
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setUsageHelpLongOptionsMaxWidth(30);
    line.setParameterExceptionHandler(Main::badArguments);
    line.setExecutionExceptionHandler((exception, command, parsed) -> failed(exception, terminal));
    return line;
  }

  private static int badArguments(ParameterException exception, String[] arguments) {
    PrintWriter err = exception.getCommandLine().getErr();
    err.println(exception.getMessage());
    if (!UnmatchedArgumentException.printSuggestions(exception, err)) {
      err.println(
          "Try: " + exception.getCommandLine().getCommandSpec().qualifiedName() + " --help");
    }
    return ExitCode.BAD_INPUT;
  }

  private static int failed(Exception exception, Terminal terminal) {
    terminal.progressDone();
    if (exception instanceof BadInputException bad) {
      terminal.problems(bad.problems());
      return ExitCode.BAD_INPUT;
    }
    terminal.err().println(faultLine(exception));
    return ExitCode.FAULT;
  }

  private static String faultLine(Exception exception) {
    String line = "This is a fault of Ferrule's, not of your input: " + exception;
    try {
      Path trace = Files.createTempFile("ferrule-fault-", ".txt");
      try (PrintWriter writer = new PrintWriter(Files.newBufferedWriter(trace))) {
        exception.printStackTrace(writer);
      }
      return line + "; nothing stored was changed; details are in " + trace;
    } catch (IOException e) {
      return line + "; nothing stored was changed";
    }
  }
}
