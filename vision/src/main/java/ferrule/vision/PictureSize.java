package ferrule.vision;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Iterator;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;

/** How large a picture is, from its header alone. */
public final class PictureSize {

  private PictureSize() {}

  /**
   * Pixels of the first picture in a file; 0 if the header is none that is understood. Nothing is
   * decoded.
   */
  public static long pixels(byte[] bytes) {
    try (ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(bytes))) {
      Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
      if (!readers.hasNext()) {
        return 0;
      }
      ImageReader reader = readers.next();
      try {
        reader.setInput(in, false, true);
        return (long) reader.getWidth(0) * reader.getHeight(0);
      } finally {
        reader.dispose();
      }
    } catch (IOException | RuntimeException e) {
      // Broken files make decoders throw whatever they like; the reader will say what is wrong.
      return 0;
    }
  }
}
