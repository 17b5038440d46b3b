package ferrule.core.trust.many;

import static ferrule.core.fixture.JobFixture.MORNING;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.plant.Direction;
import ferrule.core.zero.Reading;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Simulated jobs in which all went well, each the same for the same seed: single-mode links with
 * two end connections, values to 0.01 dB, a crew that works link by link. How links were laid out,
 * how lengths and times were kept and how the file is sorted differ from job to job.
 */
final class HonestJobs {

  /** How measured lengths are handed in. */
  enum Lengths {
    NONE,
    TYPED,
    MEASURED
  }

  /** How times are kept. */
  enum Stamps {
    EACH_READING,
    EACH_MATING,
    EACH_LINK,
    MINUTES,
    ALL_ALIKE
  }

  /** How the file is sorted. */
  enum Sorted {
    BY_TIME,
    BY_LINK,
    BY_WAVELENGTH,
    PANELS_MOVED,
    AT_RANDOM
  }

  final SplittableRandom random;
  int links;
  int fibresALink = 2;
  boolean oneLength;
  boolean skewed;
  Lengths lengths;
  Stamps stamps;
  Sorted sorted;
  boolean directionByDirection;
  boolean severalCrews;
  boolean bothFibresAtOnce;
  double step = 0.01;

  private final List<Reading> readings = new ArrayList<>();

  HonestJobs(long seed) {
    random = new SplittableRandom(seed);
    links = 30 + random.nextInt(171);
    oneLength = random.nextInt(3) == 0;
    skewed = random.nextBoolean();
    lengths = any(Lengths.values());
    stamps = any(Stamps.values());
    sorted = any(Sorted.values());
    directionByDirection = random.nextInt(3) == 0;
    severalCrews = random.nextInt(3) == 0;
    bothFibresAtOnce = random.nextBoolean();
    if (random.nextInt(5) == 0) {
      fibresALink = 12;
      links = 5 + random.nextInt(28);
      bothFibresAtOnce = random.nextBoolean();
    }
  }

  private <T> T any(T[] of) {
    return of[random.nextInt(of.length)];
  }

  double normal() {
    double u = 1 - random.nextDouble();
    return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * random.nextDouble());
  }

  /** The job with its readings. */
  JobFixture fixture() {
    JobFixture job = JobFixture.singleMode();
    double[] scheduled = new double[links];
    for (int i = 0; i < links; i++) {
      scheduled[i] = oneLength ? 150 : Math.rint(40 + 200 * random.nextDouble());
      job.link("K%03d".formatted(i + 1), fibresALink, scheduled[i]);
    }
    int crews = severalCrews ? 3 : 1;
    for (int crew = 0; crew < crews; crew++) {
      int from = links * crew / crews;
      int to = links * (crew + 1) / crews;
      test(job, crew, from, to, scheduled);
    }
    sort();
    readings.forEach(job::reading);
    return job;
  }

  /** A day of at most sixty links for each zero. */
  private void test(JobFixture job, int crew, int from, int to, double[] scheduled) {
    int day = 0;
    for (int first = from; first < to; first += 60) {
      String zero = "Z" + (crew + 1) + (char) ('a' + day);
      Instant setAt = MORNING.plusSeconds(86_400L * day + 300L * crew);
      job.zero(
          ZeroFixture.zero(zero)
              .at(setAt)
              .source("S" + crew)
              .meter("M" + crew)
              .launch("L" + crew)
              .receive("R" + crew)
              .verification(Math.max(0.01, Math.rint(6 + 2 * normal()) / 100)));
      double shift = 0.02 * normal();
      work(zero, setAt, "Crew" + crew, first, Math.min(to, first + 60), scheduled, shift);
      day++;
    }
  }

  private void work(
      String zero,
      Instant setAt,
      String operator,
      int from,
      int to,
      double[] scheduled,
      double shift) {
    double at = 1200;
    List<List<Direction>> passes =
        directionByDirection
            ? List.of(List.of(Direction.A_TO_B), List.of(Direction.B_TO_A))
            : List.of(List.of(Direction.values()));
    double[][] ends = new double[to][fibresALink * 2];
    double[][] glass = new double[to][fibresALink];
    double[][] measured = new double[to][fibresALink];
    for (int i = from; i < to; i++) {
      for (int f = 0; f < fibresALink; f++) {
        ends[i][2 * f] = connection();
        ends[i][2 * f + 1] = connection();
        double true_ = scheduled[i] * (1 + 0.003 * (2 * random.nextDouble() - 1));
        glass[i][f] = true_;
        measured[i][f] =
            switch (lengths) {
              case NONE -> Double.NaN;
              case TYPED -> scheduled[i];
              case MEASURED -> Math.rint(10 * (true_ + 0.05 * normal())) / 10;
            };
      }
    }
    for (List<Direction> pass : passes) {
      for (int i = from; i < to; i++) {
        at += 35 + 60 * random.nextDouble() + (random.nextInt(20) == 0 ? 300 : 0);
        double linkAt = at;
        for (Direction direction : pass) {
          for (int f = 0; f < fibresALink; f++) {
            double mating = 0.04 * Math.sqrt(2) * normal();
            for (int nm : new int[] {1310, 1550}) {
              double factor = nm == 1310 ? 1 : 0.78;
              double loss =
                  shift
                      + (nm == 1310 ? 0.34 : 0.20) * glass[i][f] / 1000
                      + factor * (ends[i][2 * f] + ends[i][2 * f + 1] + mating)
                      + 0.008 * normal();
              at += bothFibresAtOnce ? 0.5 : 4 + 8 * random.nextDouble();
              readings.add(
                  new Reading(
                      "K%03d".formatted(i + 1),
                      f + 1,
                      direction,
                      new ferrule.core.optics.Wavelength(nm),
                      Double.NaN,
                      Math.rint(loss / step) * step,
                      measured[i][f],
                      zero,
                      stamp(setAt, stamps == Stamps.EACH_LINK ? linkAt : at, nm),
                      operator));
            }
            if (!bothFibresAtOnce) {
              at += 20 + 20 * random.nextDouble();
            }
          }
        }
      }
      at += 900;
    }
  }

  private double connection() {
    return skewed
        ? -0.12 * Math.log(1 - random.nextDouble())
        : 0.12 * Math.exp(0.6 * normal() - 0.18);
  }

  private Instant stamp(Instant setAt, double at, int nm) {
    return switch (stamps) {
      case EACH_READING, EACH_LINK -> setAt.plusSeconds((long) at);
      case EACH_MATING -> setAt.plusSeconds((long) at - (nm == 1310 ? 0 : 2));
      case MINUTES -> setAt.plusSeconds(60 * (long) (at / 60));
      case ALL_ALIKE -> setAt.plusSeconds(3600);
    };
  }

  private void sort() {
    switch (sorted) {
      case BY_TIME -> readings.sort(Comparator.comparing(Reading::measuredAt));
      case BY_LINK ->
          readings.sort(
              Comparator.comparing(Reading::link)
                  .thenComparingInt(Reading::fibre)
                  .thenComparing(Reading::direction));
      case BY_WAVELENGTH -> readings.sort(Comparator.comparing(Reading::wavelength));
      case PANELS_MOVED -> {
        int cut = readings.size() / 5;
        List<Reading> moved = new ArrayList<>(readings.subList(0, cut));
        readings.subList(0, cut).clear();
        readings.addAll(random.nextInt(readings.size()), moved);
      }
      case AT_RANDOM -> {
        for (int i = readings.size() - 1; i > 0; i--) {
          java.util.Collections.swap(readings, i, random.nextInt(i + 1));
        }
      }
    }
  }
}
