package ferrule.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;

/** Finds the files that are kept beside the tests. */
public final class Fixtures {

  private Fixtures() {}

  /** A kept file or folder. */
  public static Path path(String name) {
    try {
      return Path.of(
          Objects.requireNonNull(Fixtures.class.getResource("/ferrule/store/" + name), name)
              .toURI());
    } catch (URISyntaxException e) {
      throw new IllegalStateException(e);
    }
  }

  /**
   * A good job folder, to be spoilt at will: a copy of the invented mill.
   *
   * @param parent where to put it
   */
  public static Path mill(Path parent) {
    Path folder = parent.resolve("mill");
    copyMill(folder);
    return folder;
  }

  private static void copyMill(Path folder) {
    try {
      Files.createDirectories(folder);
      for (Path file : files(path("folders/mill"))) {
        Files.write(folder.resolve(fileName(file)), Files.readAllBytes(file));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The files of a folder, by name. */
  public static List<Path> files(Path folder) {
    try (Stream<Path> list = Files.list(folder)) {
      return list.filter(Files::isRegularFile).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The last part of a path. */
  public static String fileName(Path path) {
    return String.valueOf(path.getFileName());
  }

  /** Replaces some text of a file, which must be there. */
  public static void edit(Path file, String old, String now) throws IOException {
    String text = Files.readString(file);
    if (!text.contains(old)) {
      throw new IllegalArgumentException(file + " does not hold " + old);
    }
    Files.writeString(file, text.replace(old, now));
  }
}
