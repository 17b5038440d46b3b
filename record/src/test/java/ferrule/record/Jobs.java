package ferrule.record;

import ferrule.core.face.FaceClass;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.FacePicture;
import ferrule.core.face.GradedFace;
import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.job.Requirement.Directions;
import ferrule.core.job.Requirement.FaceDemand;
import ferrule.core.job.Settings;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.SingleModeCoupling;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.TreeSet;

/**
 * Invented jobs for tests: a site, names and numbers that do not exist. Losses come from a seeded
 * generator, so that a job is the same every time.
 */
public final class Jobs {

  /** The day on which every invented job begins. */
  public static final Instant START = Instant.parse("2026-03-02T07:00:00Z");

  private static final Connector LC = Connector.parse("LC-UPC").orElseThrow();
  private static final double STORED_SM_DBM = -5.2;
  private static final double STORED_MM_DBM = -20.4;

  private final SplittableRandom random = new SplittableRandom(20260302);
  private final List<Link> links = new ArrayList<>();
  private final List<Instrument> instruments = new ArrayList<>();
  private final List<Cord> cords = new ArrayList<>();
  private final List<Zero> zeros = new ArrayList<>();
  private final List<Reading> readings = new ArrayList<>();
  private final List<FacePicture> faces = new ArrayList<>();
  private final List<GradedFace> graded = new ArrayList<>();
  private String title = "Invented: Harbour cold store, blocks A to C";
  private String owner = "Invented: Harbour Cold Store Cooperative";
  private String contractor = "Invented: Northlight Cabling";
  private FaceDemand faceDemand = FaceDemand.NONE;
  private DecisionRule decision = DecisionRule.SIMPLE;
  private int[] wavelengths = {1310, 1550};
  private Instant now = START;

  /** One two-fibre link, all of it proved. */
  public static Judgement tiny() {
    Jobs jobs = new Jobs().kit();
    jobs.zero("R1", FibreKind.SINGLE_MODE, Method.ONE_CORD, 0.08, STORED_SM_DBM);
    jobs.link("K001", FibreCategory.OS2, 2, 310, "Block A, riser 1", "Block B, panel 1", 0, 2);
    jobs.read("K001", 1, "R1", 0, 0);
    jobs.read("K001", 2, "R1", 0, 0);
    return jobs.judge();
  }

  /** The tiny job under another title, owner and place, to be hostile with. */
  public static Judgement named(String title, String owner, String place) {
    Jobs jobs = new Jobs().kit();
    jobs.title = title;
    jobs.owner = owner;
    jobs.zero("R1", FibreKind.SINGLE_MODE, Method.ONE_CORD, 0.08, STORED_SM_DBM);
    jobs.link("K001", FibreCategory.OS2, 2, 310, place, "Block B, panel 1", 0, 2);
    jobs.read("K001", 1, "R1", 0, 0);
    jobs.read("K001", 2, "R1", 0, 2.9);
    return jobs.judge();
  }

  /** A job with nothing in it but a schedule. */
  public static Judgement untested() {
    Jobs jobs = new Jobs();
    jobs.link("K001", FibreCategory.OS2, 4, 310, "Block A, riser 1", "Block B, panel 1", 0, 2);
    return jobs.judge();
  }

  /** A job with no links at all. */
  public static Judgement empty() {
    return new Jobs().judge();
  }

  /** Values without sense under one zero, among ordinary ones; every third fibre has one. */
  public static Judgement wild() {
    double[] wild = {1e6, -1e6, 1e-300, 1e300, -1e300, Double.MAX_VALUE, -Double.MAX_VALUE};
    Jobs jobs = new Jobs().kit();
    jobs.zero("R1", FibreKind.SINGLE_MODE, Method.ONE_CORD, 0.08, STORED_SM_DBM);
    jobs.links(1, 4, FibreCategory.OS2, "Block A, riser 1", "Block A, panel ");
    jobs.readLinks(1, 4, "R1");
    for (int i = 0; i < 16; i++) {
      String link = "K00" + (1 + i / 4);
      int fibre = 1 + 3 * (i % 4);
      Direction direction = i % 2 == 0 ? Direction.A_TO_B : Direction.B_TO_A;
      jobs.fault(link, fibre, "R1", 1310, direction, wild[i % wild.length]);
      jobs.fault(link, fibre, "R1", 1550, direction, wild[(i + 3) % wild.length]);
    }
    return jobs.judge();
  }

