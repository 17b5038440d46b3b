package ferrule.core.trust.many;

import static ferrule.core.fixture.JobFixture.MORNING;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.job.Job;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Ledger;
import ferrule.core.zero.Reading;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Collectors;

/**
 * An invented site, the same for the same seed: a hub with panels of 24 ports, links to some rooms,
 * honest lengths and losses, and what is done to them. 60 to 400 fibres.
 */
final class SimulatedSite {

  private static final Connector LC = Connector.parse("LC-UPC").orElseThrow();

  /** How the site is drawn. */
  record Kind(double shortest, double longest, double takeUp, double takeUpSpread, double noise) {
    static final Kind USUAL = new Kind(20, 300, 0.005, 0.005, 0.4);
  }

  /** What was built and read of one fibre. */
  static final class Fibre {
    final int link;
    final int number;
    double measuredM;
    double lossAt1310;
    double lossAt1550;

    Fibre(int link, int number) {
      this.link = link;
      this.number = number;
    }

    private void takeFrom(double[] values) {
      measuredM = values[0];
      lossAt1310 = values[1];
      lossAt1550 = values[2];
    }

    private double[] values() {
      return new double[] {measuredM, lossAt1310, lossAt1550};
    }
  }

  final SplittableRandom random;
  final List<Link> links = new ArrayList<>();
  final List<Fibre> fibres = new ArrayList<>();
  final int fibresPerLink;
  final double stepM;
  private boolean withPlaces = true;
  private boolean withLengths = true;
  private String secondZeroFrom = "";

  SimulatedSite(long seed) {
    this(seed, drawn(new SplittableRandom(seed * 31 + 7)));
  }

  private static Kind drawn(SplittableRandom random) {
    double shortest = 15 + 60 * random.nextDouble();
    return new Kind(
        shortest,
        shortest * 2 + 2000 * Math.pow(random.nextDouble(), 3) + 60,
        random.nextDouble() * 0.01,
        random.nextDouble() * 0.005,
        0.1 + 0.9 * random.nextDouble());
  }

  SimulatedSite(long seed, Kind kind) {
    this.random = new SplittableRandom(seed);
    this.fibresPerLink = new int[] {1, 2, 2, 2, 4}[random.nextInt(5)];
    int count = (60 + random.nextInt(341)) / fibresPerLink;
    double step = new double[] {0.1, 0.1, 1, 1, 5}[random.nextInt(5)];
    this.stepM = step;
    int perRoom = 12 + random.nextInt(37);
    for (int i = 0; i < count; i++) {
      double route = kind.shortest() + (kind.longest() - kind.shortest()) * random.nextDouble();
      double scheduled = Math.max(step, Math.rint(route / step) * step);
      links.add(
          new Link(
              "K%03d".formatted(i + 1),
              FibreCategory.OS2,
              fibresPerLink,
              scheduled,
              new LinkEnd("Hub", "%d:%02d".formatted(1 + i / 24, 1 + i % 24), LC),
              new LinkEnd("Room " + (1 + i / perRoom), "%02d".formatted(1 + i % perRoom), LC),
              0,
              0,
              List.of()));
      double takeUp = kind.takeUp() + kind.takeUpSpread() * (random.nextDouble() - 0.5) * 2;
      double built = route * (1 + Math.max(0, takeUp));
      for (int number = 1; number <= fibresPerLink; number++) {
        Fibre fibre = new Fibre(i, number);
        fibre.measuredM = Math.max(0.1, built + kind.noise() * normal());
        double ends = end() + end();
        fibre.lossAt1310 = 0.335 * built / 1000 + ends;
        fibre.lossAt1550 = 0.2 * built / 1000 + ends / 1.278;
        fibres.add(fibre);
      }
    }
  }

  private double end() {
    return Math.min(0.4, -0.11 * Math.log(1 - random.nextDouble()));
  }

  double normal() {
    double sum = -6;
    for (int i = 0; i < 12; i++) {
      sum += random.nextDouble();
    }
    return sum;
  }

  SimulatedSite withoutPlaces() {
    withPlaces = false;
    return this;
  }

  /** Every link ends in the same room, in one panel at either end. */
  SimulatedSite oneRoom() {
    for (int i = 0; i < links.size(); i++) {
      Link link = links.get(i);
      links.set(
          i,
          new Link(
              link.id(),
              link.category(),
              link.fibres(),
              link.lengthM(),
              new LinkEnd("Hub", "%03d".formatted(i + 1), LC),
              new LinkEnd("Room 1", "%03d".formatted(i + 1), LC),
              0,
              0,
              List.of()));
    }
    return this;
  }

  SimulatedSite withoutLengths() {
    withLengths = false;
    return this;
  }

