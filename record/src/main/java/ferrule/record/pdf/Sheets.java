package ferrule.record.pdf;

import ferrule.record.chart.Paint;
import ferrule.record.chart.Pen;
import ferrule.record.chart.Shape;
import java.awt.Color;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.documentinterchange.markedcontent.PDPropertyList;

/**
 * A4 pages that are filled from top to bottom. Measures are points; y runs down from the top of the
 * page. Everything drawn is either part of a passage, which readers of the document's structure
 * get, or decoration.
 */
final class Sheets {

  /** What a passage is, in the structure of the document. */
  enum Role {
    /** A part's head. */
    HEAD("H1"),
    /** A place's head. */
    PLACE("H2"),
    /** A link's head. */
    LINK("H3"),
    /** Anything else. */
    TEXT("P");

    private final String tag;

    Role(String tag) {
      this.tag = tag;
    }

    COSName tag() {
      return COSName.getPDFName(tag);
    }
  }

  /**
   * A passage as the document's structure needs it.
   *
   * @param page where it stands
   * @param number of its marked content on the page
   * @param role what it is
   */
  record Passage(PDPage page, int number, Role role) {}

  /** Ink. */
  static final Color INK = new Color(0x1B, 0x24, 0x30);

  /** For what is said quietly. */
  static final Color FADED = new Color(0x53, 0x5B, 0x66);

  /** Rules between rows. */
  static final Color RULE = new Color(0xCF, 0xC9, 0xB8);

  static final double LEFT = 42.5;
  static final double TOP = 60;
  static final double BOTTOM = 54;
  static final double WIDTH = PDRectangle.A4.getWidth() - 2 * LEFT;

  private static final double POINTS_A_PIXEL = 0.75;

  private final PDDocument document;
  private final Face regular;
  private final Face bold;
  private final List<PDPage> pages = new ArrayList<>();
  private final List<Passage> passages = new ArrayList<>();
  private PDPageContentStream content;
  private int marks;
  private double y;

  Sheets(PDDocument document, Face regular, Face bold) throws IOException {
    this.document = document;
    this.regular = regular;
    this.bold = bold;
    this.content = turn();
  }

  private PDPageContentStream turn() throws IOException {
    PDPage page = new PDPage(PDRectangle.A4);
    pages.add(page);
    marks = 0;
    y = TOP;
    return new PDPageContentStream(
        document, page, PDPageContentStream.AppendMode.OVERWRITE, true, true);
  }

  /** The pages begun so far, not yet part of the document. */
  List<PDPage> pages() {
    return pages;
  }

  /** The passages so far. */
  List<Passage> passages() {
    return passages;
  }

  Face regular() {
    return regular;
  }

  Face bold() {
    return bold;
  }

  double y() {
    return y;
  }

  void down(double points) {
    y += points;
  }

  /** Room left on the page. */
  double room() {
    return PDRectangle.A4.getHeight() - BOTTOM - y;
  }

  /** Turns the page unless there is room for so many points; says whether it did. */
  boolean need(double points) throws IOException {
    if (room() >= points) {
      return false;
    }
    content.close();
    content = turn();
    return true;
  }

  void close() throws IOException {
    content.close();
  }

  /** Begins a passage that readers of the structure get; {@link #end} ends it. */
  void begin(Role role) throws IOException {
    COSDictionary properties = new COSDictionary();
    properties.setInt(COSName.MCID, marks);
    content.beginMarkedContent(role.tag(), PDPropertyList.create(properties));
    passages.add(new Passage(pages.get(pages.size() - 1), marks, role));
    marks++;
  }

  /** Begins decoration; {@link #end} ends it. */
  void beginDecoration() throws IOException {
    content.beginMarkedContent(COSName.ARTIFACT);
  }

  void end() throws IOException {
    content.endMarkedContent();
  }

