package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Terminal;
import ferrule.app.desk.DeskServer;
import ferrule.app.desk.DeskUnavailable;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule desk JOB}. */
@Command(
    name = "desk",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Open the web desk on this machine: the job's findings as pages, and forms for typing.",
      "On a job file, readings are typed and zeros set there, each entry kept with its time and its"
          + " author, none ever deleted. On a job folder the desk only reads.",
      "Reachable from this machine only. Stop it with Ctrl-C. The pages follow the job when"
          + " something is added to it."
    })
final class DeskCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Parameters(paramLabel = "JOB|DIR", description = "A job file or a job folder.")
  private Path job;

  @Option(
      names = "--port",
      paramLabel = "N",
      defaultValue = "7340",
      description = "Port on 127.0.0.1; 0 takes any that is free (default: ${DEFAULT-VALUE}).")
  private int port;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  DeskCommand() {}

  @Override
  public Integer call() throws BadInputException, InterruptedException {
    serve(parent.terminal(), job, port);
    return ExitCode.DONE;
  }

  /** Serves a job until the process is told to stop. */
  static void serve(Terminal terminal, Path job, int port)
      throws BadInputException, InterruptedException {
    if (port < 0 || port > 65_535) {
      throw new BadInputException(
          new ferrule.core.Problem(
              "", 0, "--port", "a port from 0 to 65535", Integer.toString(port), "choose another"));
    }
    // The job is read while the web server starts: each takes about a second.
    LoadingDeskSource source = new LoadingDeskSource(job);
    CountDownLatch stopped = new CountDownLatch(1);
    try (DeskServer server = start(source, port)) {
      source.loaded();
      Runtime.getRuntime()
          .addShutdownHook(
              new Thread(
                  () -> {
                    source.close();
                    stopped.countDown();
                  },
                  "desk-stop"));
      terminal.out().println("The desk is open at " + server.address() + " (Ctrl-C closes it)");
      terminal.out().flush();
      stopped.await();
    }
  }

  private static DeskServer start(LoadingDeskSource source, int port) throws BadInputException {
    try {
      return DeskServer.start(source, port);
    } catch (DeskUnavailable e) {
      source.loaded();
      throw new BadInputException(e.problem());
    }
  }
}
