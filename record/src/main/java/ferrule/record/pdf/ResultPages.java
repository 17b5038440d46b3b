package ferrule.record.pdf;

import ferrule.core.allowance.Allowance;
import ferrule.core.allowance.Term;
import ferrule.core.optics.Decibels;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.MissingReadings;
import ferrule.core.trust.Standing;
import ferrule.core.uncertainty.Decision;
import ferrule.record.chart.Band;
import ferrule.record.chart.LossMark;
import ferrule.record.chart.LossScale;
import ferrule.record.chart.LossStrip;
import ferrule.record.chart.MarginChart;
import ferrule.record.page.DoubtEntry;
import ferrule.record.page.RecordPage;
import ferrule.record.page.Show;
import ferrule.record.pdf.Sheets.Role;
import java.awt.Color;
import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import org.apache.pdfbox.pdmodel.PDPage;

/**
 * The results by place and link: for each fibre its standing, for each reading its numbers and its
 * strip. Drawn row by row, so that memory and time grow only with what is printed.
 */
final class ResultPages {

  /** A job with more readings than this is printed without the rows of proved fibres. */
  static final int MOST_READINGS = 50_000;

  private static final int PLACES_A_CHART = 36;

  private static final double SIZE = 6.9;
  private static final double ROW = 10.2;
  private static final double NOTE = 8.6;

  // Columns, points from the left edge of the text. Numbers end where their column says.
  private static final double FIBRE = 9;
  private static final double STANDING = 56;
  private static final double CASE = 92;
  private static final double LOSS = 155;
  private static final double UNCERTAINTY = 178;
  private static final double LIMIT = 206;
  private static final double EXPECTED = 254;
  private static final double MARGIN = 281;
  private static final double DECISION = 287;
  private static final double ZERO = 322;
  private static final double STRIP = 354;
  private static final double POINTS_A_PIXEL = 0.75;

  /**
   * A head that the bookmarks name.
   *
   * @param title shown
   * @param page where it stands
   * @param level 1 for a place, 2 for a link
   */
  record Mark(String title, PDPage page, int level) {}

  private final Sheets sheets;
  private final Judgement judgement;
  private final Map<Doubt, Integer> numbers;
  private final boolean all;
  private final IdentityHashMap<Allowance, Boolean> memory = new IdentityHashMap<>();
  private final List<Mark> marks = new ArrayList<>();

  /**
   * @param mostReadings a job with more is printed without the rows of proved fibres
   */
  ResultPages(Sheets sheets, RecordPage page, int mostReadings) {
    this.sheets = sheets;
    this.judgement = page.judgement();
    this.numbers = DoubtEntry.numbers(page.doubts());
    this.all = judgement.ledger().readings().size() <= mostReadings;
  }

  /** Heads of places and links. */
  List<Mark> marks() {
    return marks;
  }

  void write() throws IOException {
    Map<String, Map<Link, List<FibreJudgement>>> places = places();
    head(places);
    for (Map.Entry<String, Map<Link, List<FibreJudgement>>> place : places.entrySet()) {
      place(place.getKey(), place.getValue());
    }
    sheets.close();
  }

  /** Fibres by the place of their A end, then by link, in the order of the schedule. */
  private Map<String, Map<Link, List<FibreJudgement>>> places() {
    Map<String, Map<Link, List<FibreJudgement>>> places = new LinkedHashMap<>();
    IdentityHashMap<Link, List<FibreJudgement>> links = new IdentityHashMap<>();
    for (FibreJudgement fibre : judgement.fibres()) {
      Link link = fibre.link();
      List<FibreJudgement> ofLink = links.get(link);
      if (ofLink == null) {
        ofLink = new ArrayList<>(link.fibres());
        links.put(link, ofLink);
        String place = link.a().place().isBlank() ? "Place not on record" : link.a().place();
        places.computeIfAbsent(place, k -> new LinkedHashMap<>()).put(link, ofLink);
      }
      ofLink.add(fibre);
    }
    return places;
  }

