package ferrule.app;

import ferrule.core.Problem;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.rulebook.RulebookReader;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.store.intake.JobFolder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Rulebooks as a user names them: one that is shipped, or a file. */
public final class Rulebooks {

  private Rulebooks() {}

  /**
   * Finds a rulebook.
   *
   * @param name id of a shipped rulebook, or a file
   * @throws BadInputException if there is none, or the file is no sound rulebook: one line for each
   *     thing wrong
   */
  public static Rulebook find(String name) throws BadInputException {
    Optional<Rulebook> shipped = ShippedRulebooks.find(name);
    if (shipped.isPresent()) {
      return shipped.get();
    }
    Path file = Path.of(name);
    if (!Files.isRegularFile(file)) {
      throw new BadInputException(
          new Problem(
              "",
              0,
              "rulebook",
              "one of " + String.join(", ", ShippedRulebooks.ids()) + ", or a rulebook file",
              name,
              "name one of these, or a file that is there"));
    }
    List<Problem> problems = new ArrayList<>();
    Optional<Rulebook> own =
        JobFolder.readText(file, name, problems)
            .map(text -> RulebookReader.read(name, text))
            .flatMap(
                outcome -> {
                  problems.addAll(outcome.problems());
                  return outcome.rulebook();
                });
    return own.orElseThrow(() -> new BadInputException(problems));
  }
}
