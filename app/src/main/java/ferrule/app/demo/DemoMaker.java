package ferrule.app.demo;

import ferrule.app.demo.Session.Crew;
import ferrule.app.demo.Session.Plant;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.SingleModeCoupling;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Connector.Polish;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.TreeSet;

/**
 * Invents the job from a seed: plausible glass and connections first, then the trouble of {@link
 * DemoPlan} and of the single fibres named here.
 *
 * <p>Glass: attenuation per cable around typical figures. Connections: loss by lateral offset, a gamma
 * law of mean 0.11 dB at 1310 nm, less at 1550 by the ratio of the mode fields; multimode the same at
 * both wavelengths. Each mating repeats within 0.03 dB, each reading is shown to 0.01 dB.
 */
final class DemoMaker {

  private static final Wavelength NM_850 = new Wavelength(850);
  private static final Wavelength NM_1300 = new Wavelength(1300);
  private static final Wavelength NM_1310 = new Wavelength(1310);
  private static final Wavelength NM_1550 = new Wavelength(1550);
  private static final String[] BUILDINGS = {
    "Press hall", "Bottling", "Cold store", "Gatehouse", "Cooperage"
  };
  private static final String HUB = "Office, room 0.12";

  private final SplittableRandom random;
  private final List<Link> links = new ArrayList<>();
  private final List<Zero> zeros = new ArrayList<>();
  private final List<Reading> readings = new ArrayList<>();
  private final Map<String, List<String>> planted = new LinkedHashMap<>();

  private DemoMaker(long seed) {
    this.random = new SplittableRandom(seed);
  }

  static DemoJob make(long seed) {
    DemoMaker maker = new DemoMaker(seed);
    maker.schedule();
    int nextSingleMode = 0;
    int nextMultimode = 0;
    List<Link> singleMode = maker.ofKind(FibreKind.SINGLE_MODE);
    List<Link> multimode = maker.ofKind(FibreKind.MULTIMODE);
    for (Session session : DemoPlan.SESSIONS) {
      boolean single = session.kind() == FibreKind.SINGLE_MODE;
      List<Link> all = single ? singleMode : multimode;
      int from = single ? nextSingleMode : nextMultimode;
      maker.test(session, all.subList(from, from + session.links()));
      if (single) {
        nextSingleMode += session.links();
      } else {
        nextMultimode += session.links();
      }
    }
    return new DemoJob(
        maker.toml(seed),
        maker.links,
        maker.instruments(),
        maker.cords(),
        maker.zeros,
        maker.readings,
        maker.planted);
  }

  private String toml(long seed) {
    return """
        # Invented by ferrule demo, seed %d. Nobody built this juice works; nobody in it exists.
        title = "Cherrywell juice works, all buildings (invented)"
        owner = "Cherrywell Juices (invented)"
        contractor = "Lantern Yard Cabling (invented)"

        [requirement]
        rulebook = "iso-11801-1"
        wavelengths_nm = [850, 1300, 1310, 1550]
        directions = "both"
        method = "one-cord"
        decision = "simple"
        applications = ["10GBASE-LR", "10GBASE-SR"]
        faces = "none"
        """
        .formatted(seed);
  }

  // ---- what is built ----

  private List<Link> ofKind(FibreKind kind) {
    return links.stream().filter(l -> l.category().kind() == kind).toList();
  }

  private static int linksOf(FibreKind kind) {
    return DemoPlan.SESSIONS.stream()
        .filter(s -> s.kind() == kind)
        .mapToInt(Session::links)
        .sum();
  }

