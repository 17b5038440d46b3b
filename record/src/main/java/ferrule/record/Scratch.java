package ferrule.record;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.stream.Stream;

/** Folders that are needed only for a while. */
public final class Scratch {

  private Scratch() {}

  /**
   * Takes a folder away with all that is in it: nothing but ours was ever there.
   *
   * @throws IOException if something of it cannot be deleted
   */
  public static void discard(Path folder) throws IOException {
    if (Files.exists(folder)) {
      try (Stream<Path> inside = Files.walk(folder)) {
        for (Path path : inside.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(path);
        }
      }
    }
  }
}