  private void head(Map<String, Map<Link, List<FibreJudgement>>> places) throws IOException {
    sheets.begin(Role.HEAD);
    sheets.text(sheets.bold(), 17, Sheets.INK, Sheets.LEFT, 14, "6 Results by place and link");
    sheets.end();
    sheets.down(26);
    paragraph(
        "Each row is one reading, in dB: loss, its uncertainty U (k = 2), limit, expected loss with"
            + " its spread, margin (limit less loss), decision, and the zero it was taken under. A"
            + " dagger marks a limit that holds a figure from memory: confirm against the standard."
            + " Rows are ordered by the place of end A.");
    paragraph(
        "The strip on the right shows the same: the pale field is the expected loss (mean and two"
            + " spreads), the heavy upright the limit with hatching beyond it, the diamond the"
            + " reading with a whisker for its uncertainty. A filled diamond is believed; a hollow"
            + " one is held back by a doubt. The strips of a link share one scale.");
    paragraph(
        all
            ? "Every attempt is printed; one that a later reading replaced says so, and decides nothing. readings.csv has them unrounded."
            : "This job has "
                + Show.count(judgement.ledger().readings().size(), "reading")
                + ". Only fibres that are not proved are printed reading by reading; the proved"
                + " ones are counted link by link. readings.csv and judgement.json have every"
                + " reading of every fibre.");
    List<AssessedReading> unscheduled =
        judgement.ledger().readings().stream().filter(r -> r.slot() < 0).toList();
    if (!unscheduled.isEmpty()) {
      paragraph(
          Show.count(unscheduled.size(), "reading")
              + " of fibres outside the schedule are not judged and not printed here; readings.csv"
              + " has them, and part 4 names their fibres.");
    }
    List<MarginChart.Line> lines = new ArrayList<>();
    places.forEach((place, links) -> lines.add(new MarginChart.Line(place, margins(links))));
    boolean any = lines.stream().anyMatch(l -> !l.isEmpty());
    for (int from = 0; any && from < lines.size(); from += PLACES_A_CHART) {
      marginChart(lines.subList(from, Math.min(lines.size(), from + PLACES_A_CHART)));
    }
  }

  private void marginChart(List<MarginChart.Line> lines) throws IOException {
    double height = MarginChart.height(lines.size()) * POINTS_A_PIXEL;
    sheets.need(height + 34);
    sheets.down(6);
    sheets.begin(Role.PLACE);
    sheets.text(
        sheets.bold(),
        9.4,
        Sheets.INK,
        Sheets.LEFT,
        9,
        "How far the readings lie from their limits");
    sheets.end();
    sheets.down(16);
    sheets.beginDecoration();
    MarginChart.draw(sheets.pen(Sheets.LEFT, 0), lines, Sheets.WIDTH / POINTS_A_PIXEL);
    sheets.end();
    sheets.down(height + 4);
    paragraph(
        "Thin line: from most to least margin; box: the middle half; thick upright: the median."
            + " Diamonds are single readings over their limit. Readings held back by a doubt are"
            + " included. On the right, how many readings.");
  }

  private double[] margins(Map<Link, List<FibreJudgement>> links) {
    return links.values().stream()
        .flatMap(List::stream)
        .flatMap(f -> f.readings().stream())
        .filter(AssessedReading::current)
        .mapToDouble(AssessedReading::marginDb)
        .toArray();
  }

  private void place(String place, Map<Link, List<FibreJudgement>> links) throws IOException {
    sheets.need(120);
    sheets.down(12);
    sheets.beginDecoration();
    sheets.rule(Sheets.FADED, 0.8, Sheets.LEFT, Sheets.LEFT + Sheets.WIDTH, 0);
    sheets.end();
    sheets.begin(Role.PLACE);
    String name = sheets.bold().fitted(clean(place), 12, Sheets.WIDTH);
    sheets.text(sheets.bold(), 12, Sheets.INK, Sheets.LEFT, 15, name);
    List<FibreJudgement> fibres = links.values().stream().flatMap(List::stream).toList();
    sheets.text(
        sheets.regular(),
        7.6,
        Sheets.FADED,
        Sheets.LEFT,
        27,
        Show.count(links.size(), "link") + "; " + totals(fibres));
    sheets.end();
    sheets.down(32);
    marks.add(new Mark(name, lastPage(), 1));
    for (Map.Entry<Link, List<FibreJudgement>> link : links.entrySet()) {
      link(link.getKey(), link.getValue());
    }
  }

  private PDPage lastPage() {
    return sheets.pages().get(sheets.pages().size() - 1);
  }