  /** Links from this one on are read under a zero of their own. */
  SimulatedSite secondZeroFrom(String link) {
    secondZeroFrom = link;
    return this;
  }

  /** Does something to every measured length. */
  SimulatedSite lengths(DoubleUnaryOperator what) {
    fibres.forEach(f -> f.measuredM = what.applyAsDouble(f.measuredM));
    return this;
  }

  /** Whether lengths tell two links apart whatever this site's noise and rounding. */
  boolean tellable(int link, int other) {
    double a = links.get(link).lengthM();
    double b = links.get(other).lengthM();
    return Math.abs(a - b) > 12 + 0.05 * Math.max(a, b) + 2 * stepM;
  }

  /** The first link from one on that its length tells apart from both of its neighbours. */
  int firstTellable(int from) {
    int link = from;
    while (!tellable(link, link - 1) || !tellable(link, link + 1)) {
      link++;
    }
    return link;
  }

  /** The first link after one whose length tells it apart. */
  int partner(int link) {
    int other = link + 1;
    while (!tellable(link, other)) {
      other++;
    }
    return other;
  }

  Fibre fibre(int link, int number) {
    return fibres.get(link * fibresPerLink + number - 1);
  }

  /**
   * Files under each link from one on up to another what belongs to the link some places further
   * on; with wrapping, what runs over the end comes from the beginning, else it is read anew of a
   * fibre that nobody scheduled.
   */
  SimulatedSite shift(int from, int to, int lag, boolean wrap) {
    int size = to - from;
    for (int number = 1; number <= fibresPerLink; number++) {
      List<double[]> values = new ArrayList<>();
      for (int i = 0; i < size; i++) {
        int other = i + lag;
        boolean inside = other >= 0 && other < size;
        values.add(
            inside || wrap
                ? fibre(from + Math.floorMod(other, size), number).values()
                : new double[] {7 + 5 * random.nextDouble(), 0.3, 0.25});
      }
      for (int i = 0; i < size; i++) {
        fibre(from + i, number).takeFrom(values.get(i));
      }
    }
    return this;
  }

  SimulatedSite cross(Fibre first, Fibre second) {
    double[] values = first.values();
    first.takeFrom(second.values());
    second.takeFrom(values);
    return this;
  }

  String name(Fibre fibre) {
    return links.get(fibre.link).id() + "/" + fibre.number;
  }

  Set<String> names(int fromLink, int toLink) {
    return fibres.stream()
        .filter(f -> f.link >= fromLink && f.link < toLink)
        .map(this::name)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  Set<String> names() {
    return names(0, links.size());
  }

  Job job() {
    JobFixture job =
        JobFixture.singleMode().zero(ZeroFixture.zero("Z1")).zero(ZeroFixture.zero("Z2"));
    for (Link link : links) {
      job.link(
          withPlaces
              ? link
              : new Link(
                  link.id(),
                  link.category(),
                  link.fibres(),
                  link.lengthM(),
                  new LinkEnd("", "", LC),
                  new LinkEnd("", "", LC),
                  0,
                  0,
                  List.of()));
    }
    Instant at = MORNING.plusSeconds(1200);
    for (Fibre fibre : fibres) {
      String link = links.get(fibre.link).id();
      String zero = !secondZeroFrom.isEmpty() && link.compareTo(secondZeroFrom) >= 0 ? "Z2" : "Z1";
      for (Direction direction : Direction.values()) {
        double length = fibre.measuredM + 0.05 * normal();
        for (int nm : new int[] {1310, 1550}) {
          double loss = nm == 1310 ? fibre.lossAt1310 : fibre.lossAt1550;
          job.reading(
              new Reading(
                  link,
                  fibre.number,
                  direction,
                  new Wavelength(nm),
                  Double.NaN,
                  Math.rint((loss + 0.03 * normal()) * 100) / 100,
                  withLengths ? Math.rint(length * 10) / 10 : Double.NaN,
                  zero,
                  at,
                  "Ada"));
        }
        at = at.plusSeconds(30);
      }
    }
    return job.job();
  }

  List<Doubt> doubts() {
    return found(job());
  }

  /** What the finder says of a job. */
  static List<Doubt> found(Job job) {
    List<Doubt> found = new ArrayList<>();
    new LengthsFinder().find(Ledger.of(job), found::add);
    return found;
  }

  static List<Doubt> of(List<Doubt> doubts, DoubtKind kind) {
    return doubts.stream().filter(d -> d.kind() == kind).toList();
  }

  static Set<String> reach(Doubt doubt) {
    return doubt.reach().fibres().stream()
        .map(Object::toString)
        .collect(Collectors.toCollection(TreeSet::new));
  }
}
