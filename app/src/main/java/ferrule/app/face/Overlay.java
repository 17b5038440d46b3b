package ferrule.app.face;

import ferrule.core.Problem;
import ferrule.core.face.Cladding;
import ferrule.core.face.ClassCriteria;
import ferrule.core.face.Examined;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.Flaw;
import ferrule.core.face.FlawKind;
import ferrule.core.face.GradedFlaw;
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
import javax.imageio.ImageIO;

/**
 * A picture of an end face with what was seen on it: zones as fine dotted rings with their letters,
 * each flaw ringed and numbered, and a legend below. How a ring is drawn says what a flaw counts
 * for, its colour only says it again: over a limit - double; counted and within its limit - one
 * solid line; not counted - dashes. Every line is dark within light, so that it is seen on any
 * ground and in black and white.
 */
public final class Overlay {

  private static final Color PAPER = new Color(0xFBFAF6);
  private static final Color INK = new Color(0x1B2430);
  private static final Color OVER = new Color(0xB04A00);
  private static final Color WITHIN = new Color(0x005A8F);

  private static final int LEAST_WIDTH = 960;
  private static final int MOST_WIDTH = 2000;
  private static final int MOST_LISTED = 40;
  private static final double MARGIN = 20;
  private static final double TEXT = 16;
  private static final double LEADING = 23;

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

  private final Looked.Graded graded;
  private final FaceTerms terms;
  private final double zoom;
  private final Lettering plain;
  private final Lettering heavy;

  private Overlay(
      Looked.Graded graded, FaceTerms terms, double zoom, Lettering plain, Lettering heavy) {
    this.graded = graded;
    this.terms = terms;
    this.zoom = zoom;
    this.plain = plain;
    this.heavy = heavy;
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
    double zoom = Math.min(Math.max(1, (double) LEAST_WIDTH / width), (double) MOST_WIDTH / width);
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

  private record Line(Optional<GradedFlaw> flaw, String text, boolean head) {}

  private BufferedImage drawn(BufferedImage original) {
    int width = (int) Math.round(original.getWidth() * zoom);
    int height = (int) Math.round(original.getHeight() * zoom);
    List<Line> legend = legend(width - 2 * MARGIN);
    int strip = (int) Math.ceil(2 * MARGIN + legend.size() * LEADING);
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
      if (graded.face() instanceof Examined.Seen seen) {
        zones(out, seen);
        for (GradedFlaw flaw : graded.grade().flaws()) {
          flaw(out, seen, flaw);
        }
      }
      out.setClip(null);
      double y = height + MARGIN + TEXT;
      for (Line line : legend) {
        line(out, line, y);
        y += LEADING;
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

  private void zones(Graphics2D out, Examined.Seen seen) {
    Cladding edge = seen.cladding();
    ClassCriteria rows = terms.criteria().of(terms.faceClass()).orElseThrow();
    double slant = Math.sqrt(0.5);
    for (ZoneBand band : rows.zones()) {
      double r = band.outer().value() / 2;
      twice(out, ring(seen, 0, 0, r, 0), INK, 1, 2, 5);
      tag(
          out,
          band.zone().name(),
          Math.min(
              (edge.cx() + r * slant / seen.umPerPxX()) * zoom, out.getClipBounds().width - 14),
          Math.max((edge.cy() - r * slant / seen.umPerPxY()) * zoom, 14),
          INK);
    }
  }

  private void flaw(Graphics2D out, Examined.Seen seen, GradedFlaw one) {
    Flaw flaw = one.flaw();
    Weight weight = weight(one);
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
    tag(out, Integer.toString(one.number()), tx, ty, weight.colour);
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
    double w = heavy.width(text, TEXT);
    Rectangle2D box = new Rectangle2D.Double(cx - w / 2 - 4, cy - 11, w + 8, 22);
    out.setColor(PAPER);
    out.fill(box);
    out.setColor(colour);
    heavy.draw(out, text, cx - w / 2, cy + 6, TEXT);
  }

  private Weight weight(GradedFlaw flaw) {
    if (!flaw.counted() || graded.grade().outcome() == FaceOutcome.UNREADABLE) {
      return Weight.NONE;
    }
    long alike =
        graded.grade().flaws().stream()
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
        Optional.empty(),
        Problem.printable(graded.picture()) + ": " + graded.grade().outcome().word(),
        true,
        width);
    add(
        legend,
        Optional.empty(),
        terms.criteria().title()
            + ", "
            + terms.criteria().edition()
            + "; class "
            + terms.faceClass().id(),
        false,
        width);
    List<GradedFlaw> flaws = graded.grade().flaws();
    if (flaws.isEmpty() || graded.grade().outcome() == FaceOutcome.UNREADABLE) {
      for (String reason : graded.grade().reasonTexts()) {
        add(legend, Optional.empty(), reason, false, width);
      }
    }
    for (GradedFlaw flaw : flaws.subList(0, Math.min(flaws.size(), MOST_LISTED))) {
      add(legend, Optional.of(flaw), words(flaw), false, width - 60);
    }
    if (flaws.size() > MOST_LISTED) {
      add(
          legend,
          Optional.empty(),
          "and " + (flaws.size() - MOST_LISTED) + " flaws more",
          false,
          width);
    }
    return legend;
  }

  private String words(GradedFlaw flaw) {
    return flaw.flaw().kind().word()
        + String.format(Locale.ROOT, ", %.1f µm", flaw.flaw().sizeUm())
        + (flaw.flaw().kind() == FlawKind.SCRATCH ? " wide" : "")
        + (flaw.close() ? " (close)" : "")
        + "; "
        + flaw.zone().map(z -> z.shown()).orElse("outside all zones")
        + "; "
        + weight(flaw).words
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

  private void add(
      List<Line> legend, Optional<GradedFlaw> flaw, String text, boolean head, double width) {
    Optional<GradedFlaw> first = flaw;
    for (String line : (head ? heavy : plain).lines(text, TEXT, width)) {
      legend.add(new Line(first, flaw.isPresent() && first.isEmpty() ? "\t" + line : line, head));
      first = Optional.empty();
    }
  }

  private void line(Graphics2D out, Line line, double y) {
    if (line.flaw().isPresent()) {
      GradedFlaw flaw = line.flaw().get();
      Weight weight = weight(flaw);
      out.setColor(weight.colour);
      heavy.draw(out, Integer.toString(flaw.number()), MARGIN, y, TEXT);
      double cx = MARGIN + 40;
      double cy = y - 6;
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
    boolean in = line.flaw().isPresent() || line.text().startsWith("\t");
    out.setColor(INK);
    (line.head() ? heavy : plain).draw(out, line.text().strip(), MARGIN + (in ? 60 : 0), y, TEXT);
  }
}
