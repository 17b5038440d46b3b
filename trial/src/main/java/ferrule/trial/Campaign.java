package ferrule.trial;

import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.job.Settings;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import ferrule.trial.Session.Level;
import ferrule.trial.TrueLink.TrueFibre;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * A test campaign carried out on a site: who set which zero when, and what was read. Clean until a
 * trouble changes it; then written down as a job.
 */
final class Campaign {

  private static final Rulebook ISO = ShippedRulebooks.find("iso-11801-1").orElseThrow();
  private static final Rulebook TIA = ShippedRulebooks.find("tia-568.3-e").orElseThrow();

  /** How zeros are shared out over the panels. */
  enum Sharing {
    /** Every zero sees a slice of every panel. */
    ROTATING,
    /** Each zero has panels of its own: panel and zero cannot be told apart by level alone. */
    OWN_PANELS,
    /** Links in order, a new zero when the crew comes back. */
    BY_DAY
  }

  /** What of a reading is handed in. */
  enum HandedIn {
    POWER,
    LOSS,
    BOTH
  }

  final World world;
  final Site site;
  final Rulebook rulebook;
  final Method method;
  final List<Direction> directions;
  final Sharing sharing;
  final boolean lengths;
  private final HandedIn handedIn;
  private final DecisionRule decision;
  final List<Session> sessions = new ArrayList<>();
  final Set<Integer> extraWavelengths = new TreeSet<>();

  /** Calibration due by instrument; those not named are due next year. */
  final Map<String, LocalDate> calibrationDue = new java.util.TreeMap<>();

  private final Dice dice;
  private final int crews;

  /** Carries out a clean campaign. */
  Campaign(Dice dice) {
    this.dice = dice;
    world = new World(dice.split());
    site = new Site(world, dice.split());
    rulebook = dice.chance(0.7) ? ISO : TIA;
    double m = dice.uniform(0, 1);
    method = m < 0.6 ? Method.ONE_CORD : m < 0.8 ? Method.TWO_CORD : Method.THREE_CORD;
    directions =
        dice.chance(0.75) ? List.of(Direction.A_TO_B, Direction.B_TO_A) : List.of(Direction.A_TO_B);
    sharing = dice.oneOf(Arrays.asList(Sharing.values()));
    lengths = dice.chance(0.7);
    handedIn = dice.oneOf(Arrays.asList(HandedIn.values()));
    decision = dice.chance(0.7) ? DecisionRule.SIMPLE : DecisionRule.GUARDED;
    crews = dice.chance(0.6) ? 1 : 2;
    shareOut();
    carryOut();
  }

  // ---- who does what

  private void shareOut() {
    int zeros = dice.whole(1, 8);
    boolean reversed = dice.chance(0.5);
    int sets = dice.whole(1, 2);
    int crew = 0;
    for (FibreKind kind : List.of(FibreKind.SINGLE_MODE, FibreKind.MULTIMODE)) {
      List<TrueLink> links = site.of(kind);
      if (links.isEmpty()) {
        continue;
      }
      List<CordSet> cords = new ArrayList<>();
      for (int i = 0; i < crews * sets; i++) {
        cords.add(cordSet(kind, links.get(0).schedule(), i, reversed));
      }
      int own = Math.max(1, (int) Math.round(zeros * (double) links.size() / site.links.size()));
      int turn = 0;
      for (List<TrueLink> part : parts(links, own)) {
        for (List<TrueLink> day : days(part)) {
          CordSet set = cords.get(crew + crews * ((turn / crews) % sets));
          sessions.add(
              new Session(String.format("Z%02d", sessions.size() + 1), crew, set, method, day));
          crew = (crew + 1) % crews;
          turn++;
        }
      }
    }
  }

  private CordSet cordSet(FibreKind kind, Link like, int number, boolean reversed) {
    String name = (kind == FibreKind.SINGLE_MODE ? "S" : "M") + (char) ('A' + number);
    int legs = site.handling == Site.Handling.ARRAY ? like.fibres() : 1;
    return new CordSet(
        name, like.category(), like.a().connector(), legs, reversed, method, world, dice);
  }

