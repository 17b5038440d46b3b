package ferrule.app.command;

import ferrule.app.ManualPage;
import ferrule.app.Version;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** {@code ferrule manual}. */
@Command(
    name = "manual",
    mixinStandardHelpOptions = true,
    description = {
      "Print the manual page in the format of man.",
      "Read it with: ferrule manual | man -l -"
    })
final class ManualCommand implements Runnable {

  @ParentCommand private FerruleCommand parent;

  @Spec private CommandSpec spec;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  ManualCommand() {}

  @Override
  public void run() {
    parent.terminal().out().print(ManualPage.of(spec.root(), Version.number()));
  }
}
