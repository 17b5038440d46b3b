package ferrule.app.face;

import ferrule.core.Problem;
import ferrule.core.face.ClassCriteria;
import ferrule.core.face.Examined;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.Flaw;
import ferrule.core.face.FlawKind;
import ferrule.core.face.Grade;
import ferrule.core.face.GradedFlaw;
import ferrule.core.face.RowGrade;
import ferrule.core.face.Zone;
import ferrule.core.face.ZoneBand;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import javax.imageio.ImageIO;

/**
 * A picture of an end face with what was seen on it: zones as fine dotted rings with their letters,
 * each flaw ringed and numbered, and a legend below. How a ring is drawn says what a flaw counts
 * for, its colour only says it again: over a limit - double; counted and within its limit - one
 * solid line; not counted - dashes. Every line is dark within light, so that it is seen on any
 * ground and in black and white. In a row of fibres each has its number, in a dark box beside its
 * cladding, and its flaws carry it: 3/1 is the first flaw of fibre 3.
 */
public final class Overlay {

  private static final Color PAPER = new Color(0xFBFAF6);
  private static final Color INK = new Color(0x1B2430);
  private static final Color OVER = new Color(0xB04A00);
  private static final Color WITHIN = new Color(0x005A8F);

  private static final int LEAST_WIDTH = 960;
  private static final int MOST_WIDTH = 2000;

  /** Of a row, so that no fibre is drawn too small; its letters are larger by as much. */
  private static final int MOST_ROW_WIDTH = 2800;

  private static final double ROW_LETTERS = 1.5;

  private static final int MOST_LISTED = 40;
  private static final double MARGIN = 20;
  private static final double TEXT = 16;
  private static final double LEADING = 23;

  /** How far the words about a flaw stand in, behind its number and ring. */
  private static final double IN = 84;

  /** What a flaw counts for. */
  private enum Weight {
    OVER("over the limit", Overlay.OVER),
    WITHIN("within the limit", Overlay.WITHIN),
    NONE("not counted", INK);

    private final String words;
    private final Color colour;

    Weight(String words, Color colour) {
      this.words = words;
      this.colour = colour;
    }
  }

  /**
   * One fibre as it is drawn.
   *
   * @param head what its flaws' numbers begin with: "3/" in a row, else empty
   */
  private record Fibre(Examined.Face face, Grade grade, String head) {
    boolean inRow() {
      return !head.isEmpty();
    }

    String number(GradedFlaw flaw) {
      return head + flaw.number();
    }
  }

  private final Looked.Graded graded;
  private final List<Fibre> fibres;
  private final FaceTerms terms;
  private final double zoom;
  private final Lettering plain;
  private final Lettering heavy;

  /** Size of letters, of lines of the legend, and how far its words stand in, px. */
  private final double size;

  private final double leading;
  private final double in;

  private Overlay(
      Looked.Graded graded, FaceTerms terms, double zoom, Lettering plain, Lettering heavy) {
    this.graded = graded;
    this.fibres = fibres(graded);
    this.terms = terms;
    this.zoom = zoom;
    this.plain = plain;
    this.heavy = heavy;
    double larger = graded.face() instanceof Examined.Row ? ROW_LETTERS : 1;
    size = TEXT * larger;
    leading = LEADING * larger;
    in = IN * larger;
  }

  private static List<Fibre> fibres(Looked.Graded graded) {
    if (graded.face() instanceof Examined.Row row && graded.grade() instanceof RowGrade grade) {
      List<Fibre> fibres = new ArrayList<>();
      for (int i = 0; i < row.fibres().size(); i++) {
        fibres.add(new Fibre(row.fibres().get(i), grade.fibres().get(i), i + 1 + "/"));
      }
      return fibres;
    }
    return List.of(new Fibre((Examined.Face) graded.face(), (Grade) graded.grade(), ""));
  }

