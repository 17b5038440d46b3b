package ferrule.store.job;

import ferrule.core.Problem;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.SQLException;
import java.util.random.RandomGenerator;

/** Lets a file grow under a hidden name beside its own, which it gets only when it is whole. */
final class NewFile {

  /** Fills a file that does not exist yet. */
  @FunctionalInterface
  interface Filler<T> {
    /**
     * Fills it.
     *
     * @param growing where it is to be made
     */
    T fill(Path growing) throws SQLException, IOException, JobFileException;
  }

  private NewFile() {}

  /**
   * Makes a file; if anything fails there is none.
   *
   * @param path must not exist
   * @param random for the hidden name
   * @param taken what to do if the name is taken
   */
  static <T> T make(Path path, RandomGenerator random, String taken, Filler<T> filler)
      throws JobFileException {
    if (Files.exists(path)) {
      throw new JobFileException(taken(path, taken));
    }
    Path folder = path.toAbsolutePath().getParent();
    if (folder != null && !Files.isDirectory(folder)) {
      throw new JobFileException(
          new Problem(
              path.toString(),
              0,
              "",
              "a place in a folder that is there",
              "no folder " + folder,
              "make it, or choose another"));
    }
    Path growing =
        path.resolveSibling("." + path.getFileName() + "." + Long.toHexString(random.nextLong()));
    try {
      T filled = filler.fill(growing);
      Files.move(growing, path);
      keepName(path);
      return filled;
    } catch (FileAlreadyExistsException e) {
      throw new JobFileException(taken(path, taken), e);
    } catch (IOException e) {
      throw Refusals.cannotWrite(path, e);
    } catch (SQLException e) {
      throw Refusals.translate(path, e);
    } finally {
      remove(growing);
    }
  }

  private static Problem taken(Path path, String action) {
    return new Problem(
        path.toString(),
        0,
        "",
        "a name that is not taken",
        Files.isDirectory(path) ? "a folder of this name" : "a file of this name",
        action);
  }

  /** Has the folder written to the disk, so that the name outlives a power cut too. */
  private static void keepName(Path path) {
    Path folder = path.toAbsolutePath().getParent();
    if (folder == null) {
      return;
    }
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    } catch (IOException e) {
      // Not every system lets a folder be opened; the file itself is on the disk.
    }
  }

  private static void remove(Path growing) {
    for (String ending : new String[] {"", "-wal", "-shm", "-journal"}) {
      try {
        Files.deleteIfExists(growing.resolveSibling(growing.getFileName() + ending));
      } catch (IOException e) {
        // A hidden leftover harms nobody; the real failure is on its way to the user.
      }
    }
  }
}
