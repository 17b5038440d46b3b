package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.loss;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.zero.Reading;
import java.time.Duration;
import java.time.Instant;
import java.util.SplittableRandom;
import java.util.function.Predicate;

/**
 * Invented jobs of four zeros, ten links of two fibres under each, hour after hour; the losses
 * scatter a little and are the same every time. Into these a trouble is planted.
 */
final class ShiftedJobs {

  static final int LINKS = 40;
  private static final int LINKS_A_ZERO = 10;

  private ShiftedJobs() {}

  /** When a zero, 1 to 4, is set. */
  static Instant setAt(int zero) {
    return MORNING.plus(Duration.ofHours(zero));
  }

  /** Nothing is wrong with it. */
  static JobFixture honest() {
    JobFixture job = JobFixture.singleMode();
    for (int i = 1; i <= LINKS; i++) {
      job.link(link(i), 2, 100 + 7 * (i % 9));
    }
    for (int z = 1; z <= LINKS / LINKS_A_ZERO; z++) {
      int zero = z;
      job.zero(ZeroFixture.zero("Z" + z).at(setAt(z)));
      job.readAll(
          "Z" + z,
          setAt(z).plus(Duration.ofMinutes(10)),
          l -> (Integer.parseInt(l.id().substring(1)) - 1) / LINKS_A_ZERO == zero - 1,
          1310,
          1550);
    }
    SplittableRandom random = new SplittableRandom(20260302);
    return job.change(
        r -> true, loss(r -> Math.round(100 * (r.lossDb() + 0.03 * bell(random))) / 100.0));
  }

  /** Adds to the losses of some readings. */
  static JobFixture lifted(Predicate<Reading> which, double db) {
    return honest().change(which, loss(r -> r.lossDb() + db));
  }

  static Predicate<Reading> under(String zero) {
    return r -> r.reference().equals(zero);
  }

  static Predicate<Reading> from(Instant moment) {
    return r -> !r.measuredAt().isBefore(moment);
  }

  private static String link(int number) {
    return String.format("K%03d", number);
  }

  /** Twelve even numbers added up: near enough to normal. */
  private static double bell(SplittableRandom random) {
    double sum = -6;
    for (int i = 0; i < 12; i++) {
      sum += random.nextDouble();
    }
    return sum;
  }
}