  private void schedule() {
    int singleMode = linksOf(FibreKind.SINGLE_MODE);
    for (int i = 0; i < singleMode; i++) {
      String building = BUILDINGS[i * BUILDINGS.length / singleMode];
      boolean trunk = i % 9 == 0;
      boolean angled = i % 14 == 5;
      Connector connector = new Connector(angled ? "SC" : "LC", angled ? Polish.APC : Polish.UPC);
      links.add(
          new Link(
              String.format(Locale.ROOT, "S%03d", i + 1),
              FibreCategory.OS2,
              trunk ? 12 : 2,
              Math.round(random.nextDouble(80, trunk ? 2400 : 650)),
              new LinkEnd(HUB, String.format(Locale.ROOT, "H-%02d", i + 1), connector),
              new LinkEnd(
                  building + ", comms", String.format(Locale.ROOT, "%s-%02d", building.charAt(0), i + 1), connector),
              i % 3 == 1 ? 1 : 0,
              trunk ? 2 : 0,
              List.of()));
    }
    int multimode = linksOf(FibreKind.MULTIMODE);
    Connector connector = new Connector("LC", Polish.PC);
    for (int i = 0; i < multimode; i++) {
      String building = BUILDINGS[i * BUILDINGS.length / multimode];
      links.add(
          new Link(
              String.format(Locale.ROOT, "M%03d", i + 1),
              FibreCategory.OM4,
              2,
              Math.round(random.nextDouble(20, 140)),
              new LinkEnd(
                  building + ", comms", String.format(Locale.ROOT, "%s-M%02d", building.charAt(0), i + 1), connector),
              new LinkEnd(
                  building + ", floor " + (1 + i % 3), String.format(Locale.ROOT, "F-%03d", i + 1), connector),
              0,
              0,
              List.of()));
    }
  }

  private List<Instrument> instruments() {
    List<Instrument> instruments = new ArrayList<>();
    TreeSet<Wavelength> able = new TreeSet<>(List.of(NM_850, NM_1300, NM_1310, NM_1550));
    for (Crew crew : DemoPlan.CREWS) {
      for (int set = 1; set <= 2; set++) {
        boolean due = crew == DemoPlan.CHIDI && set == 2;
        instruments.add(
            new Instrument(
                set(crew, set),
                Instrument.Kind.SOURCE_AND_METER,
                able,
                Optional.of(LocalDate.parse(due ? "2025-10-14" : "2026-04-20")),
                Optional.of(LocalDate.parse(due ? DemoPlan.CHIDI_CALIBRATION_DUE : "2027-04-19"))));
      }
    }
    return instruments;
  }

  private static String set(Crew crew, int number) {
    return "T" + crew.letter() + number;
  }


  private List<Cord> cords() {
    List<Cord> cords = new ArrayList<>();
    for (Crew crew : DemoPlan.CREWS) {
      for (int number = 1; number <= 2; number++) {
        cords.add(cord("C" + crew.letter() + "-S" + number, FibreCategory.OS2, "LC", Polish.UPC));
        cords.add(cord("C" + crew.letter() + "-M" + number, FibreCategory.OM4, "LC", Polish.PC));
      }
    }
    cords.add(hybrid("CA-H1"));
    cords.add(hybrid("CA-H2"));
    return cords;
  }

  private static Cord cord(String id, FibreCategory category, String family, Polish polish) {
    Cord.CordEnd end =
        new Cord.CordEnd(
            Optional.of(new Connector(family, polish)), Optional.of(CordGrade.REFERENCE));
    return new Cord(
        id, category, Optional.of(2.0), end, end, OptionalInt.of(140), Optional.of(LocalDate.parse("2026-06-01")));
  }

  private static Cord hybrid(String id) {
    return new Cord(
        id,
        FibreCategory.OS2,
        Optional.of(2.0),
        new Cord.CordEnd(Optional.of(new Connector("LC", Polish.UPC)), Optional.of(CordGrade.REFERENCE)),
        new Cord.CordEnd(Optional.of(new Connector("SC", Polish.APC)), Optional.of(CordGrade.REFERENCE)),
        OptionalInt.of(60),
        Optional.of(LocalDate.parse("2026-06-01")));
  }

  // ---- how it was tested ----

  private static List<Wavelength> wavelengths(FibreKind kind) {
    return kind == FibreKind.SINGLE_MODE ? List.of(NM_1310, NM_1550) : List.of(NM_850, NM_1300);
  }