  private List<List<TrueLink>> parts(List<TrueLink> links, int count) {
    List<List<TrueLink>> panels = panels(links);
    List<List<TrueLink>> parts = new ArrayList<>();
    int most = sharing == Sharing.OWN_PANELS ? panels.size() : Math.max(1, links.size() / 4);
    int zeros = Math.min(count, most);
    for (int z = 0; z < zeros; z++) {
      List<TrueLink> part = new ArrayList<>();
      switch (sharing) {
        case ROTATING -> {
          for (List<TrueLink> panel : panels) {
            part.addAll(slice(panel, z, zeros));
          }
        }
        case OWN_PANELS -> slice(panels, z, zeros).forEach(part::addAll);
        case BY_DAY -> part.addAll(slice(links, z, zeros));
      }
      if (!part.isEmpty()) {
        parts.add(part);
      }
    }
    return parts;
  }

  /** By the side that has more places. */
  private static List<List<TrueLink>> panels(List<TrueLink> links) {
    long atA = links.stream().map(l -> l.schedule().a().place()).distinct().count();
    long atB = links.stream().map(l -> l.schedule().b().place()).distinct().count();
    Map<String, List<TrueLink>> panels =
        links.stream()
            .collect(
                Collectors.groupingBy(
                    l -> (atA > atB ? l.schedule().a() : l.schedule().b()).place(),
                    java.util.TreeMap::new,
                    Collectors.toList()));
    return new ArrayList<>(panels.values());
  }

  private static <T> List<T> slice(List<T> list, int part, int parts) {
    return list.subList(list.size() * part / parts, list.size() * (part + 1) / parts);
  }

  /** Cut so that a zero is never older than a working day. */
  private List<List<TrueLink>> days(List<TrueLink> part) {
    double hours = part.stream().mapToDouble(this::hours).sum();
    int days = (int) Math.ceil(hours / 6.5);
    List<List<TrueLink>> cut = new ArrayList<>();
    for (int d = 0; d < days; d++) {
      List<TrueLink> day = slice(part, d, days);
      if (!day.isEmpty()) {
        cut.add(day);
      }
    }
    return cut;
  }

  private double hours(TrueLink link) {
    double seconds =
        site.handling == Site.Handling.ARRAY ? 110 : 40.0 * link.schedule().fibres() + 10;
    return seconds * directions.size() / 3600;
  }

  // ---- the days

  private void carryOut() {
    LocalDate first = LocalDate.of(2026, 3, 2).plusDays(dice.whole(0, 60));
    for (int crew = 0; crew < crews; crew++) {
      Instant clock = morning(first);
      for (Session session : sessions) {
        if (session.crew == crew) {
          double hours = session.links.stream().mapToDouble(this::hours).sum() * 1.3 + 0.4;
          LocalTime now = clock.atZone(ZoneOffset.UTC).toLocalTime();
          if (now.toSecondOfDay() / 3600.0 + hours > 17.5 && now.isAfter(LocalTime.of(9, 0))) {
            clock = morning(clock.atZone(ZoneOffset.UTC).toLocalDate().plusDays(1));
          }
          clock = carryOut(session, clock).plusSeconds(dice.whole(300, 1500));
        }
      }
    }
  }

  private Instant morning(LocalDate day) {
    return day.atTime(7, 15).toInstant(ZoneOffset.UTC).plusSeconds(dice.whole(0, 4000));
  }

  private Instant carryOut(Session session, Instant start) {
    Dice own = dice.split();
    Instant now = setZero(session, start, own);
    double[][] meter = new double[2][];
    for (Direction direction : directions) {
      // One-cord: the meter connection is made anew after the zero; 0.01 dB, nearly the same at
      // both wavelengths. With more cords it stays as it was.
      double common = session.method == Method.ONE_CORD ? own.normal(0, 0.01 * Math.sqrt(2)) : 0;
      meter[direction.ordinal()] =
          new double[] {common + own.normal(0, 0.003), common + own.normal(0, 0.003)};
    }
    for (TrueLink link : session.links) {
      now = pause(now, own);
      now =
          site.handling == Site.Handling.ARRAY
              ? readArray(session, link, meter, now, own)
              : readSingly(session, link, meter, now, own);
    }
    return now;
  }

