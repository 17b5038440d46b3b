package ferrule.record.chart;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Standing;
import ferrule.core.trust.Trust;
import ferrule.core.trust.TrustSpan;
import ferrule.core.trust.ZeroTrust;
import ferrule.core.trust.joint.JointEstimate.LevelShift;
import ferrule.core.uncertainty.Decision;
import ferrule.record.Jobs;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NamedNodeMap;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class DrawingsTest {

  private static final LossMark GOOD =
      new LossMark("K001/1 1310 nm A-B", 0.45, 1.6, 0.4, 0.1, 0.14, Decision.ACCEPT, true);

  private static Document parse(String svg) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)));
  }

  private static List<Element> elements(Document document) {
    List<Element> elements = new ArrayList<>();
    NodeList all = document.getElementsByTagName("*");
    for (int i = 0; i < all.getLength(); i++) {
      elements.add((Element) all.item(i));
    }
    return elements;
  }

  private static boolean hasClass(Document document, String name) {
    return elements(document).stream()
        .anyMatch(e -> List.of(e.getAttribute("class").split(" ")).contains(name));
  }

  private static double[] xs(Document document, String name) {
    return elements(document).stream()
        .filter(e -> List.of(e.getAttribute("class").split(" ")).contains(name))
        .flatMap(e -> Pattern.compile("[ML](-?[0-9.]+) ").matcher(e.getAttribute("d")).results())
        .mapToDouble(m -> Double.parseDouble(m.group(1)))
        .toArray();
  }

  private static List<String> allDrawings() {
    Judgement judgement = Jobs.mixed();
    List<String> drawings = new ArrayList<>();
    List<LossMark> all = new ArrayList<>();
    for (FibreJudgement fibre : judgement.fibres()) {
      List<LossMark> marks = LossMark.of(fibre);
      all.addAll(marks);
      for (int i = 0; i < marks.size(); i++) {
        drawings.add(
            LossStrip.svg(fibre.fibre() + "-" + i, marks.get(i), LossScale.of(marks), 180, 14));
      }
    }
    drawings.add(LossStrip.axis("axis", LossScale.of(all), 300));
    drawings.add(LossChart.svg("chart", "All <readings> & more", all, 500));
    drawings.add(
        MarginChart.svg(
            "margins",
            "Places",
            List.of(
                new MarginChart.Line(
                    "Block A", all.stream().mapToDouble(m -> m.limitDb() - m.lossDb()).toArray()),
                new MarginChart.Line("Nothing here", new double[] {Double.NaN}),
                new MarginChart.Line("One", new double[] {-0.4})),
            500));
    for (Standing standing : Standing.values()) {
      drawings.add(Band.svg(standing, 28));
    }
    for (ZeroTrust zero : judgement.zeros()) {
      drawings.add(TrustLine.svg(zero.spans(), 420, 12));
    }
    for (Trust trust : Trust.values()) {
      drawings.add(TrustLine.sample(trust, 28, 12));
    }
    for (LevelShift shift : List.of(new LevelShift(-0.31, 0.02), new LevelShift(90, 4))) {
      drawings.add(
          ShiftStrip.svg(
              "shift " + shift.sdDb(),
              "A <level>",
              shift,
              ShiftStrip.reachDb(List.of()),
              true,
              260,
              18));
    }
    return drawings;
  }

  @Test
  void eachTrustHasAFormOfItsOwnThatNeedsNoColour() {
    Set<String> forms = new HashSet<>();
    for (Trust trust : Trust.values()) {
      forms.add(TrustLine.sample(trust, 28, 12).replaceAll("(fill|stroke)=\"#[0-9A-F]+\"", "$1"));
    }
    assertThat(forms).hasSize(Trust.values().length);
  }

  @Test
  void aLineOfTrustDividesItsWidthAsTimeDoes() throws Exception {
    Instant start = Instant.parse("2026-03-02T07:00:00Z");
    Document line =
        parse(
            TrustLine.svg(
                List.of(
                    new TrustSpan(start, start.plusSeconds(3600), Trust.VERIFIED, ""),
                    new TrustSpan(
                        start.plusSeconds(3600), start.plusSeconds(14_400), Trust.BROKEN, "")),
                400,
                12));
    List<Element> bars =
        elements(line).stream().filter(e -> e.getTagName().equals("rect")).toList();
    assertThat(bars).extracting(b -> b.getAttribute("x")).containsExactly("0", "100", "100");
    assertThat(bars).extracting(b -> b.getAttribute("width")).containsExactly("99", "299", "299");
    assertThat(
            hasClass(
                parse(
                    TrustLine.svg(
                        List.of(new TrustSpan(start, start, Trust.DOUBTFUL, "")), 400, 12)),
                "band-hatch"))
        .isTrue();
  }

  @Test
  void aShiftStripIsHollowInDoubtAndLiesWhereItsScalePutsIt() throws Exception {
    LevelShift shift = new LevelShift(-0.1, 0.05);
    assertThat(ShiftStrip.reachDb(List.of(shift))).isEqualTo(0.2);
    assertThat(ShiftStrip.reachDb(List.of(shift, new LevelShift(0.3, 0.03)))).isEqualTo(0.4);
    Document plain = parse(ShiftStrip.svg("s", "t", shift, 0.2, false, 212, 18));
    assertThat(hasClass(plain, "strip-hollow")).isFalse();
    // From 6 to 206 over 0.4 dB: 500 px a dB, no shift at 106.
    assertThat(xs(plain, "strip-limit")).containsOnly(106);
    assertThat(xs(plain, "strip-whisker")).contains(6, 106);
    Document doubted = parse(ShiftStrip.svg("s", "t", shift, 0.2, true, 212, 18));
    assertThat(hasClass(doubted, "strip-hollow")).isTrue();
    assertThat(ShiftStrip.shown(shift)).isEqualTo("-0.10 dB, standard deviation 0.05 dB");
    assertThat(ShiftStrip.shown(new LevelShift(0.31, 0.02))).startsWith("+0.31 dB");
    assertThat(ShiftStrip.shown(new LevelShift(0.001, 0.02))).startsWith("0.00 dB");
  }

  @Test
  void everyDrawingIsWellFormedNamedAndFreeOfScripts() throws Exception {
    Set<String> ids = new HashSet<>();
    for (String svg : allDrawings()) {
      Document document = parse(svg);
      assertThat(svg).doesNotContain("NaN").doesNotContain("Infinity");
      boolean hidden = document.getDocumentElement().getAttribute("aria-hidden").equals("true");
      assertThat(document.getElementsByTagName("title").getLength()).isEqualTo(hidden ? 0 : 1);
      assertThat(document.getElementsByTagName("desc").getLength()).isEqualTo(hidden ? 0 : 1);
      for (Element element : elements(document)) {
        assertThat(element.getTagName()).isIn("svg", "title", "desc", "rect", "path", "text");
        NamedNodeMap attributes = element.getAttributes();
        for (int i = 0; i < attributes.getLength(); i++) {
          String name = attributes.item(i).getNodeName();
          assertThat(name).doesNotStartWith("on").isNotEqualTo("style").isNotEqualTo("href");
          if (name.equals("id")) {
            assertThat(ids.add(attributes.item(i).getNodeValue())).isTrue();
          }
        }
      }
    }
  }

  @Test
  void theStripPutsTheReadingBetweenZeroAndLimitInProportion() throws Exception {
    LossScale scale = new LossScale(0, 2);
    Document strip = parse(LossStrip.svg("s", GOOD, scale, 212, 16));
    assertThat(xs(strip, "strip-limit")).containsOnly(6 + 160.0);
    double[] diamond = xs(strip, "strip-mark");
    assertThat((diamond[0] + diamond[2]) / 2).isEqualTo(6 + 45.0);
    assertThat(xs(strip, "strip-whisker")).contains(6 + 31.0, 6 + 59.0);
  }

  @Test
  void aReadingInDoubtIsHollowAndABelievedOneFilled() throws Exception {
    LossScale scale = LossScale.of(List.of(GOOD));
    LossMark doubted =
        new LossMark(GOOD.label(), 0.45, 1.6, 0.4, 0.1, 0.14, Decision.ACCEPT, false);
    assertThat(hasClass(parse(LossStrip.svg("s", GOOD, scale, 200, 16)), "strip-hollow")).isFalse();
    assertThat(hasClass(parse(LossStrip.svg("s", doubted, scale, 200, 16)), "strip-hollow"))
        .isTrue();
    assertThat(doubted.described()).contains("held back by a doubt");
  }

  @Test
  void whatIsNotKnownIsNotDrawn() throws Exception {
    LossMark bare =
        new LossMark(
            "x",
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Decision.UNDECIDED,
            true);
    Document strip = parse(LossStrip.svg("s", bare, LossScale.of(List.of(bare)), 200, 16));
    assertThat(hasClass(strip, "strip-mark")).isFalse();
    assertThat(hasClass(strip, "strip-limit")).isFalse();
    assertThat(hasClass(strip, "strip-expected")).isFalse();
  }

  @Test
  void aReadingOffTheScaleIsShownAtItsEndWithAnArrow() throws Exception {
    LossMark far = new LossMark("x", 75, 1.6, 0.4, 0.1, 0.14, Decision.REJECT, true);
    LossScale scale = LossScale.of(List.of(far));
    assertThat(scale.high()).isEqualTo(60);
    assertThat(hasClass(parse(LossStrip.svg("s", far, scale, 200, 16)), "strip-off")).isTrue();
  }

  @Test
  void theScaleReachesBelowZeroForANegativeReading() {
    LossMark below = new LossMark("x", -0.31, 1.6, 0.4, 0.1, 0.14, Decision.ACCEPT, false);
    assertThat(LossScale.of(List.of(below)).low()).isEqualTo(-0.5);
    assertThat(LossScale.of(List.of(GOOD)).low()).isZero();
    assertThat(LossScale.of(List.of(GOOD)).high()).isGreaterThan(1.6);
  }

  @Test
  void hatchingStaysInsideItsBox() {
    List<Shape.Step> steps = new Shape().hatch(10, 20, 31, 12, 5).steps();
    assertThat(steps).hasSizeGreaterThan(10);
    assertThat(steps).allMatch(s -> s.x() >= 10 && s.x() <= 41 && s.y() >= 20 && s.y() <= 32);
  }

  @Test
  void theBandsDifferInFormWithoutColour() throws Exception {
    Document proved = parse(Band.svg(Standing.PROVED, 24));
    Document failed = parse(Band.svg(Standing.FAILED, 24));
    Document doubtful = parse(Band.svg(Standing.DOUBTFUL, 24));
    Document open = parse(Band.svg(Standing.OPEN, 24));
    assertThat(proved.getElementsByTagName("rect").getLength()).isEqualTo(1);
    assertThat(failed.getElementsByTagName("rect").getLength()).isEqualTo(2);
    assertThat(hasClass(doubtful, "band-hatch")).isTrue();
    assertThat(hasClass(open, "band-fill")).isFalse();
    assertThat(hasClass(open, "band-hatch")).isFalse();
  }

  @Test
  void aLongChartSaysHowManyItLeavesOut() {
    List<LossMark> marks = new ArrayList<>();
    for (int i = 0; i < LossChart.MOST_STRIPS + 7; i++) {
      marks.add(GOOD);
    }
    assertThat(LossChart.svg("c", "t", marks, 400)).contains("and 7 more, not drawn");
  }

  @Test
  void theMarginChartDrawsEveryReadingOverItsLimit() throws Exception {
    Document chart =
        parse(
            MarginChart.svg(
                "m",
                "t",
                List.of(new MarginChart.Line("A", new double[] {1, 0.8, -0.2, -0.5, Double.NaN})),
                400));
    assertThat(xs(chart, "strip-mark")).hasSize(8);
    assertThat(chart.getElementsByTagName("desc").item(0).getTextContent())
        .contains("4 readings, least margin -0.50 dB");
  }

  @Test
  void hostileLabelsStayText() throws Exception {
    String evil = "\"><script>alert(1)</script>]]>\u0000\uD83D\uDE00\uD800 & '";
    LossMark mark = new LossMark(evil, 0.45, 1.6, 0.4, 0.1, 0.14, Decision.ACCEPT, true);
    for (String svg :
        List.of(
            LossStrip.svg(evil, mark, LossScale.of(List.of(mark)), 200, 14),
            LossChart.svg(evil, evil, List.of(mark), 400),
            MarginChart.svg(
                evil, evil, List.of(new MarginChart.Line(evil, new double[] {1})), 400))) {
      assertThat(parse(svg).getElementsByTagName("script").getLength()).isZero();
    }
  }

  /** Puts drawings on one page for a look, if asked to: -Dferrule.look=DIR. */
  @Test
  @org.junit.jupiter.api.condition.EnabledIfSystemProperty(named = "ferrule.look", matches = ".+")
  void look() throws Exception {
    List<String> drawings = allDrawings();
    Files.writeString(
        Path.of(System.getProperty("ferrule.look"), "charts.html"),
        "<body style='color:#1B2430'>"
            + String.join("<br>", drawings.subList(24, 60))
            + String.join("<br>", drawings.subList(drawings.size() - 7, drawings.size())));
  }
}
