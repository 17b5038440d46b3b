package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.length;
import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.of;
import static ferrule.core.fixture.JobFixture.time;
import static ferrule.core.trust.DoubtKind.CLOCK;
import static ferrule.core.trust.DoubtKind.CORD_WORN;
import static ferrule.core.trust.DoubtKind.REPEATED_VALUES;
import static ferrule.core.trust.DoubtKind.TOO_QUICK;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Reading;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.function.Predicate;

/** Jobs in which values repeat, times are impossible or a cord is worn, and their neighbours. */
final class ManyCases {

  private ManyCases() {}

  static void addTo(List<DoubtCase> cases) {
    cases.add(
        DoubtCase.of(REPEATED_VALUES, "a fibre repeats its neighbour, length and all", repeat(0))
            .onFibre("K011/1")
            .blocking()
            .reaching(of("K011/1"), "K011/1")
            .butNotIn(repeat(0.01)));
    cases.add(
        DoubtCase.of(TOO_QUICK, "ten seconds after the link before", row(2, -20))
            .onFibre("K002/1")
            .reaching(of("K002/1"), "K002/1")
            .butNotIn(row(2, -10)));
    Predicate<Reading> block =
        r -> r.link().compareTo("K010") >= 0 && r.link().compareTo("K014") <= 0;
    cases.add(
        DoubtCase.of(CLOCK, "five links set back by a quarter of an hour", moved(block, false))
            .onInstrument("M1")
            .blocking()
            .reaching(block, "K010/1", "K011/1", "K012/1", "K013/1", "K014/1")
            .butNotIn(moved(block, true)));
    cases.add(
        DoubtCase.of(CORD_WORN, "five hundred matings on record", matings(500))
            .onCord("L1")
            .reaching(r -> true, "K001/1", "K002/1")
            .butNotIn(matings(499)));
  }

  /** Links of one fibre, a minute each from twenty minutes after the zero on. */
  private static JobFixture row(int links) {
    JobFixture job = JobFixture.singleMode();
    for (int i = 1; i <= links; i++) {
      job.link("K%03d".formatted(i), 1, 150 + i);
    }
    return job.zero(ZeroFixture.zero("Z1")).readAll("Z1", 1310, 1550);
  }

  private static JobFixture row(int link, long seconds) {
    return row(24)
        .change(
            of("K%03d/1".formatted(link)), r -> time(r.measuredAt().plusSeconds(seconds)).apply(r));
  }

  /** K011/1 repeats K010/1, but for its length by so many metres. */
  private static JobFixture repeat(double metres) {
    SplittableRandom random = new SplittableRandom(11);
    Map<String, Double> own = new HashMap<>();
    JobFixture job =
        row(24)
            .change(
                r -> true,
                r -> {
                  double fibre =
                      own.computeIfAbsent(r.link(), k -> 0.4 * random.nextDouble() - 0.1);
                  double here =
                      own.computeIfAbsent(r.link() + r.direction(), k -> 0.1 * random.nextDouble());
                  double value = r.lossDb() + fibre + here + 0.03 * random.nextDouble();
                  double metre = 150 + Integer.parseInt(r.link().substring(1)) + fibre;
                  return length(Math.rint(10 * metre) / 10)
                      .apply(loss(x -> Math.rint(100 * value) / 100).apply(r));
                });
    Map<String, Reading> source = new HashMap<>();
    job.readings().stream()
        .filter(of("K010/1"))
        .forEach(r -> source.put(r.direction() + "" + r.wavelength(), r));
    return job.change(
        of("K011/1"),
        r -> {
          Reading other = source.getOrDefault(r.direction() + "" + r.wavelength(), r);
          return length(other.lengthM() + metres).apply(loss(x -> other.lossDb()).apply(r));
        });
  }

  /** A block of links a quarter of an hour earlier; and the others at once after each other. */
  private static JobFixture moved(Predicate<Reading> block, boolean noHole) {
    JobFixture job = row(24).change(block, r -> time(r.measuredAt().minusSeconds(900)).apply(r));
    return noHole
        ? job.change(
            r -> r.link().compareTo("K014") > 0,
            r -> time(r.measuredAt().minusSeconds(300)).apply(r))
        : job;
  }

  private static JobFixture matings(int matings) {
    Cord.CordEnd end =
        new Cord.CordEnd(Connector.parse("LC-UPC"), Optional.of(CordGrade.REFERENCE));
    return row(2)
        .cord(
            new Cord(
                "L1",
                FibreCategory.OS2,
                Optional.of(2.0),
                end,
                end,
                OptionalInt.of(matings),
                Optional.empty()));
  }
}