  private static String totals(List<FibreJudgement> fibres) {
    Map<Standing, Integer> counts = new EnumMap<>(Standing.class);
    fibres.forEach(f -> counts.merge(f.standing(), 1, Integer::sum));
    List<String> parts = new ArrayList<>();
    counts.forEach((standing, count) -> parts.add(Show.number(count) + " " + standing.word()));
    return Show.count(fibres.size(), "fibre") + ": " + String.join(", ", parts);
  }

  private void link(Link link, List<FibreJudgement> fibres) throws IOException {
    List<FibreJudgement> printed =
        all ? fibres : fibres.stream().filter(f -> f.standing() != Standing.PROVED).toList();
    List<LossMark> strips = new ArrayList<>();
    printed.forEach(f -> strips.addAll(LossMark.of(f)));
    LossScale scale = LossScale.of(strips);
    double first = printed.isEmpty() ? NOTE : height(printed.get(0));
    List<String> about = wrapped(about(link, fibres), 7.2, Sheets.WIDTH, 3);
    sheets.need(24 + about.size() * 9.2 + 14 + first);
    sheets.down(7);
    sheets.begin(Role.LINK);
    String name = sheets.bold().fitted(clean("Link " + link.id()), 8.8, Sheets.WIDTH);
    sheets.text(sheets.bold(), 8.8, Sheets.INK, Sheets.LEFT, 9, name);
    sheets.end();
    marks.add(new Mark(name, lastPage(), 2));
    sheets.down(12);
    sheets.begin(Role.TEXT);
    for (String line : about) {
      sheets.text(sheets.regular(), 7.2, Sheets.FADED, Sheets.LEFT, 7, line);
      sheets.down(9.2);
    }
    sheets.end();
    if (!printed.isEmpty()) {
      columns(scale);
    }
    for (FibreJudgement fibre : printed) {
      if (sheets.need(height(fibre))) {
        sheets.begin(Role.TEXT);
        sheets.text(sheets.regular(), 7.2, Sheets.FADED, Sheets.LEFT, 7, name + ", continued");
        sheets.end();
        sheets.down(10);
        columns(scale);
      }
      fibre(fibre, scale);
    }
  }

  private String about(Link link, List<FibreJudgement> fibres) {
    String text =
        Show.orUnknown(link.a().where())
            + " ("
            + link.a().connector()
            + ") to "
            + Show.orUnknown(link.b().where())
            + " ("
            + link.b().connector()
            + "); "
            + link.category().label()
            + ", "
            + Show.metres(link.lengthM())
            + " m, "
            + Show.count(link.connections(), "connection")
            + " inside, "
            + Show.count(link.splices(), "splice")
            + (link.devices().isEmpty() ? "" : ", " + String.join(", ", link.devices()))
            + "; "
            + totals(fibres);
    return all ? text : text + leastMargin(fibres);
  }

  private static String leastMargin(List<FibreJudgement> fibres) {
    return fibres.stream()
        .filter(f -> f.standing() == Standing.PROVED)
        .flatMap(f -> f.readings().stream())
        .filter(AssessedReading::current)
        .mapToDouble(AssessedReading::marginDb)
        .filter(m -> !Double.isNaN(m))
        .min()
        .stream()
        .mapToObj(m -> "; least margin of the proved " + Decibels.shown(m) + " dB")
        .findFirst()
        .orElse("");
  }

  private void columns(LossScale scale) throws IOException {
    Face face = sheets.regular();
    Color colour = Sheets.FADED;
    sheets.begin(Role.TEXT);
    sheets.text(face, SIZE, colour, Sheets.LEFT + FIBRE, 8, "Fibre");
    sheets.text(face, SIZE, colour, Sheets.LEFT + STANDING, 8, "Standing");
    sheets.text(face, SIZE, colour, Sheets.LEFT + CASE, 8, "Case");
    sheets.textRight(face, SIZE, colour, Sheets.LEFT + LOSS, 8, "Loss");
    sheets.textRight(face, SIZE, colour, Sheets.LEFT + UNCERTAINTY, 8, "U");
    sheets.textRight(face, SIZE, colour, Sheets.LEFT + LIMIT, 8, "Limit");
    sheets.textRight(face, SIZE, colour, Sheets.LEFT + EXPECTED, 8, "Expected");
    sheets.textRight(face, SIZE, colour, Sheets.LEFT + MARGIN, 8, "Margin");
    sheets.text(face, SIZE, colour, Sheets.LEFT + DECISION, 8, "Decision");
    sheets.text(face, SIZE, colour, Sheets.LEFT + ZERO, 8, "Zero");
    sheets.end();
    sheets.beginDecoration();
    LossStrip.ticks(
        sheets.pen(Sheets.LEFT + STRIP, 0), scale, LossStrip.SIDE, 9, stripPixels(), 11, 14);
    sheets.rule(Sheets.FADED, 0.6, Sheets.LEFT, Sheets.LEFT + Sheets.WIDTH, 11);
    sheets.end();
    sheets.down(12);
  }