  private void test(Session session, List<Link> group) {
    // Single-mode work uses cords with LC at one end and SC angled at the other, so one zero serves
    // both; the crew turns the fitting end to the link.
    Zero zero = zero(session);
    zeros.add(zero);
    OffsetDateTime at = session.setAt().plusMinutes(14);
    for (int i = 0; i < group.size(); i++) {
      Link link = group.get(i);
      if (session.plants().contains(Plant.WENT_ON) && i == group.size() - 2) {
        at = session.setAt().plusDays(1).withHour(7).withMinute(40);
        plant("went-on", link.id());
        plant("went-on", group.get(i + 1).id());
      }
      at = link(session, zero, link, at);
    }
  }

  private Zero zero(Session session) {
    List<ZeroLevel> levels = new ArrayList<>();
    Crew crew = session.crew();
    boolean single = session.kind() == FibreKind.SINGLE_MODE;
    String family = single ? (crew == DemoPlan.ADA ? "H" : "S") : "M";
    int minute = 0;
    for (Direction direction : Direction.values()) {
      int near = direction == Direction.A_TO_B ? 1 : 2;
      for (Wavelength wavelength : wavelengths(session.kind())) {
        double usual = single ? -5.2 : -20.4;
        double power =
            usual + (wavelength.nm() > 1320 ? -0.3 : 0) + (near - 1) * 0.2 + normal() * 0.05;
        boolean dirty =
            session.plants().contains(Plant.DIRTY_ZERO) && direction == Direction.A_TO_B;
        if (dirty) {
          power -= 0.2;
        }
        if (session.plants().contains(Plant.LOW_POWER)
            && direction == Direction.B_TO_A
            && wavelength.nm() == 1310) {
          power -= 4.6;
        }
        double verification =
            Math.max(0.01, (single ? 0.07 : 0.04) + normal() * 0.015) - (dirty ? 0.2 : 0);
        levels.add(
            new ZeroLevel(
                instant(session.setAt().plusMinutes(minute++)),
                direction,
                wavelength,
                new LevelDbm(hundredths(power)),
                session.plants().contains(Plant.UNVERIFIED)
                    ? Optional.empty()
                    : Optional.of(new LossDb(hundredths(verification))),
                set(crew, near),
                set(crew, 3 - near),
                "C" + crew.letter() + "-" + family + near,
                "C" + crew.letter() + "-" + family + (3 - near),
                "",
                Optional.of(single ? FibreCategory.OS2 : FibreCategory.OM4),
                crew.operator()));
      }
    }
    return new Zero(
        session.zero(),
        session.plants().contains(Plant.TWO_CORD) ? Method.TWO_CORD : Method.ONE_CORD,
        levels);
  }

  private OffsetDateTime link(Session session, Zero zero, Link link, OffsetDateTime start) {
    boolean single = session.kind() == FibreKind.SINGLE_MODE;
    double long1 = single ? 0.338 + normal() * 0.006 : 2.32 + normal() * 0.05;
    double long2 = single ? 0.205 + normal() * 0.005 : 0.54 + normal() * 0.02;
    OffsetDateTime at = start;
    for (int fibre = 1; fibre <= link.fibres(); fibre++) {
      new FibreTest(session, zero, link, fibre, at).run(long1, long2);
      at = at.plusSeconds(75 + random.nextInt(30));
    }
    return at.plusSeconds(50 + random.nextInt(60));
  }

  /** One fibre under test: what it loses, and the readings of it. */
  private final class FibreTest {
    private final Session session;
    private final Zero zero;
    private final Link link;
    private final int fibre;
    private final OffsetDateTime at;
    private final String name;
    private double lengthM;

    FibreTest(Session session, Zero zero, Link link, int fibre, OffsetDateTime at) {
      this.session = session;
      this.zero = zero;
      this.link = link;
      this.fibre = fibre;
      this.at = at;
      this.name = link.id() + "/" + fibre;
      this.lengthM = link.lengthM();
    }