  private Instant setZero(Session session, Instant start, Dice own) {
    Instant at = start;
    for (Direction direction : directions) {
      double steady = own.uniform(-0.1, 0.1);
      for (Band band : Band.of(session.kind())) {
        Level level = new Level(direction, band, at, world.wanderDb, own);
        double launch = sourceDbm(session.crew, direction, band) + steady + own.normal(0, 0.01);
        level.sourceDbm = launch;
        session.levels.add(level);
        at = at.plusSeconds(own.whole(4, 9));
      }
      // The mating of the cords when the zero was set is what two- and three-cord zeros keep.
      double[] matings = {own.normal(0, world.matingDb), own.normal(0, world.matingDb)};
      for (Band band : Band.of(session.kind())) {
        Level level = session.level(direction, band);
        level.takenOutDb =
            switch (session.method) {
              case ONE_CORD -> 0;
              case TWO_CORD ->
                  session.cords.straightDb(world, direction, matings[0], band.longer());
              case THREE_CORD -> session.cords.throughDb(world, direction, matings, band.longer());
            };
        level.storedDbm = level.sourceDbm - level.takenOutDb + own.normal(0, world.meterDb / 3);
      }
      verify(session, direction, own);
      at = at.plusSeconds(own.whole(100, 220));
    }
    return at.plusSeconds(own.whole(120, 400));
  }

  /** Mates launch and receive until the reading is what good plugs give, as a careful crew does. */
  private void verify(Session session, Direction direction, Dice own) {
    double[] window = CordSet.window(session.method, session.kind());
    boolean good = false;
    for (int attempt = 0; attempt < 50 && !good; attempt++) {
      double[] matings = {own.normal(0, world.matingDb), own.normal(0, world.matingDb)};
      double meter = session.method == Method.ONE_CORD ? own.normal(0, 0.014) : 0;
      good = true;
      boolean nothing = true;
      for (Band band : Band.of(session.kind())) {
        Level level = session.level(direction, band);
        double line =
            session.method == Method.TWO_CORD
                ? session.cords.throughDb(world, direction, matings, band.longer())
                : session.cords.straightDb(world, direction, matings[0], band.longer());
        double reading = line - level.takenOutDb + meter + own.normal(0, world.meterDb / 2);
        double shown = round(reading, 0.01);
        level.verificationDb = Optional.of(shown);
        good &= shown >= window[0] && shown <= window[1];
        nothing &= shown == 0;
      }
      // Exactly nothing at every wavelength looks like the zero read again: mated once more.
      good &= !nothing;
    }
    if (!good) {
      throw new CordsBeyondUse(session.zero);
    }
  }

  /** Level a source launches, dBm: inside the usual windows of the trade. */
  private static double sourceDbm(int crew, Direction direction, Band band) {
    double nominal =
        switch (band) {
          case SM_SHORT -> -5.5;
          case SM_LONG -> -6.1;
          case MM_SHORT -> -20.6;
          case MM_LONG -> -21.4;
        };
    return nominal + 0.23 * crew - 0.31 * direction.ordinal();
  }

  private Instant pause(Instant now, Dice own) {
    LocalTime time = now.atZone(ZoneOffset.UTC).toLocalTime();
    int minute = time.toSecondOfDay() / 60;
    if (Math.abs(minute - 720) < 3) {
      return now.plusSeconds(own.whole(1800, 3300));
    }
    if (Math.abs(minute - 590) < 3 || Math.abs(minute - 900) < 3) {
      return now.plusSeconds(own.whole(600, 1200));
    }
    return own.chance(0.02) ? now.plusSeconds(own.whole(60, 500)) : now;
  }