  private static double stripPixels() {
    return (Sheets.WIDTH - STRIP) / POINTS_A_PIXEL - 2 * LossStrip.SIDE;
  }

  private double height(FibreJudgement fibre) throws IOException {
    int rows = Math.max(1, fibre.readings().size());
    return rows * ROW + notes(fibre).size() * NOTE + 3;
  }

  private void fibre(FibreJudgement fibre, LossScale scale) throws IOException {
    List<AssessedReading> readings = new ArrayList<>();
    fibre.readings().stream().filter(AssessedReading::current).forEach(readings::add);
    fibre.readings().stream().filter(r -> !r.current()).forEach(readings::add);
    int rows = Math.max(1, readings.size());
    List<String> notes = notes(fibre);
    double tall = rows * ROW + notes.size() * NOTE;
    sheets.beginDecoration();
    Band.draw(
        sheets.pen(Sheets.LEFT, 1.5),
        fibre.standing(),
        5 / POINTS_A_PIXEL,
        (tall - 2) / POINTS_A_PIXEL);
    sheets.end();
    for (int i = 0; i < rows; i++) {
      sheets.begin(Role.TEXT);
      if (i == 0) {
        String id = clean(fibre.fibre().toString());
        sheets.text(
            sheets.bold(),
            SIZE,
            Sheets.INK,
            Sheets.LEFT + FIBRE,
            7.6,
            fittedEnd(id, STANDING - FIBRE - 3));
        sheets.text(
            sheets.bold(), SIZE, Sheets.INK, Sheets.LEFT + STANDING, 7.6, fibre.standing().word());
      }
      if (readings.isEmpty()) {
        sheets.text(sheets.regular(), SIZE, Sheets.FADED, Sheets.LEFT + CASE, 7.6, "no reading");
      } else {
        numbers(readings.get(i));
      }
      sheets.end();
      if (!readings.isEmpty() && readings.get(i).current()) {
        AssessedReading reading = readings.get(i);
        sheets.beginDecoration();
        LossStrip.draw(
            sheets.pen(Sheets.LEFT + STRIP, 0),
            LossMark.of(reading, !fibre.blocked(reading)),
            scale,
            LossStrip.SIDE,
            0,
            stripPixels(),
            ROW / POINTS_A_PIXEL);
        sheets.end();
      }
      sheets.down(ROW);
    }
    if (!notes.isEmpty()) {
      sheets.begin(Role.TEXT);
      for (String note : notes) {
        sheets.text(sheets.regular(), 6.5, Sheets.FADED, Sheets.LEFT + FIBRE, 6.4, note);
        sheets.down(NOTE);
      }
      sheets.end();
    }
    sheets.beginDecoration();
    sheets.rule(Sheets.RULE, 0.4, Sheets.LEFT, Sheets.LEFT + Sheets.WIDTH, 0.6);
    sheets.end();
    sheets.down(3);
  }

  private void numbers(AssessedReading reading) throws IOException {
    Face face = sheets.regular();
    Color colour = reading.current() ? Sheets.INK : Sheets.FADED;
    double x = Sheets.LEFT;
    sheets.text(face, SIZE, colour, x + CASE, 7.6, reading.caseShown());
    sheets.textRight(face, SIZE, colour, x + LOSS, 7.6, Show.db(reading.lossDb()));
    if (!reading.current()) {
      sheets.text(
          face,
          SIZE,
          colour,
          x + LOSS + 12,
          7.6,
          "replaced; taken " + Show.time(reading.reading().measuredAt()) + " UTC");
      zero(reading, colour);
      return;
    }
    sheets.textRight(face, SIZE, colour, x + UNCERTAINTY, 7.6, Show.db(reading.expandedDb()));
    sheets.textRight(
        face,
        SIZE,
        colour,
        x + LIMIT,
        7.6,
        Show.db(reading.limitDb()) + (fromMemory(reading) ? Show.DAGGER : ""));
    sheets.textRight(
        face,
        SIZE,
        colour,
        x + EXPECTED,
        7.6,
        reading
            .allowance()
            .filter(a -> !Double.isNaN(a.expectedDb()))
            .map(a -> Show.db(a.expectedDb()) + " ± " + Show.db(a.expectedSdDb()))
            .orElse(Show.NOTHING));
    sheets.textRight(face, SIZE, colour, x + MARGIN, 7.6, Show.db(reading.marginDb()));
    Face decision = reading.decision() == Decision.ACCEPT ? face : sheets.bold();
    sheets.text(decision, SIZE, colour, x + DECISION, 7.6, reading.decision().word());
    zero(reading, colour);
  }

