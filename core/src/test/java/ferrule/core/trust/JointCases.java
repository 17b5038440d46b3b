package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.of;
import static ferrule.core.fixture.JobFixture.towards;
import static ferrule.core.plant.Direction.A_TO_B;
import static ferrule.core.plant.Direction.B_TO_A;
import static ferrule.core.trust.DoubtKind.DIRECTION_BIAS;
import static ferrule.core.trust.DoubtKind.LEVEL_DRIFT;
import static ferrule.core.trust.DoubtKind.LEVEL_STEP;
import static ferrule.core.trust.DoubtKind.OUTLIER;
import static ferrule.core.trust.DoubtKind.PANEL_HIGH;
import static ferrule.core.trust.DoubtKind.POSITION_HIGH;
import static ferrule.core.trust.DoubtKind.ZERO_SHIFT;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.zero.Reading;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Jobs in which many readings share a trouble, and their neighbours with less of it. */
final class JointCases {

  private static final int ZEROS = 3;
  private static final int LINKS_A_ZERO = 24;

  private JointCases() {}

  static void addTo(List<DoubtCase> cases) {
    Predicate<Reading> second = r -> r.reference().equals("Z2");
    cases.add(
        DoubtCase.of(ZERO_SHIFT, "one zero of three reads 0.20 dB low", plus(second, r -> -0.20))
            .onZero("Z2")
            .blocking()
            .reaching(second, fibres(2))
            .butNotIn(plus(second, r -> -0.04)));
    Predicate<Reading> oneWay = second.and(towards(B_TO_A));
    cases.add(
        DoubtCase.of(
                ZERO_SHIFT, "one direction of a zero reads 0.20 dB high", plus(oneWay, r -> 0.20))
            .onZero("Z2")
            .blocking()
            .reaching(oneWay, fibres(2))
            .besides(DIRECTION_BIAS)
            .butNotIn(plus(oneWay, r -> 0.03)));
    cases.add(
        DoubtCase.of(
                DIRECTION_BIAS,
                "A-B reads 0.15 dB high in every zero",
                plus(towards(A_TO_B), r -> 0.15))
            .blocking()
            .reaching(r -> true, allFibres())
            .butNotIn(plus(towards(A_TO_B), r -> 0.03)));
    Predicate<Reading> late = second.and(r -> number(r) >= LINKS_A_ZERO + 12);
    cases.add(
        DoubtCase.of(LEVEL_STEP, "0.40 dB from the middle of a zero on", plus(late, r -> 0.40))
            .onZero("Z2")
            .blocking()
            .reaching(late, fibres(IntStream.range(LINKS_A_ZERO + 12, 2 * LINKS_A_ZERO)))
            .butNotIn(plus(late, r -> 0.04)));
    cases.add(
        DoubtCase.of(LEVEL_DRIFT, "0.35 dB over a zero", plus(second, r -> 0.35 * share(r)))
            .onZero("Z2")
            .blocking()
            .reaching(second, fibres(2))
            .butNotIn(plus(second, r -> 0.05 * share(r))));
    Predicate<Reading> one = of("K030/1");
    cases.add(
        DoubtCase.of(OUTLIER, "0.60 dB more than its like", plus(one, r -> 0.60))
            .onFibre("K030/1")
            .reaching(one, "K030/1")
            .butNotIn(plus(one, r -> 0.15)));
    Predicate<Reading> panel = r -> number(r) % 4 == 1;
    cases.add(
        DoubtCase.of(PANEL_HIGH, "one panel of four 0.25 dB high", plus(panel, r -> 0.25))
            .onPlace("Rack 1")
            .reaching(
                panel, fibres(IntStream.range(0, ZEROS * LINKS_A_ZERO).filter(i -> i % 4 == 1)))
            .butNotIn(plus(panel, r -> 0.04)));
    Predicate<Reading> position = r -> r.fibre() == 2;
    cases.add(
        DoubtCase.of(POSITION_HIGH, "every second fibre 0.25 dB high", plus(position, r -> 0.25))
            .reaching(
                position,
                IntStream.range(0, ZEROS * LINKS_A_ZERO)
                    .mapToObj(i -> id(i) + "/2")
                    .toArray(String[]::new))
            .butNotIn(plus(position, r -> 0.04)));
  }

  private static String id(int link) {
    return "K%03d".formatted(link);
  }

  private static int number(Reading reading) {
    return Integer.parseInt(reading.link().substring(1));
  }

  private static double share(Reading reading) {
    return (number(reading) % LINKS_A_ZERO) / (LINKS_A_ZERO - 1.0);
  }

  private static String[] fibres(int zero) {
    return fibres(IntStream.range((zero - 1) * LINKS_A_ZERO, zero * LINKS_A_ZERO));
  }

  private static String[] allFibres() {
    return fibres(IntStream.range(0, ZEROS * LINKS_A_ZERO));
  }

  private static String[] fibres(IntStream links) {
    return links.boxed().flatMap(i -> Stream.of(id(i) + "/1", id(i) + "/2")).toArray(String[]::new);
  }

  private static JobFixture plus(Predicate<Reading> which, ToDoubleFunction<Reading> more) {
    return honest().change(which, r -> loss(x -> x.lossDb() + more.applyAsDouble(x)).apply(r));
  }

  /**
   * Three zeros on one morning, two dozen duplex links each, four racks in turn. A fibre's own part
   * is even between -0.10 and 0.20 dB, a mating's between -0.04 and 0.04, a meter's between -0.01
   * and 0.01.
   */
  private static JobFixture honest() {
    Connector lc = Connector.parse("LC-UPC").orElseThrow();
    JobFixture job = JobFixture.singleMode();
    for (int i = 0; i < ZEROS * LINKS_A_ZERO; i++) {
      job.link(
          new Link(
              id(i),
              FibreCategory.OS2,
              2,
              150 + i % 7 * 20,
              new LinkEnd("Rack " + i % 4, id(i), lc),
              new LinkEnd("Bay " + i % 3, id(i), lc),
              0,
              0,
              List.of()));
    }
    for (int z = 0; z < ZEROS; z++) {
      int first = z * LINKS_A_ZERO;
      job.zero(ZeroFixture.zero("Z" + (z + 1)).at(MORNING.plus(Duration.ofHours(2L * z))))
          .readAll(
              "Z" + (z + 1),
              MORNING.plus(Duration.ofHours(2L * z)).plusSeconds(600),
              l -> {
                int n = Integer.parseInt(l.id().substring(1));
                return n >= first && n < first + LINKS_A_ZERO;
              },
              1310,
              1550);
    }
    SplittableRandom random = new SplittableRandom(3);
    Map<String, Double> own = new HashMap<>();
    return job.change(
        r -> true,
        r -> {
          double part =
              own.computeIfAbsent(r.link() + "/" + r.fibre(), k -> 0.3 * random.nextDouble() - 0.1);
          double mating =
              own.computeIfAbsent(
                  r.link() + "/" + r.fibre() + r.direction(),
                  k -> 0.08 * random.nextDouble() - 0.04);
          double meter = 0.02 * random.nextDouble() - 0.01;
          double pattern = r.wavelength().nm() == 1310 ? 1 : 1 / 1.278;
          double value = r.lossDb() + (part + mating) * pattern + meter;
          return loss(x -> Math.rint(100 * value) / 100).apply(r);
        });
  }
}
