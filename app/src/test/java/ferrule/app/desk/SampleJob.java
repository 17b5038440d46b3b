package ferrule.app.desk;

import ferrule.core.Problem;
import ferrule.core.allowance.Expectations;
import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.job.Settings;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Cord.CordEnd;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.TreeSet;

/**
 * An invented job with invented names: about 300 single-mode fibres of a grain terminal that does
 * not exist, six zeros, and one trouble of each of several sorts. The losses are drawn around the
 * expected ones from a fixed seed.
 */
final class SampleJob {

  static final String NAME = "Saltmarsh grain terminal, silos 1 to 6 (invented)";

  private static final Wavelength NM_1310 = new Wavelength(1310);
  private static final Wavelength NM_1550 = new Wavelength(1550);
  private static final Connector LC = Connector.parse("LC-UPC").orElseThrow();
  private static final Instant MORNING = Instant.parse("2026-02-03T07:00:00Z");

  private static final int LINKS = 150;
  private static final int LINKS_A_ZERO = 25;

  private final Random random = new Random(20260203);
  private final List<Link> links = new ArrayList<>();
  private final List<Zero> zeros = new ArrayList<>();
  private final List<Reading> readings = new ArrayList<>();

  private SampleJob() {}

  static Judgement judgement() {
    return Judge.judge(job());
  }

  static Job job() {
    return new SampleJob().build();
  }

  /** A source of anything. */
  static DeskSource source(
      String name, Judgement judgement, List<Problem> problems, List<String> notes) {
    return new DeskSource() {
      @Override
      public Judgement judgement() {
        return judgement;
      }

      @Override
      public List<Problem> problems() {
        return problems;
      }

      @Override
      public List<String> notes() {
        return notes;
      }

      @Override
      public String jobName() {
        return name;
      }
    };
  }

  /** The sample job with two problems and a note. */
  static DeskSource source() {
    return source(
        NAME,
        judgement(),
        List.of(
            new Problem(
                "readings.csv",
                412,
                "loss_db",
                "a number of dB",
                "0,4l",
                "correct the cell and take the file in again"),
            new Problem(
                "links.csv", 77, "b_connector", "a connector such as LC-UPC", "LC?", "fill it in")),
        List.of("readings.csv: column remarks is not known and is kept nowhere"));
  }

  static Requirement requirement(String title, DecisionRule rule) {
    return new Requirement(
        title,
        "Saltmarsh Grain (invented)",
        "Fennel Cabling (invented)",
        ShippedRulebooks.find("iso-11801-1").orElseThrow(),
        new TreeSet<>(List.of(NM_1310, NM_1550)),
        Requirement.Directions.BOTH,
        Method.ONE_CORD,
        rule,
        List.of(),
        Requirement.FaceDemand.NONE,
        Settings.USUAL);
  }

  private Job build() {
    for (int i = 1; i <= LINKS; i++) {
      int silo = (i - 1) / LINKS_A_ZERO + 1;
      links.add(
          new Link(
              String.format("G%03d", i),
              FibreCategory.OS2,
              2,
              90 + 37 * (i % 23),
              new LinkEnd("Weighhouse, rack 2", silo + ":" + port(i), LC),
              new LinkEnd("Silo " + silo + ", plant room", "1:" + port(i), LC),
              i % 3,
              i % 4 == 0 ? 2 : 0,
              List.of()));
    }
    for (int n = 1; n <= 6; n++) {
      zeros.add(zero(n));
    }
    for (int i = 0; i < LINKS; i++) {
      read(i);
    }
    retests();
    strays();
    return new Job(
        requirement(NAME, DecisionRule.SIMPLE),
        links,
        List.of(
            instrument("S1", Instrument.Kind.SOURCE, "2026-11-30"),
            instrument("M1", Instrument.Kind.METER, "2026-11-30"),
            instrument("S2", Instrument.Kind.SOURCE, "2026-11-30"),
            instrument("M2", Instrument.Kind.METER, "2026-02-04")),
        List.of(
            cord("C-L1", CordGrade.REFERENCE, 120),
            cord("C-R1", CordGrade.REFERENCE, 118),
            cord("C-L2", CordGrade.REFERENCE, 40),
            cord("C-R2", CordGrade.STANDARD, 41)),
        zeros,
        readings,
        List.of());
  }