  /** Some 300 fibres with every kind of doubt but ungraded faces. */
  public static Judgement mixed() {
    return mixedJob().judge();
  }

  /** The same with guarded acceptance and faces required: every fibre is held up. */
  public static Judgement mixedGuardedWithFaces() {
    Jobs jobs = mixedJob();
    jobs.faceDemand = FaceDemand.ENDS;
    jobs.decision = DecisionRule.GUARDED;
    jobs.faces.add(
        new FacePicture(
            "a1.png", "port:A/1", "found", "sm-pc", Optional.empty(), "Invented: P. Q."));
    FacePicture rejected =
        new FacePicture(
            "a2.png", "port:K001-a/1", "found", "sm-pc", Optional.empty(), "Invented: P. Q.");
    jobs.faces.add(rejected);
    jobs.graded.add(
        new GradedFace(
            rejected,
            "0".repeat(64),
            "iec-61300-3-35-2015",
            FaceClass.SM_PC,
            FaceOutcome.REJECTED,
            false,
            List.of("Invented: a defect in zone A (core)")));
    return jobs.judge();
  }

  /** A job of at least so many fibres, in links of twelve, with one doubtful zero in ten. */
  public static Judgement large(int fibres) {
    Jobs jobs = new Jobs().kit();
    int links = (fibres + 11) / 12;
    String zero = "";
    for (int i = 0; i < links; i++) {
      String id = "K" + String.format("%05d", i + 1);
      String place = "Block " + (char) ('A' + i / 40 % 26) + ", panel " + (1 + i / 8);
      if (i % 20 == 0) {
        jobs.now = jobs.now.plus(Duration.ofHours(13));
        zero = "R" + (1 + i / 20);
        jobs.zero(
            zero,
            FibreKind.SINGLE_MODE,
            Method.ONE_CORD,
            i % 200 == 100 ? Double.NaN : 0.07,
            STORED_SM_DBM);
      }
      jobs.link(id, FibreCategory.OS2, 12, 120 + 7 * (i % 60), place, "Core room", i % 3, 2);
      for (int fibre = 1; fibre <= 12; fibre++) {
        if (i % 50 == 7) {
          continue; // not tested yet
        }
        jobs.read(id, fibre, zero, 0, i % 97 == 3 && fibre == 5 ? 3.2 : 0);
      }
    }
    return jobs.judge();
  }

  /** Six zeros, all verified well; the readings under R3 lie 0.35 dB low, else all is in order. */
  public static Judgement shifted() {
    Jobs jobs = new Jobs().kit();
    for (int i = 0; i < 60; i++) {
      int zero = 1 + i / 10;
      if (i % 10 == 0) {
        jobs.pause(1);
        jobs.zero("R" + zero, FibreKind.SINGLE_MODE, Method.ONE_CORD, 0.08, STORED_SM_DBM);
      }
      String id = "K" + String.format("%03d", i + 1);
      jobs.link(id, FibreCategory.OS2, 2, 140 + 23 * (i % 9), "Block A", "Block B", i % 2, i % 4);
      for (int fibre = 1; fibre <= 2; fibre++) {
        double own = 0.1 * (jobs.random.nextDouble() + jobs.random.nextDouble() - 1);
        jobs.read(id, fibre, "R" + zero, zero == 3 ? -0.35 : 0, own);
      }
    }
    return jobs.judge();
  }

  /** Six zeros, each used on one panel only; what was read under R3 lies 0.25 dB high. */
  public static Judgement confounded() {
    Jobs jobs = new Jobs().kit();
    for (int i = 0; i < 72; i++) {
      int zero = 1 + i / 12;
      if (i % 12 == 0) {
        jobs.pause(1);
        jobs.zero("R" + zero, FibreKind.SINGLE_MODE, Method.ONE_CORD, 0.08, STORED_SM_DBM);
      }
      String id = "K" + String.format("%03d", i + 1);
      String panel = "Panel " + zero;
      jobs.link(id, FibreCategory.OS2, 2, 140 + 23 * (i % 9), panel, "Core " + i % 3, 0, 2);
      for (int fibre = 1; fibre <= 2; fibre++) {
        double own = 0.1 * (jobs.random.nextDouble() + jobs.random.nextDouble() - 1);
        jobs.read(id, fibre, "R" + zero, zero == 3 ? 0.25 : 0, own);
      }
    }
    return jobs.judge();
  }

