package ferrule.app.face;

import ferrule.app.BadInputException;
import ferrule.core.Problem;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** The folder that annotated pictures go to: one file for each picture, none written over. */
public final class OverlayFolder {

  private final Path folder;
  private final Map<Path, Path> targets = new HashMap<>();

  private OverlayFolder(Path folder) {
    this.folder = folder;
  }

  /**
   * Plans a file for each picture: named after it, in the same folders below this one.
   *
   * @param pictures files with their paths below what the user named
   * @throws BadInputException if one of the files is there already
   */
  public static OverlayFolder plan(Path folder, Map<Path, Path> pictures) throws BadInputException {
    OverlayFolder overlays = new OverlayFolder(folder);
    Set<Path> taken = new HashSet<>();
    List<Problem> problems = new ArrayList<>();
    pictures.forEach(
        (picture, below) -> {
          Path target = folder.resolve(below + ".overlay.png");
          for (int i = 2; !taken.add(target); i++) {
            target = folder.resolve(below + ".overlay-" + i + ".png");
          }
          overlays.targets.put(picture, target);
          if (Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
            problems.add(overwritten(target));
          }
        });
    if (Files.exists(folder) && !Files.isDirectory(folder)) {
      problems.add(
          new Problem(
              folder.toString(), 0, "--overlay", "a folder", "a file", "name another folder"));
    }
    if (!problems.isEmpty()) {
      throw new BadInputException(problems);
    }
    return overlays;
  }

  private static Problem overwritten(Path target) {
    return new Problem(
        target.toString(),
        0,
        "--overlay",
        "a name that is not taken",
        "a file of this name",
        "name another folder: nothing is written over");
  }

  /**
   * Writes one.
   *
   * @param picture the picture that it was drawn on
   * @throws UncheckedIOException if it cannot be written, or is there by now
   */
  public void write(Path picture, byte[] png) {
    Path target = targets.getOrDefault(picture, folder);
    try {
      Path parent = target.getParent();
      if (parent != null) {
        Files.createDirectories(parent);
      }
      Files.write(target, png, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    } catch (FileAlreadyExistsException e) {
      throw new UncheckedIOException("a file " + target + " is there already", new IOException(e));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
