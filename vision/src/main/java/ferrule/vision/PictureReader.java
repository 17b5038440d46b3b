package ferrule.vision;

import java.awt.color.ColorSpace;
import java.awt.image.BufferedImage;
import java.awt.image.ComponentSampleModel;
import java.awt.image.DataBuffer;
import java.awt.image.Raster;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;

/**
 * Reads PNG, JPEG, BMP and TIFF by what the bytes say, not by the file's name. The size in the
 * header is checked before anything is decoded, so that a small file cannot unfold into a huge one.
 */
public final class PictureReader {
  /** Largest picture that is read, pixels. */
  public static final long MOST_PIXELS = 40_000_000;

  /** Largest file that is read, bytes. */
  public static final long MOST_BYTES = 256L << 20;

  private static final int LEAST_SIDE = 64;

  private PictureReader() {}

  /**
   * Reads a file.
   *
   * @throws PictureException if it holds no single picture of those kinds
   */
  public static Picture read(Path file) throws PictureException {
    try {
      if (!Files.isRegularFile(file)) {
        throw new PictureException("expected a picture, found no file of this name");
      }
      if (Files.size(file) > MOST_BYTES) {
        throw new PictureException(
            "expected at most 256 MiB, found " + (Files.size(file) >> 20) + " MiB");
      }
      return read(Files.readAllBytes(file));
    } catch (IOException e) {
      throw new PictureException("expected a picture, found a file that cannot be read");
    }
  }