  private static Jobs mixedJob() {
    Jobs jobs = new Jobs().kit();
    jobs.wavelengths = new int[] {850, 1300, 1310, 1550};
    FibreKind sm = FibreKind.SINGLE_MODE;
    // Cord grade: R1 stands alone and well; the others each carry one fault.
    jobs.zero("R1", sm, Method.ONE_CORD, 0.08, STORED_SM_DBM);
    jobs.links(1, 6, FibreCategory.OS2, "Block A, riser 1", "Block A, panel ");
    jobs.readLinks(1, 6, "R1");
    jobs.fault("K002", 3, "R1", 1550, Direction.A_TO_B, 1.30); // a bend
    jobs.fault("K002", 3, "R1", 1550, Direction.B_TO_A, 1.28);
    jobs.fault("K003", 7, "R1", 1310, Direction.A_TO_B, 3.90); // over its limit
    jobs.fault("K004", 2, "R1", 1310, Direction.B_TO_A, 1.05); // one direction only
    jobs.lengthOf("K005", 4, "R1", 512);
    jobs.lengthOf("K005", 5, "R1", 208);
    jobs.sameInstant("K006", 1);
    jobs.pause(13);
    jobs.zero("R2", sm, Method.ONE_CORD, Double.NaN, STORED_SM_DBM);
    jobs.links(7, 10, FibreCategory.OS2, "Block B, riser 1", "Block B, panel ");
    jobs.readLinks(7, 10, "R2");
    jobs.pause(13);
    jobs.zero("R3", sm, Method.ONE_CORD, -0.31, STORED_SM_DBM - 0.6);
    jobs.links(11, 13, FibreCategory.OS2, "Block B, riser 2", "Block B, panel ");
    jobs.readLinks(11, 13, "R3", -0.55);
    jobs.fault("K011", 6, "R3", 1550, Direction.A_TO_B, -0.62);
    jobs.pause(13);
    jobs.zero("R4", sm, Method.ONE_CORD, 0.09, -13.8);
    jobs.links(14, 15, FibreCategory.OS2, "Block C, riser 1", "Block C, panel ");
    jobs.readLinks(14, 15, "R4");
    jobs.pause(13);
    jobs.zero("R5", sm, Method.TWO_CORD, 0.12, STORED_SM_DBM);
    jobs.links(16, 17, FibreCategory.OS2, "Block C, riser 1", "Block C, panel ");
    jobs.readLinks(16, 17, "R5");
    jobs.pause(13);
    jobs.zero("R6", sm, Method.ONE_CORD, 0.05, STORED_SM_DBM);
    jobs.pause(14);
    jobs.links(18, 19, FibreCategory.OS2, "Block C, riser 2", "Block C, panel ");
    jobs.readLinks(18, 19, "R6");
    jobs.pause(13);
    jobs.zeroWith("R7", sm, Method.ONE_CORD, 0.05, STORED_SM_DBM, "S1", "M2", "L1", "T1");
    jobs.links(20, 21, FibreCategory.OS2, "Block C, riser 2", "Block C, panel ");
    jobs.readLinks(20, 21, "R7");
    jobs.pause(13);
    jobs.zero("R8", FibreKind.MULTIMODE, Method.ONE_CORD, 0.06, STORED_MM_DBM);
    jobs.links(22, 23, FibreCategory.OM4, "Block A, office", "Block A, panel ");
    jobs.readLinks(22, 23, "R8");
    jobs.zeroWith("R9", sm, Method.ONE_CORD, 0.06, STORED_SM_DBM, "M1", "M1", "L1", "L1");
    jobs.links(24, 25, FibreCategory.OS2, "Block D, gate", "Block D, panel ");
    for (int fibre = 1; fibre <= 12; fibre++) {
      jobs.readOnly("K024", fibre, "R9", Direction.A_TO_B);
    }
    jobs.read("K099", 1, "R1", 0, 0); // a name that the schedule does not hold
    return jobs;
  }