  /**
   * Draws it.
   *
   * @param original the picture, upright
   * @param graded what was seen on it
   * @param terms by what it was graded
   * @return a PNG file
   */
  public static byte[] png(BufferedImage original, Looked.Graded graded, FaceTerms terms) {
    return file(original, graded, terms, "png");
  }

  /** Draws it as a JPEG file, a good deal smaller. */
  public static byte[] jpeg(BufferedImage original, Looked.Graded graded, FaceTerms terms) {
    return file(original, graded, terms, "jpeg");
  }

  private static byte[] file(
      BufferedImage original, Looked.Graded graded, FaceTerms terms, String format) {
    int width = original.getWidth();
    double most = graded.face() instanceof Examined.Row ? MOST_ROW_WIDTH : MOST_WIDTH;
    double zoom = Math.min(Math.max(1, (double) LEAST_WIDTH / width), most / width);
    try (Lettering plain = new Lettering(false);
        Lettering heavy = new Lettering(true)) {
      BufferedImage image = new Overlay(graded, terms, zoom, plain, heavy).drawn(original);
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      ImageIO.write(image, format, out);
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private record Line(Optional<Weight> weight, String number, String text, boolean head) {}

  private BufferedImage drawn(BufferedImage original) {
    int width = (int) Math.round(original.getWidth() * zoom);
    int height = (int) Math.round(original.getHeight() * zoom);
    List<Line> legend = legend(width - 2 * MARGIN);
    int strip = (int) Math.ceil(2 * MARGIN + legend.size() * leading);
    BufferedImage image = new BufferedImage(width, height + strip, BufferedImage.TYPE_INT_RGB);
    Graphics2D out = image.createGraphics();
    try {
      out.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      out.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
      out.setRenderingHint(
          RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
      out.setColor(PAPER);
      out.fillRect(0, 0, width, height + strip);
      out.clipRect(0, 0, width, height);
      out.drawImage(original, 0, 0, width, height, null);
      for (Fibre fibre : fibres) {
        if (fibre.face() instanceof Examined.Seen seen) {
          zones(out, fibre, seen);
          for (GradedFlaw flaw : fibre.grade().flaws()) {
            flaw(out, fibre, seen, flaw);
          }
        }
      }
      out.setClip(null);
      double y = height + MARGIN + size;
      for (Line line : legend) {
        line(out, line, y);
        y += leading;
      }
    } finally {
      out.dispose();
    }
    return image;
  }

  private double x(Examined.Seen seen, double um) {
    return (seen.cladding().cx() + 0.5 + um / seen.umPerPxX()) * zoom;
  }

  private double y(Examined.Seen seen, double um) {
    return (seen.cladding().cy() + 0.5 + um / seen.umPerPxY()) * zoom;
  }

  private Shape ring(Examined.Seen seen, double xUm, double yUm, double rUm, double morePx) {
    double rx = rUm / seen.umPerPxX() * zoom + morePx;
    double ry = rUm / seen.umPerPxY() * zoom + morePx;
    return new Ellipse2D.Double(x(seen, xUm) - rx, y(seen, yUm) - ry, 2 * rx, 2 * ry);
  }

  private void zones(Graphics2D out, Fibre fibre, Examined.Seen seen) {
    ClassCriteria rows = terms.criteria().of(terms.faceClass()).orElseThrow();
    double slant = Math.sqrt(0.5);
    for (ZoneBand band : rows.zones()) {
      // In a row the outer zones do not count, and would meet the neighbours'.
      if (fibre.inRow() && !terms.criteria().arrayZones().contains(band.zone())) {
        continue;
      }
      double r = band.outer().value() / 2;
      twice(out, ring(seen, 0, 0, r, 0), INK, 1, 2, 5);
      if (!fibre.inRow()) {
        tag(
            out,
            band.zone().name(),
            Math.min(x(seen, r * slant), out.getClipBounds().width - 14),
            Math.max(y(seen, -r * slant), 14),
            INK);
      }
    }
    if (fibre.inRow()) {
      String number = fibre.head().substring(0, fibre.head().length() - 1);
      double cx = Math.max(x(seen, -58), 16);
      double cy = Math.min(y(seen, 58), out.getClipBounds().height - 14);
      double w = heavy.width(number, 1.25 * size);
      out.setColor(PAPER);
      out.fill(new Rectangle2D.Double(cx - w / 2 - 7, cy - 0.8 * size - 2, w + 14, 1.6 * size + 4));
      out.setColor(INK);
      out.fill(new Rectangle2D.Double(cx - w / 2 - 5, cy - 0.8 * size, w + 10, 1.6 * size));
      out.setColor(PAPER);
      heavy.draw(out, number, cx - w / 2, cy + 0.45 * size, 1.25 * size);
    }
  }

  private void flaw(Graphics2D out, Fibre fibre, Examined.Seen seen, GradedFlaw one) {
    Flaw flaw = one.flaw();
    Weight weight = weight(fibre, one);
    // A ring about a long scratch would hide everything: only its middle is ringed.
    double r = flaw.kind() == FlawKind.SCRATCH ? Math.min(flaw.lengthUm(), 8) : flaw.lengthUm();
    Shape ring = ring(seen, flaw.xUm(), flaw.yUm(), r / 2, 6);
    switch (weight) {
      case OVER -> {
        twice(out, ring, weight.colour, 2.2f);
        twice(out, ring(seen, flaw.xUm(), flaw.yUm(), r / 2, 11), weight.colour, 2.2f);
      }
      case WITHIN -> twice(out, ring, weight.colour, 2.2f);
      case NONE -> twice(out, ring, weight.colour, 2.2f, 7, 6);
    }
    Rectangle2D box = ring.getBounds2D();
    double side = flaw.xUm() < 0 ? -1 : 1;
    double tx = box.getCenterX() + side * (box.getWidth() / 2 + 30);
    double ty = box.getCenterY() - box.getHeight() / 2 - 12;
    Rectangle2D room = out.getClipBounds();
    tx = Math.min(Math.max(tx, 16), room.getWidth() - 16);
    ty = Math.min(Math.max(ty, 14), room.getHeight() - 14);
    double rim = 0.707 * (box.getWidth() / 2 + (weight == Weight.OVER ? 5 : 0));
    twice(
        out,
        new Line2D.Double(box.getCenterX() + side * rim, box.getCenterY() - rim, tx, ty),
        weight.colour,
        1.5f);
    tag(out, fibre.number(one), tx, ty, weight.colour);
  }

  /** A dark line within a light one. */
  private static void twice(Graphics2D out, Shape shape, Color colour, float wide, float... dash) {
    float[] dashes = dash.length == 0 ? null : dash;
    out.setColor(PAPER);
    out.setStroke(
        new BasicStroke(wide + 2, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, dashes, 0));
    out.draw(shape);
    out.setColor(colour);
    out.setStroke(
        new BasicStroke(wide, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, dashes, 0));
    out.draw(shape);
  }

  private void tag(Graphics2D out, String text, double cx, double cy, Color colour) {
    double w = heavy.width(text, size);
    Rectangle2D box = new Rectangle2D.Double(cx - w / 2 - 4, cy - 0.69 * size, w + 8, 1.38 * size);
    out.setColor(PAPER);
    out.fill(box);
    out.setColor(colour);
    heavy.draw(out, text, cx - w / 2, cy + 0.38 * size, size);
  }

  private static Weight weight(Fibre fibre, GradedFlaw flaw) {
    if (!flaw.counted() || fibre.grade().outcome() == FaceOutcome.UNREADABLE) {
      return Weight.NONE;
    }
    long alike =
        fibre.grade().flaws().stream()
            .filter(f -> f.counted() && f.limit().equals(flaw.limit()))
            .count();
    return flaw.limit().filter(l -> l.isExceededBy(alike)).isPresent()
        ? Weight.OVER
        : Weight.WITHIN;
  }

  private List<Line> legend(double width) {
    List<Line> legend = new ArrayList<>();
    add(
        legend,
        Problem.printable(graded.picture()) + ": " + graded.grade().outcome().word(),
        width,
        true);
    add(
        legend,
        terms.criteria().title()
            + ", "
            + terms.criteria().edition()
            + "; class "
            + terms.faceClass().id(),
        width,
        false);
    if (fibres.stream().allMatch(f -> f.grade().flaws().isEmpty())
        || graded.grade().outcome() == FaceOutcome.UNREADABLE) {
      for (String reason : graded.grade().reasonTexts()) {
        add(legend, reason, width, false);
      }
    }
    if (fibres.get(0).inRow()) {
      add(legend, "Rings from the inside out: zones " + zonesOfRow(), width, false);
    }
    int listed = 0;
    int left = 0;
    for (Fibre fibre : fibres) {
      for (GradedFlaw flaw : fibre.grade().flaws()) {
        // In a row only what counts is listed: there is no room for more.
        if (fibre.inRow() && !flaw.counted()) {
          continue;
        }
        if (listed == MOST_LISTED) {
          left++;
          continue;
        }
        listed++;
        Weight weight = weight(fibre, flaw);
        String number = fibre.number(flaw);
        for (String line : plain.lines(words(flaw, weight), size, width - in)) {
          legend.add(new Line(Optional.of(weight), number, line, false));
          number = "";
        }
      }
    }
    if (left > 0) {
      add(legend, "and " + left + " flaws more", width, false);
    }
    return legend;
  }

  private String zonesOfRow() {
    return terms.criteria().arrayZones().stream()
        .sorted()
        .map(Zone::name)
        .collect(Collectors.joining(", "));
  }

  private static String words(GradedFlaw flaw, Weight weight) {
    return flaw.flaw().kind().word()
        + String.format(Locale.ROOT, ", %.1f µm", flaw.flaw().sizeUm())
        + (flaw.flaw().kind() == FlawKind.SCRATCH ? " wide" : "")
        + (flaw.close() ? " (close)" : "")
        + "; "
        + flaw.zone().map(z -> z.shown()).orElse("outside all zones")
        + "; "
        + weight.words
        + flaw.limit()
            .map(
                l ->
                    ": "
                        + l.shown()
                        + (l.provenance().fromMemory()
                            ? ", " + l.provenance().confidence().shown()
                            : ""))
            .orElse("");
  }

  private void add(List<Line> legend, String text, double width, boolean head) {
    for (String line : (head ? heavy : plain).lines(text, size, width)) {
      legend.add(new Line(Optional.empty(), "", line, head));
    }
  }

  private void line(Graphics2D out, Line line, double y) {
    if (line.weight().isPresent() && !line.number().isEmpty()) {
      Weight weight = line.weight().get();
      out.setColor(weight.colour);
      heavy.draw(out, line.number(), MARGIN, y, size);
      double cx = MARGIN + in - 20;
      double cy = y - 0.38 * size;
      switch (weight) {
        case OVER -> {
          twice(out, new Ellipse2D.Double(cx - 4, cy - 4, 8, 8), weight.colour, 2);
          twice(out, new Ellipse2D.Double(cx - 9, cy - 9, 18, 18), weight.colour, 2);
        }
        case WITHIN -> twice(out, new Ellipse2D.Double(cx - 8, cy - 8, 16, 16), weight.colour, 2);
        case NONE ->
            twice(out, new Ellipse2D.Double(cx - 8, cy - 8, 16, 16), weight.colour, 2, 5, 4);
      }
    }
    out.setColor(INK);
    (line.head() ? heavy : plain)
        .draw(out, line.text(), MARGIN + (line.weight().isPresent() ? in : 0), y, size);
  }
}
