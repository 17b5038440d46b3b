package ferrule.app.command;

import ferrule.app.Terminal;
import ferrule.app.Version;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import picocli.CommandLine;
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
    })
public final class FerruleCommand implements Runnable {

  /** What there is to be done, in the order in which help lists it. */
  private static final Map<String, Supplier<Object>> COMMANDS = new LinkedHashMap<>();

  static {
    COMMANDS.put("demo", DemoCommand::new);
    COMMANDS.put("new", NewCommand::new);
    COMMANDS.put("add", AddCommand::new);
    COMMANDS.put("join", JoinCommand::new);
    COMMANDS.put("history", HistoryCommand::new);
    COMMANDS.put("backup", BackupCommand::new);
    COMMANDS.put("plan", PlanCommand::new);
    COMMANDS.put("judge", JudgeCommand::new);
    COMMANDS.put("cords", CordsCommand::new);
    COMMANDS.put("faces", FacesCommand::new);
    COMMANDS.put("applications", ApplicationsCommand::new);
    COMMANDS.put("rulebook", RulebookCommand::new);
    COMMANDS.put("sample", SampleCommand::new);
    COMMANDS.put("record", RecordCommand::new);
    COMMANDS.put("audit", AuditCommand::new);
    COMMANDS.put("desk", DeskCommand::new);
    COMMANDS.put("manual", ManualCommand::new);
    COMMANDS.put("completion", CompletionCommand::new);
  }

  /** These tell of all the others. */
  private static final Set<String> TELL_OF_ALL = Set.of("manual", "completion");

  private final Terminal terminal;

  @Spec private CommandSpec spec = CommandSpec.create();

  /**
   * @param terminal where words go
   */
  public FerruleCommand(Terminal terminal) {
    this.terminal = terminal;
  }

  /** The command with all its sub-commands. */
  public static CommandLine whole(Terminal terminal) {
    return with(terminal, COMMANDS.keySet());
  }

  /**
   * The command with no more sub-commands than some arguments call for: to describe every one of
   * them takes a fifth of a second at each start.
   */
  public static CommandLine answering(Terminal terminal, String... arguments) {
    String first = arguments.length == 0 ? "" : arguments[0];
    boolean alone = COMMANDS.containsKey(first) && !TELL_OF_ALL.contains(first);
    return alone ? with(terminal, Set.of(first)) : whole(terminal);
  }

  private static CommandLine with(Terminal terminal, Set<String> names) {
    CommandLine line = new CommandLine(new FerruleCommand(terminal));
    COMMANDS.forEach(
        (name, command) -> {
          if (names.contains(name)) {
            line.addSubcommand(name, command.get());
          }
        });
    return line;
  }

  Terminal terminal() {
    return terminal;
  }

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Expected a command");
  }
}