  private static String port(int link) {
    return String.format("%02d", (link - 1) % LINKS_A_ZERO + 1);
  }

  private static Instant zeroAt(int n) {
    return MORNING.plusSeconds(((n - 1) / 2) * 86_400L + ((n - 1) % 2) * 16_200L);
  }

  /** Z3 was not verified, the verification of Z4 is too high, the stored power of Z6 is too low. */
  private static Zero zero(int n) {
    boolean secondCrew = n >= 5;
    List<ZeroLevel> levels = new ArrayList<>();
    for (Direction direction : Direction.values()) {
      for (Wavelength wavelength : List.of(NM_1310, NM_1550)) {
        double power = wavelength.equals(NM_1310) ? -5.12 : -5.48;
        double verification = 0.06 + 0.01 * (n % 3) + (wavelength.equals(NM_1310) ? 0.02 : 0);
        levels.add(
            new ZeroLevel(
                zeroAt(n),
                direction,
                wavelength,
                new LevelDbm(n == 6 ? power - 5.1 : power + 0.02 * n),
                n == 3 ? Optional.empty() : Optional.of(new LossDb(n == 4 ? 0.34 : verification)),
                secondCrew ? "S2" : "S1",
                secondCrew ? "M2" : "M1",
                secondCrew ? "C-L2" : "C-L1",
                secondCrew ? "C-R2" : "C-R1",
                "",
                Optional.of(FibreCategory.OS2),
                secondCrew ? "B. Quill" : "A. Tarn"));
      }
    }
    return new Zero("Z" + n, Method.ONE_CORD, levels);
  }

  private void read(int i) {
    Link link = links.get(i);
    int n = i / LINKS_A_ZERO + 1;
    for (int fibre = 1; fibre <= 2; fibre++) {
      if (i == 40 && fibre == 2) {
        continue; // never read
      }
      double ends = 0.08 * random.nextGaussian();
      for (Direction direction : Direction.values()) {
        if (i >= 34 && i < 38 && direction == Direction.B_TO_A) {
          continue; // one direction only
        }
        for (Wavelength wavelength : List.of(NM_1310, NM_1550)) {
          Instant at = zeroAt(n).plusSeconds(600 + (i % LINKS_A_ZERO) * 300L + fibre * 40L);
          double extra =
              trouble(i, fibre, direction, wavelength) + ends + 0.02 * random.nextGaussian();
          add(link, fibre, direction, wavelength, "Z" + n, at, expected(link, wavelength) + extra);
        }
      }
    }
  }

  /** One trouble of each sort: over the limit, bend, one direction, less than the glass. */
  private static double trouble(int i, int fibre, Direction direction, Wavelength wavelength) {
    if (i == 3 && fibre == 1) {
      return 2.8;
    }
    if (i == 9 && fibre == 2 && wavelength.equals(NM_1550)) {
      return 0.7;
    }
    if (i == 14 && fibre == 1 && direction == Direction.B_TO_A) {
      return 0.45;
    }
    if (i == 20 && fibre == 2) {
      return -0.9;
    }
    return 0;
  }

  private static double expected(Link link, Wavelength wavelength) {
    double fibre =
        Expectations.fibre(link.category(), wavelength).orElseThrow().eachDb() * link.lengthKm();
    return fibre + 0.30 + 0.2 * link.connections() + 0.05 * link.splices();
  }

  private void add(
      Link link,
      int fibre,
      Direction direction,
      Wavelength wavelength,
      String zero,
      Instant at,
      double loss) {
    double length = link.id().equals("G013") ? link.lengthM() + 60 : link.lengthM() * 1.005;
    readings.add(
        new Reading(
            link.id(),
            fibre,
            direction,
            wavelength,
            Double.NaN,
            Math.round(loss * 100) / 100.0,
            length,
            zero,
            at,
            zero.compareTo("Z5") < 0 ? "A. Tarn" : "B. Quill"));
  }

