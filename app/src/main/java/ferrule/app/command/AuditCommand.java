package ferrule.app.command;

import ferrule.app.AuditText;
import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Terminal;
import ferrule.app.audit.Audit;
import ferrule.app.audit.AuditJson;
import ferrule.app.audit.AuditReport;
import ferrule.core.Problem;
import ferrule.store.intake.TableReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule audit DIR}. */
@Command(
    name = "audit",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Check a record: signature, hashes and chain of entries; and compute every allowance,"
          + " decision, doubt and standing anew from its entries.",
      "Each difference is one line: what the record says, what follows. A signature shows that"
          + " nobody without the key has changed a byte since; compare the fingerprint of the key with"
          + " one that you have from the signer by another way, or name it with --key."
    },
    footer = {"", "Exit codes: 0 all agrees; 1 something differs; 2 the record could not be read."})
final class AuditCommand implements Callable<Integer> {

  @ParentCommand private FerruleCommand parent;

  @Parameters(paramLabel = "DIR", description = "The folder of a record.")
  private Path folder;

  @Option(
      names = "--key",
      paramLabel = "FINGERPRINT",
      description = "The fingerprint that the key must have, as the signer gave it to you.")
  private @Nullable String key;

  @Option(names = "--json", description = "One JSON document instead of text.")
  private boolean json;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  AuditCommand() {}

  @Override
  public Integer call() throws BadInputException, IOException {
    Terminal terminal = parent.terminal();
    terminal.progress("Computing anew what is in " + folder);
    AuditReport report = audit();
    terminal.progressDone();
    if (json) {
      AuditJson.write(terminal.out(), report);
    } else {
      AuditText.print(terminal, report);
    }
    return report.agrees() ? ExitCode.DONE : ExitCode.NOT_ALL_PROVED;
  }

  private AuditReport audit() throws BadInputException {
    try {
      return new Audit(folder, Optional.ofNullable(key)).run();
    } catch (IOException e) {
      throw new BadInputException(
          new Problem(
              folder.toString(),
              0,
              "",
              "a record that can be read, and room for it to be made anew",
              TableReader.reason(e),
              "check rights, disk and space; nothing can be said of it so"));
    }
  }
}
