package ferrule.app.face;

import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.awt.geom.GeneralPath;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.GlyphData;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/**
 * Letters drawn from the outlines of the fonts that come with Ferrule: a machine without a screen
 * often has no fonts of its own. One instance serves one picture.
 */
final class Lettering implements AutoCloseable {

  private final TrueTypeFont font;
  private final CmapLookup glyphs;
  private final double unit;

  /**
   * @param heavy for heads
   */
  Lettering(boolean heavy) {
    String file = "/fonts/IBMPlexSans-" + (heavy ? "SemiBold" : "Regular") + ".ttf";
    try (InputStream in = Lettering.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException("Font " + file + " is missing from the program");
      }
      font = new TTFParser().parse(new RandomAccessReadBuffer(in.readAllBytes()));
      glyphs = font.getUnicodeCmapLookup();
      unit = font.getUnitsPerEm();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Width of a text of some size, pixels. */
  double width(String text, double size) {
    return text.codePoints().mapToDouble(c -> advance(glyphs.getGlyphId(c))).sum() * size / unit;
  }

  private double advance(int glyph) {
    try {
      return font.getAdvanceWidth(glyph);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Draws a text with its foot line beginning at a place. */
  void draw(Graphics2D out, String text, double x, double y, double size) {
    double at = x;
    for (int c : text.codePoints().toArray()) {
      int glyph = glyphs.getGlyphId(c);
      try {
        GlyphData data = font.getGlyph().getGlyph(glyph);
        if (data != null) {
          GeneralPath path = data.getPath();
          AffineTransform place = AffineTransform.getTranslateInstance(at, y);
          place.scale(size / unit, -size / unit);
          path.transform(place);
          out.fill(path);
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
      at += advance(glyph) * size / unit;
    }
  }

  /** A text in lines of at most some width, broken at blanks. */
  List<String> lines(String text, double size, double most) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ", -1)) {
      if (!line.isEmpty() && width(line + " " + word, size) > most) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.isEmpty() ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  @Override
  public void close() {
    try {
      font.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
