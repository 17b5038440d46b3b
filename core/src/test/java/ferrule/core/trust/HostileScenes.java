package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.loss;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.zero.Reading;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;

/** Jobs that no crew hands in but a broken export does, each the same for the same seed. */
final class HostileScenes {

  static final double[] WILD = {
    1e6, -1e6, 1e-300, -1e-300, 1e15, -1e15, 1e300, -1e300, Double.MAX_VALUE, -Double.MAX_VALUE, 0
  };

  private static final Connector LC = Connector.parse("LC-UPC").orElseThrow();

  private HostileScenes() {}

  static Link link(String id, int fibres, double metres, String a, String b) {
    return new Link(
        id,
        FibreCategory.OS2,
        fibres,
        metres,
        new LinkEnd(a, id, LC),
        new LinkEnd(b, id, LC),
        0,
        0,
        List.of());
  }

  static String id(int number) {
    return "K%03d".formatted(number);
  }

  /** As many zeros as links, each with one reading of one fibre. */
  static JobFixture oneReadingEach(int zeros) {
    JobFixture job = JobFixture.singleMode();
    for (int i = 0; i < zeros; i++) {
      String link = id(i);
      Instant at = MORNING.plusSeconds(60L * i);
      job.link(link(link, 1, 60 + i % 40, "Hub", "Room " + i % 9))
          .zero(
              ZeroFixture.zero("Z" + i)
                  .at(at)
                  .wavelengths(1310)
                  .directions(Direction.A_TO_B)
                  .source("S" + i)
                  .launch("L" + i)
                  .receive("R" + i))
          .reading(
              JobFixture.reading(
                  link, 1, Direction.A_TO_B, 1310, 0.3, "Z" + i, at.plusSeconds(20)));
    }
    return job;
  }

  /** Ordinary work on so many links under so many zeros; losses scatter, times advance. */
  static JobFixture ordinary(long seed, int zeros, int linksPerZero, int fibres) {
    SplittableRandom random = new SplittableRandom(seed);
    JobFixture job = JobFixture.singleMode();
    for (int i = 0; i < zeros * linksPerZero; i++) {
      job.link(link(id(i), fibres, 40 + 7 * (i % 31), "Rack " + i % 4, "Bay " + i % 3));
    }
    for (int z = 0; z < zeros; z++) {
      int zero = z;
      Instant at = MORNING.plus(Duration.ofHours(z));
      job.zero(ZeroFixture.zero("Z" + z).at(at))
          .readAll(
              "Z" + z,
              at.plusSeconds(600),
              l -> Integer.parseInt(l.id().substring(1)) / linksPerZero == zero,
              1310,
              1550);
    }
    return job.change(
        r -> true,
        loss(r -> Math.rint(100 * (r.lossDb() + 0.04 * Math.abs(MessyJobs.normal(random)))) / 100));
  }

  /** One way to spoil a job. */
  record Spoiling(String name, UnaryOperator<JobFixture> how) {
    @Override
    public String toString() {
      return name;
    }
  }

  /** Ways to spoil, drawn anew for a seed. */
  static List<Spoiling> spoilings(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    List<Spoiling> all = new ArrayList<>();
    for (double wild : WILD) {
      all.add(new Spoiling("one reading in 30 is " + wild, losses(chance(random, 30), wild)));
      all.add(new Spoiling("one reading in 2 is " + wild, losses(chance(random, 2), wild)));
    }
    all.add(
        new Spoiling(
            "wild values by turns",
            job -> job.change(chance(random, 5), loss(r -> WILD[random.nextInt(WILD.length)]))));
    all.add(new Spoiling("all values equal", losses(r -> true, 0.3)));
    all.add(new Spoiling("all values zero", losses(r -> true, 0)));
    all.add(new Spoiling("all values 1e6", losses(r -> true, 1e6)));
    all.add(new Spoiling("all times equal", times(r -> MORNING.plusSeconds(3600))));
    all.add(
        new Spoiling(
            "times in reverse",
            times(
                r -> MORNING.plus(Duration.between(r.measuredAt(), MORNING.plusSeconds(40_000))))));
    all.add(
        new Spoiling(
            "times doubled",
            times(r -> Instant.ofEpochSecond(r.measuredAt().getEpochSecond() / 600 * 600))));
    all.add(
        new Spoiling(
            "times anywhere",
            job ->
                job.change(
                    chance(random, 3),
                    r -> JobFixture.time(Instant.ofEpochSecond(random.nextInt())).apply(r))));
    all.add(
        new Spoiling(
            "times at the ends of time",
            job ->
                job.change(
                    chance(random, 3),
                    r ->
                        JobFixture.time(random.nextBoolean() ? Instant.MIN : Instant.MAX)
                            .apply(r))));
    all.add(new Spoiling("zeros unknown", references(r -> true, "nowhere")));
    all.add(new Spoiling("some zeros unknown", references(chance(random, 3), "nowhere")));
    all.add(new Spoiling("zeros empty", references(chance(random, 2), "")));
    for (double metres : new double[] {0, -1, 1e-300, 1e300, 500_000, Double.MAX_VALUE}) {
      all.add(
          new Spoiling(
              "lengths " + metres, job -> job.change(r -> true, JobFixture.length(metres))));
    }
    all.add(
        new Spoiling(
            "lengths anything",
            job ->
                job.change(
                    r -> true,
                    r -> JobFixture.length(WILD[random.nextInt(WILD.length)]).apply(r))));
    all.add(
        new Spoiling(
            "powers wild",
            job ->
                job.change(
                    chance(random, 3),
                    r ->
                        JobFixture.power(
                                WILD[random.nextInt(WILD.length)],
                                random.nextBoolean() ? Double.NaN : r.lossDb())
                            .apply(r))));
    all.add(new Spoiling("half the readings missing", job -> job.without(chance(random, 2))));
    all.add(
        new Spoiling(
            "every reading twice",
            job -> {
              job.readings().forEach(r -> job.reading(loss(x -> x.lossDb() + 1e6).apply(r)));
              return job;
            }));
    return all;
  }

  static Predicate<Reading> chance(SplittableRandom random, int in) {
    return r -> random.nextInt(in) == 0;
  }

  private static UnaryOperator<JobFixture> losses(Predicate<Reading> which, double value) {
    return job -> job.change(which, loss(r -> value));
  }

  private static UnaryOperator<JobFixture> times(Function<Reading, Instant> at) {
    return job -> job.change(r -> true, r -> JobFixture.time(at.apply(r)).apply(r));
  }

  private static UnaryOperator<JobFixture> references(Predicate<Reading> which, String zero) {
    return job ->
        job.change(
            which,
            r ->
                new Reading(
                    r.link(),
                    r.fibre(),
                    r.direction(),
                    new Wavelength(r.wavelength().nm()),
                    r.powerDbm(),
                    r.lossDb(),
                    r.lengthM(),
                    zero,
                    r.measuredAt(),
                    r.operator()));
  }
}
