package ferrule.record.pdf;

import java.io.IOException;
import java.util.Arrays;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

/** A font inside one document, with its widths at hand. */
final class Face {

  private static final int KEPT = 0x250;

  private final PDFont font;
  private final float[] widths = new float[KEPT];

  Face(PDDocument document, Typeface typeface) throws IOException {
    TrueTypeFont file = new TTFParser().parse(new RandomAccessReadBuffer(typeface.open()));
    // Ligatures would be looked for in every number; a table needs none.
    file.setEnableGsub(false);
    document.registerTrueTypeFontForClosing(file);
    this.font = PDType0Font.load(document, file, true);
    Arrays.fill(widths, -1);
  }

  PDFont font() {
    return font;
  }

  /** Width of printable text at a size, points. */
  double width(String text, double size) throws IOException {
    double sum = 0;
    for (int i = 0; i < text.length(); ) {
      int c = text.codePointAt(i);
      sum += width(c);
      i += Character.charCount(c);
    }
    return sum * size / 1000;
  }

  private float width(int codePoint) throws IOException {
    if (codePoint >= KEPT) {
      return font.getStringWidth(Character.toString(codePoint));
    }
    if (widths[codePoint] < 0) {
      widths[codePoint] = font.getStringWidth(Character.toString(codePoint));
    }
    return widths[codePoint];
  }

  /** The text, its end replaced by "…" if it is wider than {@code most} points. */
  String fitted(String text, double size, double most) throws IOException {
    if (width(text, size) <= most) {
      return text;
    }
    double left = most - width("…", size);
    int end = 0;
    while (end < text.length()) {
      int c = text.codePointAt(end);
      left -= width(c) * size / 1000;
      if (left < 0) {
        break;
      }
      end += Character.charCount(c);
    }
    return text.substring(0, end) + "…";
  }
}
