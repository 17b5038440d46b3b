package ferrule.app.command;

import ferrule.app.Terminal;
import ferrule.app.Version;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The command itself: says what there is. */
@Command(
    name = "ferrule",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    sortOptions = false,
    description = {
      "A workbench for whoever answers for the loss testing of optical-fibre cabling.",
      "It takes in what was to be built, how the zeros were set and what was measured, says for"
          + " every fibre whether it is proved, failed, doubtful or open, why, and what to do next,"
          + " and issues a record that the owner can recompute."
    },
    footer = {
      "",
      "Light used for testing is invisible and may harm the eye. Never look into a fibre or a port;"
          + " treat every fibre as lit. Local rules, the network owner and licensed practice decide.",
      "",
      "Exit codes: 0 done; 1 done, and something is failed, doubtful or open; 2 the input, or part"
          + " of it, could not be used; 3 a fault of Ferrule's."
    },
    subcommands = {
      DemoCommand.class,
      NewCommand.class,
      AddCommand.class,
      JudgeCommand.class,
      CordsCommand.class,
      RecordCommand.class,
      DeskCommand.class,
      ManualCommand.class,
      CompletionCommand.class
    })
public final class FerruleCommand implements Runnable {

  private final Terminal terminal;

  @Spec private CommandSpec spec = CommandSpec.create();

  /**
   * @param terminal where words go
   */
  public FerruleCommand(Terminal terminal) {
    this.terminal = terminal;
  }

  Terminal terminal() {
    return terminal;
  }

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Expected a command");
  }
}
