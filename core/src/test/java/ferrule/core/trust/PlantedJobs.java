package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.zero.Reading;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.IntToDoubleFunction;
import java.util.function.ToDoubleFunction;

/**
 * Invented jobs of single-fibre links of one cable, read one after the other, whose fibres scatter
 * by a normal law: what a textbook's statistic for a series of single values expects. Whatever is
 * planted adds to the readings of a link by its place in the order of tests.
 */
final class PlantedJobs {

  private static final double PART_SD = 0.08;
  private static final double MATING_SD = 0.03;
  private static final double METER_SD = 0.008;

  private PlantedJobs() {}

  /** A job and the series a textbook would look at: a value for each link in test order. */
  record Planted(JobFixture job, double[] series) {}

  /** So many zeros of so many links each; {@code more} is planted. */
  static Planted of(long seed, int zeros, int linksPerZero, IntToDoubleFunction more) {
    SplittableRandom random = new SplittableRandom(seed * 7919 + 13);
    int links = zeros * linksPerZero;
    JobFixture job = JobFixture.singleMode();
    for (int i = 0; i < links; i++) {
      Link link = HostileScenes.link(id(i), 1, 60 + 3 * random.nextInt(40), "Kiln", "Store");
      job.link(link);
    }
    for (int z = 0; z < zeros; z++) {
      int zero = z;
      Instant at = MORNING.plus(Duration.ofHours(2L * z));
      job.zero(ZeroFixture.zero("Z" + z).at(at))
          .readAll(
              "Z" + z, at.plusSeconds(600), l -> number(l.id()) / linksPerZero == zero, 1310, 1550);
    }
    double[] part = drawn(random, links, PART_SD);
    double[] forward = drawn(random, links, MATING_SD);
    double[] back = drawn(random, links, MATING_SD);
    double[] series = new double[links];
    ToDoubleFunction<Reading> added =
        r -> {
          int i = number(r.link());
          double pattern = r.wavelength().nm() == 1310 ? 1 : 1 / 1.278;
          double mating = (r.direction() == Direction.A_TO_B ? forward : back)[i];
          return 0.3 + pattern * (part[i] + mating) + METER_SD * random.nextGaussian();
        };
    job.change(
        r -> true,
        r -> {
          int i = number(r.link());
          double value =
              Math.rint(100 * (r.lossDb() + added.applyAsDouble(r) + more.applyAsDouble(i))) / 100;
          series[i] += (value - r.lossDb()) / 4;
          return JobFixture.loss(x -> value).apply(r);
        });
    return new Planted(job, series);
  }

  private static double[] drawn(SplittableRandom random, int count, double sd) {
    double[] values = new double[count];
    Arrays.setAll(values, i -> sd * random.nextGaussian());
    return values;
  }

  static String id(int number) {
    return HostileScenes.id(number);
  }

  static int number(String link) {
    return Integer.parseInt(link.substring(1));
  }

  static List<Doubt> doubts(JobFixture job, DoubtKind kind) {
    return Judge.judge(job.job()).doubts().stream().filter(d -> d.kind() == kind).toList();
  }

  /** Places of the links that a doubt reaches, ascending. */
  static List<Integer> reached(Doubt doubt) {
    List<Integer> places = new ArrayList<>();
    for (FibreId fibre : doubt.reach().fibres()) {
      places.add(number(fibre.link()));
    }
    places.sort(Integer::compare);
    return places;
  }
}
