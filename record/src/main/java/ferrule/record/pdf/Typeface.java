package ferrule.record.pdf;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/** The fonts that come with Ferrule. */
final class Typeface {
  /** For text. */
  static final Typeface REGULAR = new Typeface("IBMPlexSans-Regular.ttf");

  /** For heads. */
  static final Typeface BOLD = new Typeface("IBMPlexSans-SemiBold.ttf");

  /** For file names. */
  static final Typeface MONO = new Typeface("IBMPlexMono-Regular.ttf");

  /** Stands for a letter that the fonts do not hold. */
  static final int STAND_IN = '\uFFFD';

  private final byte[] bytes;
  private final CmapLookup glyphs;

  private Typeface(String file) {
    try (InputStream in = Typeface.class.getResourceAsStream("/fonts/" + file)) {
      if (in == null) {
        throw new IllegalStateException("Font " + file + " is missing from the program");
      }
      bytes = in.readAllBytes();
      try (TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(bytes))) {
        glyphs = font.getUnicodeCmapLookup();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The font file. */
  InputStream open() {
    return new ByteArrayInputStream(bytes);
  }

  /** Whether the font has a glyph for a code point. */
  boolean holds(int codePoint) {
    return glyphs.getGlyphId(codePoint) > 0;
  }

  /**
   * Text in which every letter that the font lacks, and everything that XML 1.0 forbids, is
   * replaced; marks that draw nothing are left out.
   */
  static String printable(String text) {
    StringBuilder clean = null;
    for (int i = 0; i < text.length(); ) {
      int c = text.codePointAt(i);
      int size = Character.charCount(c);
      boolean plain =
          (c >= ' ' && c < 127)
              || c == '\n'
              || (REGULAR.holds(c) && !unseen(c) && !Character.isISOControl(c));
      if (!plain && clean == null) {
        clean = new StringBuilder(text.length()).append(text, 0, i);
      }
      if (clean != null) {
        if (plain) {
          clean.appendCodePoint(c);
        } else if (Character.isISOControl(c) || Character.isSpaceChar(c)) {
          clean.append(' ');
        } else if (!unseen(c)) {
          clean.appendCodePoint(STAND_IN);
        }
      }
      i += size;
    }
    return clean == null ? text : clean.toString();
  }

  /** Marks of direction, joiners, variation selectors and the like. */
  private static boolean unseen(int codePoint) {
    int type = Character.getType(codePoint);
    return type == Character.FORMAT
        || type == Character.NON_SPACING_MARK
        || type == Character.ENCLOSING_MARK;
  }
}
