package ferrule.app.face;

import ferrule.core.Problem;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Files and folders that a user named, as the pictures to look at. Of a folder all pictures count,
 * those of its folders too, in the order of their paths; hidden ones are left out, links to folders
 * are not followed. A picture named twice counts once.
 *
 * @param pictures each file, with its path below what the user named: the file's own name if the
 *     user named the file itself
 * @param notes files of a folder that were not looked at
 * @param problems folders without a picture, and such that cannot be read
 */
public record PictureFiles(Map<Path, Path> pictures, List<String> notes, List<Problem> problems) {

  /** GIF and its like are looked at to be told that they cannot be read, not passed over. */
  private static final Pattern PICTURE =
      Pattern.compile(".*\\.(png|jpe?g|jpe|bmp|tiff?|gif|webp|heic|jp2)");

  private static final int MOST_NAMED = 5;

  /** Lists them. */
  public static PictureFiles of(List<Path> named) {
    PictureFiles files =
        new PictureFiles(new LinkedHashMap<>(), new ArrayList<>(), new ArrayList<>());
    for (Path path : named) {
      if (Files.isDirectory(path)) {
        files.folder(path);
      } else {
        Path name = path.getFileName();
        files.pictures.putIfAbsent(path, name == null ? path : name);
      }
    }
    return files;
  }

  private void folder(Path folder) {
    List<Path> found;
    try (Stream<Path> walk = Files.walk(folder)) {
      found = walk.filter(p -> Files.isRegularFile(p) && !hidden(folder, p)).sorted().toList();
    } catch (IOException | UncheckedIOException e) {
      problems.add(
          new Problem(
              folder.toString(),
              0,
              "",
              "a folder that can be read",
              "another",
              "check its rights"));
      return;
    }
    List<Path> passed = new ArrayList<>();
    int pictured = 0;
    for (Path file : found) {
      if (PICTURE.matcher(file.toString().toLowerCase(Locale.ROOT)).matches()) {
        pictures.putIfAbsent(file, folder.relativize(file));
        pictured++;
      } else {
        passed.add(folder.relativize(file));
      }
    }
    if (pictured == 0) {
      problems.add(
          new Problem(
              folder.toString(),
              0,
              "",
              "a folder with pictures",
              passed.isEmpty() ? "an empty one" : passed.size() + " files of other kinds",
              "name a folder of PNG, JPEG, BMP or TIFF files"));
    } else if (!passed.isEmpty()) {
      String some =
          String.join(
              ", ",
              passed.stream().limit(MOST_NAMED).map(p -> Problem.printable(p.toString())).toList());
      notes.add(
          folder
              + ": not looked at, by their names no pictures: "
              + some
              + (passed.size() > MOST_NAMED
                  ? " and " + (passed.size() - MOST_NAMED) + " more"
                  : ""));
    }
  }

  private static boolean hidden(Path folder, Path file) {
    for (Path part : folder.relativize(file)) {
      if (part.toString().startsWith(".")) {
        return true;
      }
    }
    return false;
  }
}
