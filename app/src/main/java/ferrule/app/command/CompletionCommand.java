package ferrule.app.command;

import ferrule.app.Terminal;
import picocli.AutoComplete;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** {@code ferrule completion}. */
@Command(
    name = "completion",
    mixinStandardHelpOptions = true,
    description = {
      "Print a script that completes commands and options in bash and zsh.",
      "Use it with: source <(ferrule completion)"
    })
final class CompletionCommand implements Runnable {

  @ParentCommand private FerruleCommand parent;

  @Spec private CommandSpec spec;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  CompletionCommand() {}

  @Override
  public void run() {
    Terminal terminal = parent.terminal();
    terminal.out().print(AutoComplete.bash("ferrule", spec.root().commandLine()));
    terminal.out().println();
  }
}
