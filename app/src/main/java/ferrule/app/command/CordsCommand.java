package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.CordsText;
import ferrule.app.ExitCode;
import ferrule.app.Terminal;
import ferrule.core.Problem;
import ferrule.core.isolation.Isolation;
import ferrule.core.isolation.Isolator;
import ferrule.core.optics.FibreKind;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.record.data.IsolationJson;
import ferrule.store.intake.Matings;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule cords FILE}. */
@Command(
    name = "cords",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Say which end of which test cord is bad, and which pair to mate and read next.",
      "Takes a table (.csv or .xlsx) of losses read through mated cord ends under a one-cord zero."
          + " Columns: ends, loss_db; as wanted wavelength_nm, sd_db, measured_at. ends is written"
          + " L1/2+R1/1 for end 2 of cord L1 mated with end 1 of cord R1; with a third cord between"
          + " them, L1/2+X1/1; X1/2+R1/1.",
      "Exit code 0 if every end is in order, 1 if one is bad, undecided or cannot be told, 2 if a"
          + " part of the table could not be used."
    })
final class CordsCommand implements Callable<Integer> {

  /** All shipped rulebooks have the same limits for two reference-grade ends. */
  private static final String RULEBOOK = "iso-11801-1";

  @ParentCommand private FerruleCommand parent;

  @Parameters(paramLabel = "FILE", description = "The table.")
  private Path file;

  @Option(names = "--json", description = "One JSON document.")
  private boolean json;

  @Option(
      names = "--kind",
      paramLabel = "KIND",
      description =
          "Fibre of the cords: single-mode or multimode. Otherwise told from the wavelength.")
  private @Nullable String kind;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  CordsCommand() {}

  @Override
  public Integer call() throws BadInputException, IOException {
    Terminal terminal = parent.terminal();
    Optional<FibreKind> fibre = fibreKind();
    Matings matings = Matings.read(file, file.toString());
    List<Isolation> found =
        Isolator.isolate(matings.readings(), ShippedRulebooks.find(RULEBOOK).orElseThrow(), fibre);
    terminal.problems(matings.problems());
    if (json) {
      IsolationJson.write(
          terminal.out(), file.toString(), found, matings.problems(), matings.notes());
      terminal.out().println();
    } else {
      matings.notes().forEach(note -> terminal.err().println("Note: " + note));
      CordsText.print(terminal, file.toString(), found);
    }
    terminal.out().flush();
    if (!matings.problems().isEmpty()) {
      return ExitCode.BAD_INPUT;
    }
    return found.stream().allMatch(Isolation::allInOrder) ? ExitCode.DONE : ExitCode.NOT_ALL_PROVED;
  }

  private Optional<FibreKind> fibreKind() throws BadInputException {
    String word = kind;
    if (word == null) {
      return Optional.empty();
    }
    Optional<FibreKind> fibre =
        Arrays.stream(FibreKind.values()).filter(k -> k.word().equalsIgnoreCase(word)).findFirst();
    if (fibre.isEmpty()) {
      throw new BadInputException(
          new Problem("", 0, "--kind", "single-mode or multimode", word, "write one of the two"));
    }
    return fibre;
  }
}