  private Instant readSingly(
      Session session, TrueLink link, double[][] meter, Instant start, Dice own) {
    Instant now = start.plusSeconds(own.whole(5, 20));
    for (int fibre = 1; fibre <= link.schedule().fibres(); fibre++) {
      for (Direction direction : directions) {
        now = now.plusSeconds(own.whole(26, 50));
        double[] jitter = {own.normal(0, world.matingDb), own.normal(0, world.matingDb)};
        read(session, link, fibre, 0, direction, jitter, meter, now, own);
      }
    }
    return now;
  }

  private Instant readArray(
      Session session, TrueLink link, double[][] meter, Instant start, Dice own) {
    Instant now = start;
    double half = world.matingDb * Math.sqrt(0.5);
    for (Direction direction : directions) {
      now = now.plusSeconds(own.whole(70, 130));
      double[] common = {own.normal(0, half), own.normal(0, half)};
      for (int fibre = 1; fibre <= link.schedule().fibres(); fibre++) {
        double[] jitter = {common[0] + own.normal(0, half), common[1] + own.normal(0, half)};
        read(session, link, fibre, fibre - 1, direction, jitter, meter, now, own);
        now = now.plusSeconds(1);
      }
    }
    return now;
  }

  private void read(
      Session session,
      TrueLink link,
      int fibre,
      int leg,
      Direction direction,
      double[] jitter,
      double[][] meter,
      Instant start,
      Dice own) {
    TrueFibre truth = link.fibres().get(fibre - 1);
    boolean forward = direction == Direction.A_TO_B;
    Tip entry = forward ? truth.a() : truth.b();
    Tip exit = forward ? truth.b() : truth.a();
    Tip launch = session.cords.launch(direction).tips.get(leg);
    Tip receive = session.cords.receive(direction).tips.get(leg);
    double length = lengths ? truth.lengthM() + own.normal(0, 0.1) : Double.NaN;
    Instant now = start;
    for (Band band : Band.of(link.kind())) {
      Level level = session.level(direction, band);
      boolean longer = band.longer();
      double share = world.matingShare(link.kind(), longer);
      double lost =
          Math.abs(world.matedDb(link.kind(), launch, entry, longer) + jitter[0] * share)
              + Math.abs(world.matedDb(link.kind(), receive, exit, longer) + jitter[1] * share)
              + truth.throughDb()[band.index()]
              + meter[direction.ordinal()][band.index()];
      double power = level.sourceDbm - lost + level.wanderDb(now) + own.normal(0, world.meterDb);
      session.readings.add(new RawReading(link, fibre, session, level, power, length, now));
      if (site.handling != Site.Handling.ARRAY) {
        now = now.plusSeconds(own.whole(2, 4));
      }
    }
  }

  // ---- asked by troubles

  List<RawReading> readings() {
    List<RawReading> all = new ArrayList<>();
    sessions.forEach(s -> all.addAll(s.readings));
    return all;
  }

  int fibreCount() {
    return site.links.stream().mapToInt(l -> l.schedule().fibres()).sum();
  }

  static String instrument(int crew, boolean atA) {
    return "T" + (2 * crew + (atA ? 1 : 2));
  }

  static String source(int crew, Direction direction) {
    return instrument(crew, direction == Direction.A_TO_B);
  }

  static String meter(int crew, Direction direction) {
    return instrument(crew, direction != Direction.A_TO_B);
  }

  static double round(double value, double step) {
    // "+ 0.0" turns a negative nothing into nothing.
    return Math.rint(value / step) / Math.rint(1 / step) + 0.0;
  }

  // ---- written down

  /** The job that is handed in. */
  Job job() {
    List<Link> links =
        site.links.stream().map(TrueLink::schedule).sorted(Comparator.comparing(Link::id)).toList();
    SortedSet<Wavelength> wavelengths = new TreeSet<>();
    for (TrueLink link : site.links) {
      Band.of(link.kind()).forEach(b -> wavelengths.add(b.wavelength()));
    }
    extraWavelengths.forEach(nm -> wavelengths.add(new Wavelength(nm)));
    Requirement requirement =
        new Requirement(
            "Trial",
            "",
            "",
            rulebook,
            wavelengths,
            directions.size() == 2 ? Requirement.Directions.BOTH : Requirement.Directions.ONE,
            method,
            decision,
            List.of(),
            Requirement.FaceDemand.NONE,
            Settings.USUAL);
    return new Job(
        requirement,
        links,
        instruments(),
        cords(),
        sessions.stream().map(this::zero).toList(),
        readings().stream().map(this::reading).toList(),
        List.of());
  }