  /** Text with its baseline at {@code down} below the current line. */
  void text(Face face, double size, Color colour, double x, double down, String text)
      throws IOException {
    if (text.isEmpty()) {
      return;
    }
    content.beginText();
    content.setFont(face.font(), (float) size);
    content.setNonStrokingColor(colour);
    content.newLineAtOffset((float) x, (float) up(y + down));
    content.showText(text);
    content.endText();
  }

  /** Text that ends at {@code x}. */
  void textRight(Face face, double size, Color colour, double x, double down, String text)
      throws IOException {
    text(face, size, colour, x - face.width(text, size), down, text);
  }

  void rule(Color colour, double width, double x1, double x2, double down) throws IOException {
    content.setStrokingColor(colour);
    content.setLineWidth((float) width);
    content.moveTo((float) x1, (float) up(y + down));
    content.lineTo((float) x2, (float) up(y + down));
    content.stroke();
  }

  private static double up(double down) {
    return PDRectangle.A4.getHeight() - down;
  }

  /** A pen whose corner 0, 0 lies at a point of the page; it draws on the page as it now is. */
  Pen pen(double x, double down) {
    return new PagePen(x, y + down);
  }

  private final class PagePen implements Pen {
    private final double x0;
    private final double y0;

    PagePen(double x0, double y0) {
      this.x0 = x0;
      this.y0 = y0;
    }

    private float x(double x) {
      return (float) (x0 + x * POINTS_A_PIXEL);
    }

    private float y(double y) {
      return (float) up(y0 + y * POINTS_A_PIXEL);
    }

    @Override
    public void rect(String classes, double x, double y, double width, double height, Paint paint) {
      try {
        content.addRect(
            x(x),
            y(y + height),
            (float) (width * POINTS_A_PIXEL),
            (float) (height * POINTS_A_PIXEL));
        paint(paint);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public void shape(String classes, Shape shape, Paint paint) {
      if (shape.steps().isEmpty()) {
        return;
      }
      try {
        for (Shape.Step step : shape.steps()) {
          switch (step.move()) {
            case TO -> content.moveTo(x(step.x()), y(step.y()));
            case LINE -> content.lineTo(x(step.x()), y(step.y()));
            case CLOSE -> content.closePath();
          }
        }
        paint(paint);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public void text(String classes, double x, double y, Anchor anchor, String words) {
      try {
        String printable = Typeface.printable(words);
        double size = TEXT_PX * POINTS_A_PIXEL;
        double wide = regular.width(printable, size);
        double from =
            switch (anchor) {
              case START -> 0;
              case MIDDLE -> wide / 2;
              case END -> wide;
            };
        Sheets.this.text(
            regular, size, INK, x(x) - from, y0 + y * POINTS_A_PIXEL - Sheets.this.y, printable);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    private void paint(Paint paint) throws IOException {
      boolean fill = !paint.fill().equals(Paint.NONE);
      boolean stroke = !paint.stroke().equals(Paint.NONE);
      // Paleness is mixed with the white of the paper, so that no page needs transparency.
      if (fill) {
        content.setNonStrokingColor(colour(paint.fill(), paint.fillOpacity()));
      }
      if (stroke) {
        content.setStrokingColor(colour(paint.stroke(), paint.strokeOpacity()));
        content.setLineWidth((float) (paint.width() * POINTS_A_PIXEL));
      }
      if (fill && stroke) {
        content.fillAndStroke();
      } else if (fill) {
        content.fill();
      } else {
        content.stroke();
      }
    }

    private Color colour(String name, double opacity) {
      Color full = name.equals(Paint.INK) ? INK : Color.decode(name);
      return opacity >= 1
          ? full
          : new Color(
              mixed(full.getRed(), opacity),
              mixed(full.getGreen(), opacity),
              mixed(full.getBlue(), opacity));
    }

    private int mixed(int part, double opacity) {
      return (int) Math.round(255 - (255 - part) * opacity);
    }
  }
}