  private Jobs kit() {
    instruments.add(instrument("S1", Instrument.Kind.SOURCE, LocalDate.parse("2027-01-31")));
    instruments.add(instrument("M1", Instrument.Kind.METER, LocalDate.parse("2027-01-31")));
    instruments.add(instrument("M2", Instrument.Kind.METER, LocalDate.parse("2026-02-14")));
    for (String id : List.of("L1", "T1")) {
      cords.add(cord(id, FibreCategory.OS2));
    }
    for (String id : List.of("L2", "T2")) {
      cords.add(cord(id, FibreCategory.OM4));
    }
    return this;
  }

  private static Instrument instrument(String id, Instrument.Kind kind, LocalDate due) {
    return new Instrument(
        id,
        kind,
        new TreeSet<>(
            List.of(
                new Wavelength(850),
                new Wavelength(1300),
                new Wavelength(1310),
                new Wavelength(1550))),
        Optional.of(due.minusYears(1)),
        Optional.of(due));
  }

  private static Cord cord(String id, FibreCategory category) {
    Cord.CordEnd end = new Cord.CordEnd(Optional.of(LC), Optional.of(CordGrade.REFERENCE));
    return new Cord(
        id,
        category,
        Optional.of(2.0),
        end,
        end,
        OptionalInt.of(120),
        Optional.of(LocalDate.parse("2026-01-10")));
  }

  private void pause(int hours) {
    now = now.plus(Duration.ofHours(hours));
  }

  private void zero(String id, FibreKind kind, Method method, double verification, double power) {
    boolean single = kind == FibreKind.SINGLE_MODE;
    zeroWith(
        id,
        kind,
        method,
        verification,
        power,
        "S1",
        "M1",
        single ? "L1" : "L2",
        single ? "T1" : "T2");
  }

  private void zeroWith(
      String id,
      FibreKind kind,
      Method method,
      double verification,
      double power,
      String source,
      String meter,
      String launch,
      String receive) {
    boolean single = kind == FibreKind.SINGLE_MODE;
    List<ZeroLevel> levels = new ArrayList<>();
    for (Direction direction : Direction.values()) {
      for (int nm : single ? new int[] {1310, 1550} : new int[] {850, 1300}) {
        levels.add(
            new ZeroLevel(
                now,
                direction,
                new Wavelength(nm),
                new LevelDbm(power - (nm == 1550 ? 0.3 : 0)),
                Double.isNaN(verification)
                    ? Optional.empty()
                    : Optional.of(new LossDb(verification + (nm == 1550 ? 0.01 : 0))),
                source,
                meter,
                launch,
                receive,
                "",
                Optional.of(single ? FibreCategory.OS2 : FibreCategory.OM4),
                "Invented: P. Q."));
      }
    }
    zeros.add(new Zero(id, method, levels));
    now = now.plus(Duration.ofMinutes(15));
  }

  private void link(
      String id,
      FibreCategory category,
      int fibres,
      double lengthM,
      String aPlace,
      String bPlace,
      int connections,
      int splices) {
    links.add(
        new Link(
            id,
            category,
            fibres,
            lengthM,
            new LinkEnd(aPlace, id + "-a", LC),
            new LinkEnd(bPlace, id + "-b", LC),
            connections,
            splices,
            List.of()));
  }

  private void links(int from, int to, FibreCategory category, String aPlace, String bPlace) {
    for (int i = from; i <= to; i++) {
      link(
          "K" + String.format("%03d", i),
          category,
          12,
          140 + 23 * (i % 9),
          aPlace,
          bPlace + (1 + i % 3),
          i % 2,
          i % 4);
    }
  }

  private void readLinks(int from, int to, String zero) {
    readLinks(from, to, zero, 0);
  }

  private void readLinks(int from, int to, String zero, double shift) {
    for (int i = from; i <= to; i++) {
      for (int fibre = 1; fibre <= 12; fibre++) {
        read("K" + String.format("%03d", i), fibre, zero, shift, 0);
      }
    }
  }

