package ferrule.core.trust.many;

import ferrule.core.allowance.Allowance;
import ferrule.core.optics.Decibels;
import ferrule.core.plant.FeedTree;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Subject;
import ferrule.core.uncertainty.OrderStats;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;

/**
 * {@code splitter-step} and {@code splitter-high}: legs of a tree against each other and against
 * what their path usually loses.
 *
 * <p>A leg's excess is its loss less the usual loss of its whole path. From the head down, the legs
 * behind each link are taken together: where their median lies off, that is told once and taken out
 * for all below. What is left of a leg is compared with its siblings.
 *
 * <p>Steps of one halving lie from 3.0 dB (ideal) to 3.65 dB (planning ranges of splitters); the
 * window is 0.7 dB wider at both ends, about half of the usual spread among legs of 1 to 2 dB
 * (common practice, no source). The bound of a high splitter is the middle of that spread.
 */
public final class SplitterFinder implements DoubtFinder {

  /** Least and most that counts as one halving, dB. */
  static final double LEAST_STEP_DB = 2.3;

  static final double MOST_STEP_DB = 4.35;

  /** How far the wavelengths of one leg may differ in excess and still show one halving, dB. */
  static final double WAVELENGTHS_DB = 1.0;

  /** From here on the legs of a splitter are high together, dB. */
  static final double HIGH_DB = 1.5;

  /** The share of the legs that must go along for them to be told together; assumed. */
  static final double MOST_ALONG = 0.8;

  /** Fewest legs that say something together. */
  static final int FEWEST = 3;