  private List<Instrument> instruments() {
    SortedSet<Wavelength> all = new TreeSet<>();
    for (Band band : Band.values()) {
      all.add(band.wavelength());
    }
    List<Instrument> instruments = new ArrayList<>();
    for (int crew = 0; crew < crews; crew++) {
      for (boolean atA : new boolean[] {true, false}) {
        String id = instrument(crew, atA);
        instruments.add(
            new Instrument(
                id,
                Instrument.Kind.SOURCE_AND_METER,
                all,
                Optional.of(LocalDate.of(2025, 11, 20)),
                Optional.of(calibrationDue.getOrDefault(id, LocalDate.of(2026, 11, 20)))));
      }
    }
    return instruments;
  }

  private List<Cord> cords() {
    Set<CordSet> sets = new LinkedHashSet<>();
    sessions.forEach(s -> sets.add(s.cords));
    List<Cord> cords = new ArrayList<>();
    sets.forEach(set -> set.cords().forEach(c -> cords.add(set.paper(c))));
    return cords;
  }

  private Zero zero(Session session) {
    List<ZeroLevel> levels = new ArrayList<>();
    for (Level level : session.levels) {
      levels.add(
          new ZeroLevel(
              level.setAt,
              level.direction,
              level.band.wavelength(),
              new LevelDbm(round(level.storedDbm, 0.01)),
              level.verificationDb.map(v -> new LossDb(round(v, 0.01))),
              source(session.crew, level.direction),
              meter(session.crew, level.direction),
              session.cords.launch(level.direction).id,
              session.cords.receive(level.direction).id,
              session.method == Method.THREE_CORD ? session.cords.third.id : "",
              Optional.of(session.cords.paperCategory),
              operator(session.crew)));
    }
    return new Zero(session.zero, session.method, levels);
  }

  private Reading reading(RawReading raw) {
    return new Reading(
        raw.name,
        raw.fibre,
        raw.direction,
        raw.band.wavelength(),
        handedIn == HandedIn.LOSS ? Double.NaN : round(raw.powerDbm, 0.01),
        handedIn == HandedIn.POWER ? Double.NaN : round(raw.lossDb(), 0.01),
        raw.hasLength() ? round(raw.lengthM, 0.1) : Double.NaN,
        raw.reference,
        raw.at,
        operator(raw.session.crew));
  }

  private static String operator(int crew) {
    return crew == 0 ? "Crew one" : "Crew two";
  }

  /** The plan, for a reader of a missed job. */
  String inWords() {
    List<String> zeros =
        sessions.stream()
            .map(s -> s.zero + ":" + s.cords.launch(Direction.A_TO_B).id + "/" + s.links.size())
            .toList();
    return fibreCount()
        + " fibres, "
        + site.handling
        + ", "
        + method.word()
        + ", "
        + directions.size()
        + " direction(s), "
        + sharing
        + ", "
        + world.law
        + ", mating "
        + round(world.matingDb, 0.001)
        + ", crews "
        + crews
        + ", lengths "
        + lengths
        + ", zeros "
        + zeros
        + ", span "
        + span().toHours()
        + " h";
  }

  private Duration span() {
    List<Instant> times = readings().stream().map(r -> r.at).sorted().toList();
    return times.isEmpty()
        ? Duration.ZERO
        : Duration.between(times.get(0), times.get(times.size() - 1));
  }

  /** Drawn cords that no mating brings within the window of a verification; a crew changes them. */
  static final class CordsBeyondUse extends RuntimeException {
    private static final long serialVersionUID = 1;

    CordsBeyondUse(String zero) {
      super("Cords of zero " + zero + " cannot be verified");
    }
  }
}