  /**
   * Reads the bytes of a file.
   *
   * @throws PictureException if they hold no single picture of those kinds
   */
  public static Picture read(byte[] bytes) throws PictureException {
    String format = format(bytes);
    try (ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(bytes))) {
      Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName(format);
      if (!readers.hasNext()) {
        throw new PictureException("expected a picture, found " + format + ", unknown here");
      }
      ImageReader reader = readers.next();
      try {
        reader.setInput(in, false, true);
        return decoded(reader, format, bytes);
      } finally {
        reader.dispose();
      }
    } catch (IOException
        | IllegalArgumentException
        | IllegalStateException
        | IndexOutOfBoundsException
        | NegativeArraySizeException
        | ArithmeticException
        | ClassCastException
        | NullPointerException
        | UncheckedIOException
        | OutOfMemoryError e) {
      // The decoders of the platform throw all of these on broken files.
      throw new PictureException(
          "expected a whole " + format + " picture, found a truncated or broken one");
    }
  }

  private static Picture decoded(ImageReader reader, String format, byte[] bytes)
      throws IOException, PictureException {
    int width = reader.getWidth(0);
    int height = reader.getHeight(0);
    if ((long) width * height > MOST_PIXELS) {
      throw new PictureException(
          "expected at most 40 megapixels, found " + width + " by " + height);
    }
    if (width < LEAST_SIDE || height < LEAST_SIDE) {
      throw new PictureException(
          "expected at least 64 by 64 pixels, found " + width + " by " + height);
    }
    if (format.equals("png") && contains(bytes, "acTL") && apng(bytes)) {
      throw new PictureException("expected one picture, found an animated PNG");
    }
    if (format.equals("tiff") && reader.getNumImages(true) > 1) {
      throw new PictureException(
          "expected one picture, found " + reader.getNumImages(true) + " in one file");
    }
    if (format.equals("jpeg") && components(bytes) == 4) {
      throw new PictureException("expected grey or RGB, found CMYK; save it as RGB");
    }
    int[] bands = new int[] {0};
    reader.addIIOReadWarningListener((source, warning) -> bands[0]++);
    BufferedImage image = reader.read(0);
    if (image.getRaster().getNumBands() > 3 && !image.getColorModel().hasAlpha()
        || image.getColorModel().getColorSpace().getType() == ColorSpace.TYPE_CMYK) {
      throw new PictureException("expected grey or RGB, found CMYK; save it as RGB");
    }
    if (bands[0] > 0 && format.equals("jpeg") && !ended(bytes)) {
      throw new PictureException("expected a whole jpeg picture, found a truncated one");
    }
    Picture upright = turned(image, format.equals("jpeg") ? orientation(bytes) : 1);
    return upright;
  }

  private static String format(byte[] b) throws PictureException {
    if (b.length == 0) {
      throw new PictureException("expected a picture, found an empty file");
    }
    if (starts(b, 0x89, 'P', 'N', 'G')) {
      return "png";
    }
    if (starts(b, 0xFF, 0xD8, 0xFF)) {
      return "jpeg";
    }
    if (starts(b, 'I', 'I', 42, 0) || starts(b, 'M', 'M', 0, 42)) {
      return "tiff";
    }
    if (starts(b, 'B', 'M') && b.length > 26) {
      return "bmp";
    }
    String what = "a file of another kind";
    if (starts(b, 'G', 'I', 'F')) {
      what = "a GIF; save it as PNG";
    } else if (text(b)) {
      what = "text";
    }
    throw new PictureException("expected PNG, JPEG, BMP or TIFF, found " + what);
  }

  private static boolean text(byte[] b) {
    for (int i = 0; i < Math.min(b.length, 512); i++) {
      if (b[i] >= 0 && b[i] < 32 && b[i] != '\n' && b[i] != '\r' && b[i] != '\t') {
        return false;
      }
    }
    return true;
  }

  private static boolean starts(byte[] b, int... first) {
    if (b.length < first.length) {
      return false;
    }
    for (int i = 0; i < first.length; i++) {
      if ((b[i] & 255) != first[i]) {
        return false;
      }
    }
    return true;
  }

  private static boolean contains(byte[] b, String word) {
    String head = new String(b, 0, Math.min(b.length, 4096), StandardCharsets.ISO_8859_1);
    return head.contains(word);
  }

  private static boolean apng(byte[] b) {
    // Chunks before the first IDAT: length, name, data, checksum.
    long at = 8;
    while (at + 12 <= b.length) {
      String name = new String(b, (int) at + 4, 4, StandardCharsets.ISO_8859_1);
      if (name.equals("acTL")) {
        return true;
      }
      if (name.equals("IDAT")) {
        return false;
      }
      at += 12 + (u16(b, (int) at, true) * 65536L + u16(b, (int) at + 2, true));
    }
    return false;
  }

  private static boolean ended(byte[] b) {
    for (int i = b.length - 2; i >= Math.max(0, b.length - 4096); i--) {
      if ((b[i] & 255) == 0xFF && (b[i + 1] & 255) == 0xD9) {
        return true;
      }
    }
    return false;
  }

  /** Number of components in the first frame header of a JPEG, 0 if none is found. */
  private static int components(byte[] b) {
    int at = 2;
    while (at + 9 < b.length && (b[at] & 255) == 0xFF) {
      int marker = b[at + 1] & 255;
      if (marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC) {
        return b[at + 9] & 255;
      }
      at += 2 + u16(b, at + 2, true);
    }
    return 0;
  }

  /** The EXIF orientation, 1 to 8; 1 where there is none. */
  private static int orientation(byte[] b) {
    int at = 2;
    while (at + 4 < b.length && (b[at] & 255) == 0xFF && (b[at + 1] & 255) != 0xDA) {
      int length = u16(b, at + 2, true);
      if ((b[at + 1] & 255) == 0xE1 && at + 18 < b.length && b[at + 4] == 'E' && b[at + 5] == 'x') {
        return exif(b, at + 10, Math.min(b.length, at + 2 + length)).orElse(1);
      }
      at += 2 + length;
    }
    return 1;
  }

  private static Optional<Integer> exif(byte[] b, int tiff, int end) {
    boolean big = b[tiff] == 'M';
    long first = big ? u16(b, tiff + 6, true) : u16(b, tiff + 4, false);
    int directory = (int) (tiff + first);
    if (directory + 2 > end) {
      return Optional.empty();
    }
    int entries = u16(b, directory, big);
    for (int i = 0; i < entries; i++) {
      int entry = directory + 2 + 12 * i;
      if (entry + 12 > end) {
        break;
      }
      if (u16(b, entry, big) == 0x0112) {
        int value = u16(b, entry + 8, big);
        return value >= 1 && value <= 8 ? Optional.of(value) : Optional.empty();
      }
    }
    return Optional.empty();
  }

  private static int u16(byte[] b, int at, boolean big) {
    int one = b[at] & 255;
    int two = b[at + 1] & 255;
    return big ? one << 8 | two : two << 8 | one;
  }

  private static Picture turned(BufferedImage image, int orientation) {
    int w = image.getWidth();
    int h = image.getHeight();
    float[] grey = luma(image);
    if (orientation == 1) {
      return new Picture(new Grey(w, h, grey), image);
    }
    boolean swapped = orientation >= 5;
    int tw = swapped ? h : w;
    int th = swapped ? w : h;
    float[] out = new float[grey.length];
    BufferedImage upright = new BufferedImage(tw, th, BufferedImage.TYPE_INT_RGB);
    for (int y = 0; y < th; y++) {
      for (int x = 0; x < tw; x++) {
        int sx = swapped ? y : x;
        int sy = swapped ? x : y;
        if (orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8) {
          sx = w - 1 - sx;
        }
        if (orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7) {
          sy = h - 1 - sy;
        }
        out[y * tw + x] = grey[sy * w + sx];
        upright.setRGB(x, y, image.getRGB(sx, sy));
      }
    }
    return new Picture(new Grey(tw, th, out), upright);
  }

  /** Rec. 601 luma of the stored values; grey pictures keep all their bits. */
  private static float[] luma(BufferedImage image) {
    int w = image.getWidth();
    int h = image.getHeight();
    float[] grey = new float[w * h];
    Raster raster = image.getRaster();
    boolean indexed = image.getColorModel() instanceof java.awt.image.IndexColorModel;
    int bands = raster.getNumBands();
    if (!indexed && isPlainBytes(image)) {
      return bytesLuma(raster);
    }
    if (!indexed && image.getColorModel().getColorSpace().getType() == ColorSpace.TYPE_GRAY) {
      float full = (1 << Math.min(30, image.getColorModel().getComponentSize(0))) - 1;
      float[] row = new float[w];
      for (int y = 0; y < h; y++) {
        raster.getSamples(0, y, w, 1, 0, row);
        for (int x = 0; x < w; x++) {
          grey[y * w + x] = row[x] / full;
        }
      }
      return grey;
    }
    if (!indexed && bands >= 3 && image.getColorModel().getComponentSize(0) == 16) {
      float[] row = new float[w * bands];
      for (int y = 0; y < h; y++) {
        raster.getPixels(0, y, w, 1, row);
        for (int x = 0; x < w; x++) {
          grey[y * w + x] =
              (0.299f * row[x * bands] + 0.587f * row[x * bands + 1] + 0.114f * row[x * bands + 2])
                  / 65535f;
        }
      }
      return grey;
    }
    int[] row = new int[w];
    for (int y = 0; y < h; y++) {
      image.getRGB(0, y, w, 1, row, 0, w);
      for (int x = 0; x < w; x++) {
        int p = row[x];
        grey[y * w + x] =
            (0.299f * (p >> 16 & 255) + 0.587f * (p >> 8 & 255) + 0.114f * (p & 255)) / 255f;
      }
    }
    return grey;
  }

  /** Whether each sample is a byte of its own, grey or sRGB. */
  private static boolean isPlainBytes(BufferedImage image) {
    ColorSpace colours = image.getColorModel().getColorSpace();
    Raster raster = image.getRaster();
    return raster.getTransferType() == DataBuffer.TYPE_BYTE
        && raster.getSampleModel() instanceof ComponentSampleModel
        && image.getColorModel().getComponentSize(0) == 8
        && (colours.getType() == ColorSpace.TYPE_GRAY
            || colours.isCS_sRGB() && raster.getNumBands() >= 3);
  }

  private static float[] bytesLuma(Raster raster) {
    int w = raster.getWidth();
    int h = raster.getHeight();
    int bands = raster.getNumBands();
    float[] full = shares(bands < 3 ? 1 : 0.299f);
    float[] green = shares(0.587f);
    float[] blue = shares(0.114f);
    float[] grey = new float[w * h];
    byte[] row = new byte[w * bands];
    for (int y = 0; y < h; y++) {
      raster.getDataElements(0, y, w, 1, row);
      int at = y * w;
      if (bands < 3) {
        for (int x = 0; x < w; x++) {
          grey[at + x] = full[row[x * bands] & 255];
        }
      } else {
        for (int x = 0, k = 0; x < w; x++, k += bands) {
          grey[at + x] = full[row[k] & 255] + green[row[k + 1] & 255] + blue[row[k + 2] & 255];
        }
      }
    }
    return grey;
  }

  /** What each value of a byte adds. */
  private static float[] shares(float weight) {
    float[] out = new float[256];
    for (int v = 0; v < out.length; v++) {
      out[v] = weight * v / 255f;
    }
    return out;
  }
}
