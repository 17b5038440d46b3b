package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.loss;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.IntUnaryOperator;
import org.junit.jupiter.api.Test;

/** A trouble that dear connections inside the links would explain as well is told all the same. */
class HiddenTest {

  private static final int LINKS = 60;
  private static final int INSIDE = 20;

  @Test
  void aPanelWhoseLinksAloneHaveConnectionsInsideIsNamedAndHoldsNothingBack() {
    Judgement judgement = Judge.judge(job(3, 0.28).job());
    Doubt doubt =
        judgement.doubts().stream()
            .filter(d -> d.kind() == DoubtKind.PANEL_HIGH)
            .filter(d -> d.subject().id().equals("Rack 2"))
            .findFirst()
            .orElseThrow(() -> new AssertionError(judgement.doubts().toString()));
    assertThat(doubt.blocking()).isFalse();
    assertThat(doubt.reach().fibres()).hasSize(2 * INSIDE);
    assertThat(doubt.evidence())
        .anySatisfy(
            e -> {
              assertThat(e.name()).isEqualTo("cannot be told from");
              assertThat(e.shown()).contains("connections inside links of OS2");
            });
    assertThat(doubt.separations()).isNotEmpty();
  }

  @Test
  void connectionsThatCostWhatIsUsualHideNothing() {
    for (long seed = 1; seed <= 5; seed++) {
      assertThat(Judge.judge(job(seed, 0).job()).doubts())
          .as("seed %d", seed)
          .noneMatch(d -> d.kind() == DoubtKind.PANEL_HIGH || d.blocking());
    }
  }

  @Test
  void aZeroThatAloneServesLinksWithConnectionsInsideCannotBeToldFromThem() {
    Judgement judgement = Judge.judge(job(1, 0, i -> i / INSIDE).job());
    assertThat(judgement.estimate().confounded())
        .hasEntrySatisfying(
            "Z2", c -> assertThat(c.with()).contains("connections inside links of OS2"));
    Judgement inTurn = Judge.judge(job(1, 0).job());
    assertThat(inTurn.estimate().confounded()).doesNotContainKey("Z2");
  }

  private static JobFixture job(long seed, double moreDb) {
    return job(seed, moreDb, i -> i % 3);
  }

  /**
   * Three racks under three zeros; only the links of Rack 2 have connections inside, three each,
   * and lose so much more in all. A fibre's own part is even between -0.10 and 0.20 dB, a meter's
   * between -0.01 and 0.01.
   */
  private static JobFixture job(long seed, double moreDb, IntUnaryOperator zeroOfLink) {
    Connector lc = Connector.parse("LC-UPC").orElseThrow();
    JobFixture job = JobFixture.singleMode();
    for (int i = 0; i < LINKS; i++) {
      int rack = 1 + i / INSIDE;
      job.link(
          new Link(
              "K%03d".formatted(i),
              FibreCategory.OS2,
              2,
              150 + i % 7 * 20,
              new LinkEnd("Rack " + rack, "K" + i, lc),
              new LinkEnd("Bay", "K" + i, lc),
              rack == 2 ? 3 : 0,
              0,
              List.of()));
    }
    for (int z = 0; z < 3; z++) {
      int zero = z;
      job.zero(ZeroFixture.zero("Z" + (z + 1)).at(MORNING.plus(Duration.ofHours(2L * z))))
          .readAll(
              "Z" + (z + 1),
              MORNING.plus(Duration.ofHours(2L * z)).plusSeconds(600),
              l -> zeroOfLink.applyAsInt(Integer.parseInt(l.id().substring(1))) == zero,
              1310,
              1550);
    }
    SplittableRandom random = new SplittableRandom(seed);
    Map<String, Double> own = new HashMap<>();
    return job.change(
        r -> true,
        r -> {
          double part =
              own.computeIfAbsent(r.link() + "/" + r.fibre(), k -> 0.3 * random.nextDouble() - 0.1);
          boolean inside = Integer.parseInt(r.link().substring(1)) / INSIDE == 1;
          double pattern = r.wavelength().nm() == 1310 ? 1 : 1 / 1.278;
          double meter = 0.02 * random.nextDouble() - 0.01;
          double value = r.lossDb() + (part + (inside ? moreDb : 0)) * pattern + meter;
          return loss(x -> Math.rint(100 * value) / 100).apply(r);
        });
  }
}
