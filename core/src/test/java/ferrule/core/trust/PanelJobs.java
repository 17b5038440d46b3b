package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.zero.Reading;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * Invented jobs of racks and zeros with a truth behind them: every fibre has its own part, every
 * mating and every zero its honest scatter, so that a fibre can be read again under any zero.
 */
final class PanelJobs {

  /** What is wrong: zero Z2 is off, or Rack 2 is poor, or nothing. */
  enum Wrong {
    ZERO,
    RACK,
    NOTHING
  }

  private static final int LINKS_A_RACK = 20;

  private final SplittableRandom random;
  private final int racks;
  private final boolean crossed;
  private final Wrong wrong;
  private final double sizeDb;
  private final JobFixture job = JobFixture.singleMode();
  private final Map<String, Double> own = new HashMap<>();
  private final Map<String, Double> level = new HashMap<>();
  private final Map<String, Integer> rackOf = new HashMap<>();
  private Map<String, Double> usual = Map.of();
  private int fresh = 0;

  /**
   * @param racks each with twenty duplex links, and as many zeros
   * @param crossed whether every zero serves every rack; otherwise each serves its own
   */
  PanelJobs(long seed, int racks, boolean crossed, Wrong wrong, double sizeDb) {
    this.random = new SplittableRandom(seed);
    this.racks = racks;
    this.crossed = crossed;
    this.wrong = wrong;
    this.sizeDb = sizeDb;
    build();
  }

  private void build() {
    Connector lc = Connector.parse("LC-UPC").orElseThrow();
    List<String> zeroOf = new ArrayList<>();
    for (int i = 0; i < racks * LINKS_A_RACK; i++) {
      int rack = i / LINKS_A_RACK + 1;
      String id = "K%03d".formatted(i);
      rackOf.put(id, rack);
      zeroOf.add("Z" + (crossed ? i % racks + 1 : rack));
      job.link(
          new Link(
              id,
              FibreCategory.OS2,
              2,
              150 + i % 7 * 20,
              new LinkEnd("Rack " + rack, id, lc),
              new LinkEnd("Bay " + i / racks % 3, id, lc),
              0,
              0,
              List.of()));
    }
    for (int z = 1; z <= racks; z++) {
      String zero = "Z" + z;
      job.zero(
          ZeroFixture.zero(zero)
              .at(MORNING.plus(Duration.ofHours(2L * z)))
              .source("S" + z)
              .launch("L" + z)
              .receive("R" + z));
      job.readAll(
          zero,
          MORNING.plus(Duration.ofHours(2L * z)).plusSeconds(600),
          l -> zeroOf.get(Integer.parseInt(l.id().substring(1))).equals(zero),
          1310,
          1550);
    }
    Map<String, Double> expected = new HashMap<>();
    job.readings().forEach(r -> expected.put(key(r.link(), r.wavelength().nm()), r.lossDb()));
    usual = expected;
    Map<String, Double> mating = new HashMap<>();
    job.change(
        r -> true,
        r -> {
          double mated =
              mating.computeIfAbsent(
                  r.link() + "/" + r.fibre() + r.direction(), k -> 0.04 * bell());
          return JobFixture.loss(x -> truth(x, mated)).apply(r);
        });
  }

  private static String key(String link, int nm) {
    return link + "@" + nm;
  }

  /** What a reading shows, to a hundredth. */
  private double truth(Reading r, double mated) {
    double part = own.computeIfAbsent(r.link() + "/" + r.fibre(), k -> 0.08 * bell());
    double pattern = r.wavelength().nm() == 1310 ? 1 : 1 / 1.278;
    double rack = wrong == Wrong.RACK && rackOf.getOrDefault(r.link(), 0) == 2 ? sizeDb : 0;
    double zero = wrong == Wrong.ZERO && r.reference().equals("Z2") ? sizeDb : 0;
    zero += level.computeIfAbsent(r.reference(), k -> 0.01 * bell());
    zero += level.computeIfAbsent(r.reference() + r.direction(), k -> 0.012 * bell());
    double value =
        usual.getOrDefault(key(r.link(), r.wavelength().nm()), Double.NaN)
            + (part + mated + rack) * pattern
            + zero
            + 0.005 * bell();
    return Math.rint(100 * value) / 100;
  }

  /** Twelve even numbers added up: near enough to normal. */
  private double bell() {
    double sum = -6;
    for (int i = 0; i < 12; i++) {
      sum += random.nextDouble();
    }
    return sum;
  }

  /** Every reading with the length of its link. */
  PanelJobs withLengths() {
    job.change(r -> true, r -> JobFixture.length(150 + number(r) % 7 * 20).apply(r));
    return this;
  }

  private static int number(Reading reading) {
    return Integer.parseInt(reading.link().substring(1));
  }

  Judgement judged() {
    return Judge.judge(job.job());
  }

  /** Takes readings that were asked for, after all others; new zeros are set for them. */
  PanelJobs take(List<SeparatingReading> asked) {
    Instant at = MORNING.plus(Duration.ofHours(2L * racks + 2));
    String zero = "";
    for (SeparatingReading one : asked) {
      String under = one.reference();
      if (under.isEmpty()) {
        if (zero.isEmpty()) {
          zero = "N" + ++fresh;
          job.zero(ZeroFixture.zero(zero).at(at).source("S9").launch("L9").receive("R9"));
        }
        under = zero;
      }
      at = at.plusSeconds(120);
      Reading bare =
          JobFixture.reading(
              one.fibre().orElseThrow().link(),
              one.fibre().get().fibre(),
              one.direction(),
              one.nm(),
              0,
              under,
              at);
      job.reading(JobFixture.loss(r -> truth(r, 0.04 * bell())).apply(bare));
    }
    return this;
  }
}