  private void read(String link, int fibre, String zero, double shift, double extra) {
    for (Direction direction : Direction.values()) {
      read(link, fibre, zero, direction, shift, extra);
    }
  }

  private void readOnly(String link, int fibre, String zero, Direction direction) {
    read(link, fibre, zero, direction, 0, 0);
  }

  private void read(
      String link, int fibre, String zero, Direction direction, double shift, double extra) {
    Link found = links.stream().filter(l -> l.id().equals(link)).findFirst().orElse(links.get(0));
    boolean single = found.category().kind() == FibreKind.SINGLE_MODE;
    for (int nm : single ? new int[] {1310, 1550} : new int[] {850, 1300}) {
      Wavelength wavelength = new Wavelength(nm);
      double perKm = nm == 1310 ? 0.34 : nm == 1550 ? 0.20 : nm == 850 ? 2.35 : 0.55;
      double scale = single ? SingleModeCoupling.offsetFactorFrom1310(wavelength) : 1;
      double loss =
          perKm * found.lengthKm()
              + scale * (0.24 + 0.2 * found.connections())
              + 0.05 * found.splices()
              + 0.03 * (random.nextDouble() + random.nextDouble() - 1)
              + shift
              + extra;
      double power = (single ? STORED_SM_DBM : STORED_MM_DBM) - (nm == 1550 ? 0.3 : 0);
      double stored =
          zeros.stream()
              .filter(z -> z.id().equals(zero))
              .flatMap(z -> z.level(direction, wavelength).stream())
              .map(l -> l.power().value())
              .findFirst()
              .orElse(power);
      readings.add(
          reading(link, fibre, direction, wavelength, stored - loss, loss, found.lengthM(), zero));
    }
    now = now.plus(Duration.ofSeconds(40));
  }

  private Reading reading(
      String link,
      int fibre,
      Direction direction,
      Wavelength wavelength,
      double power,
      double loss,
      double length,
      String zero) {
    return new Reading(
        link, fibre, direction, wavelength, power, loss, length, zero, now, "Invented: P. Q.");
  }

  /** Reads one case again with another loss: the earlier reading stays as a replaced attempt. */
  private void fault(
      String link, int fibre, String zero, int nm, Direction direction, double loss) {
    readings.add(
        reading(link, fibre, direction, new Wavelength(nm), Double.NaN, loss, Double.NaN, zero));
    now = now.plus(Duration.ofSeconds(30));
  }

  private void lengthOf(String link, int fibre, String zero, double lengthM) {
    for (int i = 0; i < readings.size(); i++) {
      Reading r = readings.get(i);
      if (r.link().equals(link) && r.fibre() == fibre && r.reference().equals(zero)) {
        readings.set(
            i,
            new Reading(
                link,
                fibre,
                r.direction(),
                r.wavelength(),
                r.powerDbm(),
                r.lossDb(),
                lengthM,
                zero,
                r.measuredAt(),
                r.operator()));
      }
    }
  }

  /** Two losses of one fibre at one instant: they cannot both be of it. */
  private void sameInstant(String link, int fibre) {
    Reading first =
        readings.stream()
            .filter(r -> r.link().equals(link) && r.fibre() == fibre)
            .findFirst()
            .orElseThrow();
    readings.add(
        new Reading(
            link,
            fibre,
            first.direction(),
            first.wavelength(),
            Double.NaN,
            first.lossDb() + 0.2,
            first.lengthM(),
            first.reference(),
            first.measuredAt(),
            first.operator()));
  }

  private Judgement judge() {
    Rulebook rulebook = ShippedRulebooks.find("iso-11801-1").orElseThrow();
    TreeSet<Wavelength> required = new TreeSet<>();
    for (int nm : wavelengths) {
      required.add(new Wavelength(nm));
    }
    return Judge.judge(
        new Job(
            new Requirement(
                title,
                owner,
                contractor,
                rulebook,
                required,
                Directions.BOTH,
                Method.ONE_CORD,
                decision,
                List.of(),
                faceDemand,
                Settings.USUAL),
            links,
            instruments,
            cords,
            zeros,
            readings,
            faces,
            graded));
  }
}
