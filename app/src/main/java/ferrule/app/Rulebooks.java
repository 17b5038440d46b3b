package ferrule.app;

import ferrule.core.Problem;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.rulebook.RulebookReader;
import ferrule.core.rulebook.ShippedRulebooks;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/** Rulebooks as a user names them: one that is shipped, or a file. */
public final class Rulebooks {

  private static final long MOST_BYTES = 1 << 20;

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
              "--rulebook",
              "one of " + String.join(", ", ShippedRulebooks.ids()) + ", or a rulebook file",
              name,
              "name one of these, or a file that is there"));
    }
    RulebookReader.Outcome outcome = RulebookReader.read(name, text(file));
    return outcome.rulebook().orElseThrow(() -> new BadInputException(outcome.problems()));
  }

  private static String text(Path file) throws BadInputException {
    try {
      if (Files.size(file) <= MOST_BYTES) {
        return Files.readString(file, StandardCharsets.UTF_8);
      }
    } catch (IOException e) {
      // Said below: not UTF-8, or not to be read.
    }
    throw new BadInputException(
        new Problem(
            file.toString(),
            0,
            "",
            "a rulebook, UTF-8 text of at most 1 MiB",
            "a file that is none",
            "hand in a rulebook file; docs/job-file.md says what it holds"));
  }
}