  private void zero(AssessedReading reading, Color colour) throws IOException {
    String zero = clean(reading.reading().reference());
    sheets.text(
        sheets.regular(),
        SIZE,
        colour,
        Sheets.LEFT + ZERO,
        7.6,
        sheets.regular().fitted(zero, SIZE, STRIP - ZERO - 2));
  }

  private boolean fromMemory(AssessedReading reading) {
    return reading
        .allowance()
        .map(
            a ->
                memory.computeIfAbsent(
                    a,
                    k -> {
                      for (Term term : k.limitTerms().terms()) {
                        if (term.part().source().fromMemory()) {
                          return true;
                        }
                      }
                      return false;
                    }))
        .orElse(false);
  }

  /** What holds a fibre up, and where to read on; nothing for a fibre without doubts or gaps. */
  private List<String> notes(FibreJudgement fibre) throws IOException {
    TreeSet<Integer> blocking = new TreeSet<>();
    TreeSet<Integer> other = new TreeSet<>();
    for (Doubt doubt : fibre.doubts()) {
      Integer number = numbers.get(doubt);
      if (number != null) {
        (doubt.blocking() ? blocking : other).add(number);
      }
    }
    List<String> parts = new ArrayList<>();
    if (!blocking.isEmpty()) {
      parts.add("held back by doubt" + list(blocking));
    }
    if (fibre.standing() != Standing.PROVED) {
      MissingReadings.of(judgement.ledger(), fibre.slot()).forEach(parts::add);
    }
    if (!other.isEmpty()) {
      parts.add("see doubt" + list(other));
    }
    return parts.isEmpty()
        ? List.of()
        : wrapped(Show.sentence(clean(String.join("; ", parts))), 6.5, STRIP - FIBRE - 6, 3);
  }

  private static String list(SortedSet<Integer> numbers) {
    List<String> words = numbers.stream().map(String::valueOf).toList();
    return (words.size() > 1 ? "s " : " ") + String.join(", ", words);
  }

  private void paragraph(String text) throws IOException {
    List<String> lines = wrapped(text, 8.2, Sheets.WIDTH, 12);
    sheets.need(lines.size() * 11 + 4);
    sheets.begin(Role.TEXT);
    for (String line : lines) {
      sheets.text(sheets.regular(), 8.2, Sheets.INK, Sheets.LEFT, 8, line);
      sheets.down(11);
    }
    sheets.end();
    sheets.down(3);
  }

  /** Lines of a text, broken at spaces; the last ends in "…" if there would be more. */
  private List<String> wrapped(String text, double size, double width, int most)
      throws IOException {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : clean(text).split(" ", -1)) {
      String longer = line.isEmpty() ? word : line + " " + word;
      if (line.isEmpty() || sheets.regular().width(longer, size) <= width) {
        line = new StringBuilder(longer);
        continue;
      }
      if (lines.size() == most - 1) {
        line.append(" ").append(word).append(" …");
        break;
      }
      lines.add(sheets.regular().fitted(line.toString(), size, width));
      line = new StringBuilder(word);
    }
    lines.add(sheets.regular().fitted(line.toString(), size, width));
    return lines;
  }

  /** A fibre's name with its beginning cut if it is too long: the number must stay. */
  private String fittedEnd(String name, double width) throws IOException {
    if (sheets.bold().width(name, SIZE) <= width) {
      return name;
    }
    int from = 0;
    while (from < name.length() && sheets.bold().width("…" + name.substring(from), SIZE) > width) {
      from = name.offsetByCodePoints(from, 1);
    }
    return "…" + name.substring(from);
  }

  private static String clean(String text) {
    return Typeface.printable(text).replace('\n', ' ');
  }
}
