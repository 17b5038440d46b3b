package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.job.Job;
import ferrule.core.job.Requirement.Directions;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Instrument;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/** Jobs in which much went wrong, each the same for the same seed. */
final class MessyJobs {

  private MessyJobs() {}

  static Job job(long seed) {
    return fixture(seed).job();
  }

  /** Links of both kinds, zeros good and bad, readings changed, lost, doubled and misnamed. */
  static JobFixture fixture(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    JobFixture job =
        JobFixture.singleMode()
            .wavelengths(850, 1300, 1310, 1550)
            .directions(random.nextBoolean() ? Directions.BOTH : Directions.ONE)
            .decision(random.nextBoolean() ? DecisionRule.SIMPLE : DecisionRule.GUARDED)
            .instrument(
                "S1", Instrument.Kind.SOURCE, random.nextInt(4) == 0 ? "2026-03-01" : "2026-12-31")
            .cord(
                "L1",
                FibreCategory.OS2,
                "LC-UPC",
                random.nextInt(3) == 0 ? CordGrade.STANDARD : CordGrade.REFERENCE);
    int links = 3 + random.nextInt(8);
    for (int i = 1; i <= links; i++) {
      boolean multimode = random.nextInt(4) == 0;
      job.link(
          JobFixture.aLink(
              "K%03d".formatted(i),
              multimode ? FibreCategory.OM4 : FibreCategory.OS2,
              1 + random.nextInt(6),
              20 + random.nextDouble() * 500,
              random.nextInt(3),
              random.nextInt(3),
              random.nextInt(12) == 0 ? List.of("splitter-1x4") : List.of()));
    }
    job.zero(
            ZeroFixture.zero("Z1")
                .method(random.nextInt(5) == 0 ? Method.TWO_CORD : Method.ONE_CORD)
                .verification(random.nextInt(3) == 0 ? 0.3 : 0.07)
                .power(-4 - random.nextDouble() * 6))
        .zero(
            random.nextBoolean()
                ? ZeroFixture.zero("Z2").at(MORNING.plus(Duration.ofMinutes(90))).launch("L2")
                : ZeroFixture.zero("Z2").unverified().source("S3").launch("L3"))
        .zero(ZeroFixture.multimode("Z3").source("S2").launch("L4").receive("R4"));
    job.readAll("Z1", MORNING, l -> l.id().compareTo("K004") < 0, 1310, 1550);
    job.readAll(
        "Z2", MORNING.plus(Duration.ofHours(2)), l -> l.id().compareTo("K004") >= 0, 1310, 1550);
    job.readAll("Z3", 850, 1300);
    return spoil(job, random);
  }

  private static JobFixture spoil(JobFixture job, SplittableRandom random) {
    List<Reading> extra = new ArrayList<>();
    job.change(
        r -> true,
        r -> {
          Reading spoilt = JobFixture.loss(x -> x.lossDb() + 0.1 * normal(random)).apply(r);
          return switch (random.nextInt(24)) {
            case 0 -> JobFixture.loss(x -> 3.0).apply(spoilt);
            case 1 -> JobFixture.loss(x -> -0.4).apply(spoilt);
            case 2 -> JobFixture.time(MORNING.minusSeconds(5)).apply(spoilt);
            case 3 -> JobFixture.length(random.nextDouble() * 600).apply(spoilt);
            case 4 -> JobFixture.power(-20, spoilt.lossDb()).apply(spoilt);
            case 5 -> JobFixture.power(-7, Double.NaN).apply(spoilt);
            case 6 -> JobFixture.named("K001", 1 + random.nextInt(3)).apply(spoilt);
            case 7 -> JobFixture.named("K900", 1).apply(spoilt);
            case 8 -> {
              extra.add(JobFixture.time(later(spoilt, random)).apply(spoilt));
              yield spoilt;
            }
            default -> spoilt;
          };
        });
    extra.forEach(job::reading);
    return random.nextBoolean()
        ? job.without(
            r ->
                r.fibre() == 2 && r.direction() == Direction.B_TO_A
                    || r.fibre() == 1 && r.wavelength().nm() == 1550)
        : job;
  }

  private static Instant later(Reading reading, SplittableRandom random) {
    return reading.measuredAt().plusSeconds(60L * (1 + random.nextInt(200)));
  }

  /** A normal deviate: twelve uniform ones less six. */
  static double normal(SplittableRandom random) {
    double sum = -6;
    for (int i = 0; i < 12; i++) {
      sum += random.nextDouble();
    }
    return sum;
  }
}