  /** A cleaned and retested fibre: the first attempt stays. */
  private void retests() {
    Link link = links.get(1);
    for (Direction direction : Direction.values()) {
      for (Wavelength wavelength : List.of(NM_1310, NM_1550)) {
        double loss = expected(link, wavelength);
        add(link, 1, direction, wavelength, "Z1", zeroAt(1).plusSeconds(9_000), loss + 0.03);
      }
    }
  }

  /** Readings of a fibre nobody scheduled, and a link read long after its zero had lapsed. */
  private void strays() {
    Instant late = zeroAt(2).plusSeconds(14 * 3_600);
    readings.add(
        new Reading(
            "G999", 1, Direction.A_TO_B, NM_1310, Double.NaN, 0.41, Double.NaN, "Z2", late, ""));
    Link link = links.get(30);
    for (int fibre = 1; fibre <= 2; fibre++) {
      for (Wavelength wavelength : List.of(NM_1310, NM_1550)) {
        add(link, fibre, Direction.A_TO_B, wavelength, "Z2", late, expected(link, wavelength));
      }
    }
  }

  private static Instrument instrument(String id, Instrument.Kind kind, String due) {
    return new Instrument(
        id,
        kind,
        new TreeSet<>(List.of(NM_1310, NM_1550)),
        Optional.of(LocalDate.parse(due).minusYears(1)),
        Optional.of(LocalDate.parse(due)));
  }

  private static Cord cord(String id, CordGrade grade, int matings) {
    CordEnd end = new CordEnd(Optional.of(LC), Optional.of(grade));
    return new Cord(
        id,
        FibreCategory.OS2,
        Optional.of(2.0),
        end,
        end,
        OptionalInt.of(matings),
        Optional.of(LocalDate.parse("2025-10-01")));
  }

  /**
   * A job of names meant to break pages: markup, quotes, slashes, blanks, umlauts, dots, reversed
   * text.
   */
  static Job hostile() {
    List<Link> links = new ArrayList<>();
    List<Reading> readings = new ArrayList<>();
    String zero = "Z/\"1\" <i>&ö?#%";
    for (String id : HOSTILE_LINKS) {
      links.add(
          new Link(
              id,
              FibreCategory.OS2,
              2,
              100,
              new LinkEnd("<script>alert(1)</script>", "\"'><img src=x onerror=alert(2)>", LC),
              new LinkEnd("Raum Ä & Ö/1?x=1#y", "\u202e1:07", LC),
              0,
              0,
              List.of("splitter-<b>1x8</b>")));
      readings.add(
          new Reading(
              id,
              1,
              Direction.A_TO_B,
              NM_1310,
              Double.NaN,
              0.4,
              Double.NaN,
              zero,
              MORNING.plusSeconds(900),
              "</td><script>alert(3)</script>"));
    }
    ZeroLevel level =
        new ZeroLevel(
            MORNING,
            Direction.A_TO_B,
            NM_1310,
            new LevelDbm(-5),
            Optional.empty(),
            "<s>",
            "' onfocus='alert(4)",
            "",
            "",
            "",
            Optional.empty(),
            "</dd>");
    return new Job(
        requirement("<title>&amp;", DecisionRule.GUARDED),
        links,
        List.of(),
        List.of(),
        List.of(new Zero(zero, Method.ONE_CORD, List.of(level))),
        readings,
        List.of());
  }

  static final List<String> HOSTILE_LINKS =
      List.of(
          "K/1",
          "K 2",
          "Kä/\"3\"",
          "<b>K4</b>",
          "..",
          ".",
          "K%2F5",
          "K+6",
          "K;7=x",
          "K?8#9&a=b",
          "K\\9",
          "/",
          "K//10/",
          "'\"><script>alert(5)</script>");
}