    void run(double dbPerKm1, double dbPerKm2) {
      lengthM = DemoTrouble.lengthOf(name, links).orElse(link.lengthM());
      if (lengthM != link.lengthM()) {
        plant("other-length", name);
      }
      double ends = connection(0.11) + connection(0.11);
      double inner = 0;
      for (int i = 0; i < link.connections(); i++) {
        inner += connection(0.18);
      }
      double splices = link.splices() * 0.05;
      double offset = ends + inner - takenOut();
      double km = lengthM / 1000;
      DemoTrouble.Extra extra = DemoTrouble.extra(name);
      extra.trouble().ifPresent(t -> plant(t, name));
      double shorter = km * dbPerKm1 + offset + splices + extra.shorterDb();
      double longer =
          km * dbPerKm2 + offset * scale(link.category().kind()) + splices + extra.longerDb();
      if (extra.retest()) {
        read(Direction.A_TO_B, shorter + 0.55, longer + 0.46, at.minusSeconds(40), lengthM);
      }
      if (extra.doubleLengthM() > 0) {
        read(Direction.A_TO_B, shorter + 0.03, longer + 0.02, at.minusSeconds(40), extra.doubleLengthM());
      }
      read(Direction.A_TO_B, shorter, longer, at, lengthM);
      if (!extra.oneWay()) {
        read(
            Direction.B_TO_A,
            shorter + extra.backDb(),
            longer + extra.backDb(),
            at.plusSeconds(25),
            lengthM);
      }
    }

    /** A two-cord zero takes one cord pair out of every reading. */
    private double takenOut() {
      return zero.method() == Method.TWO_CORD ? 0.06 : 0;
    }

    private void read(
        Direction direction, double shorter, double longer, OffsetDateTime when, double length) {
      double dirty =
          session.plants().contains(Plant.DIRTY_ZERO) && direction == Direction.A_TO_B ? 0.2 : 0;
      double mating = normal() * 0.03;
      List<Wavelength> wavelengths = wavelengths(session.kind());
      for (int i = 0; i < wavelengths.size(); i++) {
        Wavelength wavelength = wavelengths.get(i);
        double loss =
            hundredths(
                Math.max(0.03, (i == 0 ? shorter : longer) + mating + normal() * 0.008) - dirty);
        double stored =
            zero.level(direction, wavelength).orElseThrow().power().value();
        readings.add(
            new Reading(
                DemoTrouble.writtenName(link.id()),
                fibre,
                direction,
                wavelength,
                hundredths(stored - loss),
                loss,
                Math.round((length * (1 + normal() * 0.001) + normal() * 0.1) * 10) / 10.0,
                zero.id(),
                instant(when.plusSeconds(8L * i)),
                session.crew().operator()));
      }
    }
  }

  private static double scale(FibreKind kind) {
    return kind == FibreKind.SINGLE_MODE
        ? SingleModeCoupling.offsetFactorFrom1310(NM_1550)
        : 1;
  }

  private void plant(String trouble, String where) {
    planted.computeIfAbsent(trouble, k -> new ArrayList<>()).add(where);
  }

  /** A gamma law of shape 4 (four exponentials), cut where good work ends. */
  private double connection(double meanDb) {
    double sum = 0;
    for (int i = 0; i < 4; i++) {
      sum -= Math.log(1 - random.nextDouble());
    }
    return Math.min(meanDb * sum / 4, meanDb * 2.4);
  }

  /** A standard normal value (Box and Muller). */
  private double normal() {
    double radius = Math.sqrt(-2 * Math.log(1 - random.nextDouble()));
    return radius * Math.cos(2 * Math.PI * random.nextDouble());
  }

  private static double hundredths(double value) {
    return Math.round(value * 100) / 100.0;
  }

  private static Instant instant(OffsetDateTime time) {
    return time.toInstant();
  }
}
