package ferrule.app.face;

import ferrule.core.Problem;
import ferrule.core.face.Examined;
import ferrule.core.face.Grading;
import ferrule.store.intake.Sha256;
import ferrule.vision.FerruleExaminer;
import ferrule.vision.Picture;
import ferrule.vision.PictureException;
import ferrule.vision.PictureReader;
import ferrule.vision.PictureSize;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Semaphore;

/**
 * Reads and grades pictures, from as many threads as there are. Pictures large for the memory that
 * the program has wait for each other.
 */
public final class PictureGrader {

  /** Memory that reading and examining takes for each pixel, bytes; measured at 5 megapixels. */
  private static final long BYTES_PER_PIXEL = 120;

  private static final int SHARES = 64;

  /** Shares of the memory; a picture takes as many as it needs, at most all. */
  private final Semaphore room = new Semaphore(SHARES, true);

  /** Sees each graded picture while it is in memory. */
  @FunctionalInterface
  public interface Onlooker {
    /** Sees one. */
    void see(Picture picture, Looked.Graded graded);
  }

  /**
   * Grades one file and shows the picture with its grade to an onlooker.
   *
   * @param file the file
   * @param name how to name it
   * @param largest how many bytes it may have at most
   */
  public Looked grade(Path file, String name, long largest, FaceTerms terms, Onlooker onlooker) {
    byte[] bytes;
    try {
      if (!Files.isRegularFile(file)) {
        return unusable(name, "expected a picture, found no file of this name");
      }
      long size = Files.size(file);
      if (size > largest) {
        return unusable(
            name,
            "expected at most "
                + (largest >> 20)
                + " MiB, found "
                + (size >> 20)
                + " MiB and more");
      }
      bytes = Files.readAllBytes(file);
    } catch (IOException e) {
      return unusable(name, "expected a picture, found a file that cannot be read");
    }
    return grade(bytes, name, terms, onlooker);
  }

  /** Grades the bytes of a file and shows the picture with its grade to an onlooker. */
  public Looked grade(byte[] bytes, String name, FaceTerms terms, Onlooker onlooker) {
    int shares = shares(bytes);
    room.acquireUninterruptibly(shares);
    try {
      Picture picture = PictureReader.read(bytes);
      Examined face =
          FerruleExaminer.examine(
              picture.grey(), terms.criteria().smallest().value(), terms.umPerPx(), terms.fibres());
      Looked.Graded graded =
          new Looked.Graded(
              name,
              Sha256.of(bytes),
              face,
              Grading.gradeAny(terms.criteria(), terms.faceClass(), face));
      onlooker.see(picture, graded);
      return graded;
    } catch (PictureException e) {
      return unusable(name, String.valueOf(e.getMessage()));
    } catch (OutOfMemoryError e) {
      return unusable(name, "expected a picture that fits in memory, found a larger one");
    } finally {
      room.release(shares);
    }
  }

  private static int shares(byte[] bytes) {
    double part =
        (double) PictureSize.pixels(bytes) * BYTES_PER_PIXEL / Runtime.getRuntime().maxMemory();
    return (int) Math.min(SHARES, Math.max(1, Math.ceil(part * SHARES)));
  }

  private static Looked unusable(String name, String message) {
    // The reader says "expected ..., found ...; what to do" in one line.
    String[] parts = message.split(", found ", 2);
    String expected = parts[0].replaceFirst("^expected ", "");
    String[] found = (parts.length > 1 ? parts[1] : "another file").split("; ", 2);
    return new Looked.Unusable(
        name, new Problem(name, 0, "", expected, found[0], found.length > 1 ? found[1] : ""));
  }
}