  /** A leg's excess over what its path usually loses, mean and range over its cases, dB. */
  private record Excess(double meanDb, double rangeDb) {}

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    Map<String, List<String>> children = FeedTree.children(ledger.job().links());
    if (children.isEmpty()) {
      return;
    }
    new Search(ledger, children, out).run();
  }

  private static final class Search {
    private final Ledger ledger;
    private final Map<String, List<String>> children;
    private final Consumer<Doubt> out;
    private final Map<String, Link> links = new HashMap<>();
    private final Map<String, List<AssessedReading>> readings = new HashMap<>();
    private final Map<String, Excess> excesses = new HashMap<>();

    Search(Ledger ledger, Map<String, List<String>> children, Consumer<Doubt> out) {
      this.ledger = ledger;
      this.children = children;
      this.out = out;
    }

    private record Open(String link, double offsetDb) {}

    void run() {
      Set<String> lost = new HashSet<>();
      FeedTree.faults(ledger.job().links()).forEach(f -> lost.addAll(f.reach()));
      for (Link link : ledger.job().links()) {
        links.put(link.id(), link);
        boolean inTree = !link.fedBy().isEmpty() || children.containsKey(link.id());
        if (inTree && !lost.contains(link.id())) {
          read(link);
        }
      }
      Deque<Open> open = new ArrayDeque<>();
      for (Link link : ledger.job().links()) {
        if (link.fedBy().isEmpty() && children.containsKey(link.id())) {
          open.add(new Open(link.id(), 0));
        }
      }
      while (!open.isEmpty()) {
        Open at = open.removeFirst();
        double offset = at.offsetDb() + together(at.link(), at.offsetDb());
        alone(at.link(), offset);
        for (String child : children.getOrDefault(at.link(), List.of())) {
          if (children.containsKey(child)) {
            open.add(new Open(child, offset));
          }
        }
      }
    }

    private void read(Link link) {
      List<AssessedReading> current = new ArrayList<>();
      for (FibreId fibre : link.fibreIds()) {
        for (AssessedReading reading : ledger.readings(ledger.slotOf(fibre))) {
          if (reading.current() && reading.hasLoss()) {
            current.add(reading);
          }
        }
      }
      double[] over =
          current.stream()
              .mapToDouble(
                  r ->
                      r.lossDb()
                          - r.allowance()
                              .map(Allowance::expectedWithSplittersDb)
                              .orElse(Double.NaN))
              .filter(e -> !Double.isNaN(e))
              .toArray();
      if (over.length == 0) {
        return;
      }
      double least = Double.POSITIVE_INFINITY;
      double most = Double.NEGATIVE_INFINITY;
      double sum = 0;
      for (double e : over) {
        least = Math.min(least, e);
        most = Math.max(most, e);
        sum += e;
      }
      readings.put(link.id(), current);
      excesses.put(link.id(), new Excess(sum / over.length, most - least));
    }

    /** All legs behind a link that were read. */
    private List<String> legs(String link) {
      List<String> legs = new ArrayList<>();
      Deque<String> open = new ArrayDeque<>(children.getOrDefault(link, List.of()));
      while (!open.isEmpty()) {
        String id = open.removeFirst();
        if (!children.containsKey(id) && excesses.containsKey(id)) {
          legs.add(id);
        }
        open.addAll(children.getOrDefault(id, List.of()));
      }
      return legs;
    }

    private double excess(String link) {
      Excess excess = excesses.get(link);
      return excess == null ? Double.NaN : excess.meanDb();
    }

    private double median(List<String> legs, double offset) {
      return OrderStats.median(legs.stream().mapToDouble(l -> excess(l) - offset).toArray());
    }

    /** Tells of the legs behind a link together; how far they lie off, 0 if they do not. */
    private double together(String link, double offset) {
      List<String> legs = legs(link);
      if (legs.size() < FEWEST) {
        return 0;
      }
      double median = median(legs, offset);
      boolean high = median >= HIGH_DB;
      boolean low = median <= -LEAST_STEP_DB && median >= -MOST_STEP_DB;
      List<String> along =
          legs.stream()
              .filter(
                  l ->
                      high ? excess(l) - offset >= HIGH_DB / 2 : excess(l) - offset <= -HIGH_DB / 2)
              .toList();
      if ((high || low) && along.size() >= MOST_ALONG * legs.size()) {
        out.accept(group(link, along, median, high));
        return median;
      }
      return 0;
    }

    private Doubt group(String id, List<String> legs, double median, boolean high) {
      boolean step = Math.abs(median) >= LEAST_STEP_DB && Math.abs(median) <= MOST_STEP_DB;
      String splitter = splitters(id);
      List<String> causes = new ArrayList<>();
      if (step) {
        causes.add(
            "a splitter of "
                + (high ? "twice" : "half")
                + " as many legs stands where "
                + splitter
                + " is listed");
      }
      if (high) {
        causes.add("the feeder or the input of the splitter loses too much");
      }
      causes.add("the schedule lists another splitter, length or number of connections");
      Link link = link(id);
      return new Doubt(
          high ? DoubtKind.SPLITTER_HIGH : DoubtKind.SPLITTER_STEP,
          Subject.link(id),
          !high,
          reach(legs),
          List.of(
              Evidence.of(
                  "what",
                  legs.size()
                      + " legs behind it together "
                      + shown(median)
                      + (step ? ", about one halving" : "")),
              Evidence.of("excess_db", median),
              Evidence.of("legs", legs.size())),
          Causes.ranked(causes.toArray(String[]::new)),
          new NextStep(
                  "splitter:" + id,
                  "Read the print on the splitter of link "
                      + id
                      + ", then measure in front of it and at one of its legs",
                  link.b().where(),
                  Handling.IDENTIFY + Handling.RETEST_LINK)
              .withResults(
                  high && !step
                      ? "In front of it the loss is too high already: mend the feeder"
                      : "The print is not " + splitter + ": list what is there or change it",
                  "Print and input are as listed: read the legs again under a verified zero"));
    }

    /** Tells of single leaf legs of a link that differ from their siblings by one halving. */
    private void alone(String parent, double offset) {
      List<String> siblings =
          children.getOrDefault(parent, List.of()).stream()
              .filter(c -> !children.containsKey(c) && excesses.containsKey(c))
              .toList();
      double[] all = siblings.stream().mapToDouble(s -> excess(s) - offset).toArray();
      // One odd leg among enough hardly moves their median.
      double usual = siblings.size() > FEWEST ? OrderStats.median(all) : 0;
      for (int i = 0; i < all.length; i++) {
        double over = all[i] - usual;
        Excess excess = excesses.get(siblings.get(i));
        if (Math.abs(over) >= LEAST_STEP_DB
            && Math.abs(over) <= MOST_STEP_DB
            && excess != null
            && excess.rangeDb() <= WAVELENGTHS_DB) {
          out.accept(leg(siblings.get(i), parent, over, siblings.size()));
        }
      }
    }

    private Doubt leg(String id, String parent, double over, int siblings) {
      boolean high = over > 0;
      Link link = link(id);
      return new Doubt(
          DoubtKind.SPLITTER_STEP,
          Subject.link(id),
          !high,
          reach(List.of(id)),
          List.of(
              Evidence.of(
                  "what",
                  shown(over)
                      + " against "
                      + (siblings > FEWEST
                          ? (siblings - 1) + " siblings on link " + parent
                          : "what its path usually loses")
                      + ", about one halving at every wavelength read"),
              Evidence.of("excess_db", over),
              Evidence.of("siblings", siblings - 1)),
          high
              ? Causes.ranked(
                  "one more splitter stage of two is in its way",
                  "it hangs on a splitter of twice as many legs",
                  "a bad connection or bend of the same size")
              : Causes.ranked(
                  "it hangs on a splitter of half as many legs",
                  "it is plugged in one stage too early",
                  "the reading is of another leg"),
          new NextStep(
                  "leg:" + id,
                  "Trace leg " + id + " back to its port at the splitter of link " + parent,
                  link(parent).b().where().isEmpty() ? link.b().where() : link(parent).b().where(),
                  Handling.IDENTIFY)
              .withResults(
                  "It comes from another splitter or stage than listed",
                  high
                      ? "It comes from where it should: clean both ends and read it again"
                      : "It comes from where it should: read it again, light in at the head"));
    }

    private Link link(String id) {
      Link link = links.get(id);
      if (link == null) {
        throw new IllegalStateException("No link " + id);
      }
      return link;
    }

    private String splitters(String id) {
      List<String> devices = link(id).devices();
      return devices.isEmpty() ? "none" : devices.get(devices.size() - 1);
    }

    private static String shown(double db) {
      return Decibels.shown(Math.abs(db)) + " dB too " + (db > 0 ? "high" : "low");
    }

    private Reach reach(List<String> legs) {
      List<AssessedReading> covered = new ArrayList<>();
      legs.forEach(leg -> covered.addAll(readings.getOrDefault(leg, List.of())));
      return Reach.of(covered);
    }
  }
}
