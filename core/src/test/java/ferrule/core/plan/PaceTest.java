package ferrule.core.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.job.Requirement.Directions;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Link;
import ferrule.core.trust.VerificationInterval;
import ferrule.core.zero.Method;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Times, faces and matings against the trade's rules of thumb. */
class PaceTest {

  private static final Link DUPLEX = PlanLinks.link("K1", "A", "B");

  private static double hours(Choice choice) {
    return 1000 * Pace.USUAL.minutes(DUPLEX, choice).usual() / 60;
  }

  /**
   * Two technicians, duplex links, 1,000 of them: 13 h without inspection in one direction, 26 in
   * both; 30 inspected in one, 48 in both. Worked out from common practice, no source.
   */
  @Test
  void aThousandLinksTakeWhatTheTradeReckons() {
    assertThat(hours(new Choice(Directions.ONE, false, false))).isCloseTo(13, within(1.0));
    assertThat(hours(new Choice(Directions.BOTH, false, false))).isCloseTo(26, within(1.5));
    assertThat(hours(new Choice(Directions.ONE, true, false))).isCloseTo(30, within(1.5));
    assertThat(hours(new Choice(Directions.BOTH, true, false))).isCloseTo(48, within(1.5));
  }

  @Test
  void theRangeHoldsTheRulesOfThumb() {
    double[] minutes = {0.8, 1.6, 1.8, 2.9};
    Choice[] choices = {
      new Choice(Directions.ONE, false, false),
      new Choice(Directions.BOTH, false, false),
      new Choice(Directions.ONE, true, false),
      new Choice(Directions.BOTH, true, false)
    };
    for (int i = 0; i < minutes.length; i++) {
      Range range = Pace.USUAL.minutes(DUPLEX, choices[i]);
      assertThat(minutes[i]).isBetween(range.low(), range.high());
    }
  }

  @Test
  void whateverIsAskedMoreTakesLonger() {
    Link array = PlanLinks.link("K2", FibreCategory.OM4, 24, "A", "MPO-UPC", "B", "MPO-UPC");
    for (Link link : List.of(DUPLEX, array)) {
      for (boolean inspection : new boolean[] {false, true}) {
        Range one = Pace.USUAL.minutes(link, new Choice(Directions.ONE, inspection, false));
        Range both = Pace.USUAL.minutes(link, new Choice(Directions.BOTH, inspection, false));
        assertThat(both.usual()).isGreaterThan(one.usual());
      }
      assertThat(Pace.USUAL.minutes(link, new Choice(Directions.ONE, true, true)).usual())
          .isGreaterThan(Pace.USUAL.minutes(link, new Choice(Directions.ONE, true, false)).usual());
    }
  }

  /**
   * 1.5 to 3 minutes for 12 fibres natively, 10 to 15 through fan-outs: common practice, no source.
   */
  @Test
  void arraysTakeTheirOwnTime() {
    Choice plain = new Choice(Directions.ONE, false, false);
    Link array = PlanLinks.link("K2", FibreCategory.OM4, 24, "A", "MPO-UPC", "B", "MPO-UPC");
    assertThat(Pace.USUAL.minutes(array, plain)).isEqualTo(new Range(3, 4.5, 6));
    Link fanOut = PlanLinks.link("K3", FibreCategory.OM4, 12, "A", "MPO-UPC", "B", "LC-UPC");
    assertThat(Pace.USUAL.minutes(fanOut, plain)).isEqualTo(new Range(10, 12.5, 15));
  }

  /**
   * 8 faces a duplex link in one direction, 12 in both (worked out, no standard); 24 of the link
   * and 24 of the cords for 12 fibres in arrays; and, another thing, 12 cord faces to set a
   * three-cord duplex zero.
   */
  @Test
  void facesAreCountedAsTheTradeCountsThem() {
    FaceCount duplex = FaceCount.of(DUPLEX);
    assertThat(duplex.total(1)).isEqualTo(8);
    assertThat(duplex.total(2)).isEqualTo(12);
    FaceCount array =
        FaceCount.of(PlanLinks.link("K2", FibreCategory.OM4, 12, "A", "MPO-UPC", "B", "MPO-UPC"));
    assertThat(array.linkFaces()).isEqualTo(24);
    assertThat(array.cordFaces()).isEqualTo(24);
    assertThat(Method.THREE_CORD.cordFaces(2)).isEqualTo(12);
  }

  /** 10,000 fibres: 20,000 link faces and 20,000 to 40,000 looks at cord faces (worked out). */
  @Test
  void aLargeJobHasTensOfThousandsOfFaces() {
    FaceCount sum = FaceCount.NONE;
    for (int i = 0; i < 5000; i++) {
      sum = sum.plus(FaceCount.of(DUPLEX));
    }
    assertThat(sum.linkFaces()).isEqualTo(20_000);
    assertThat(sum.total(1) - sum.linkFaces()).isEqualTo(20_000);
    assertThat(sum.total(2) - sum.linkFaces()).isEqualTo(40_000);
  }

  @Test
  void aSlowJobIsReckonedSlow() {
    Choice choice = new Choice(Directions.BOTH, true, false);
    Pace slow = new Pace.Observed(new Range(1.5, 2, 3), 3, 60);
    double usual = Pace.USUAL.minutes(DUPLEX, choice).usual();
    assertThat(slow.minutes(DUPLEX, choice).usual()).isCloseTo(2 * usual, within(1e-12));
    assertThat(slow.minutes(DUPLEX, choice).high()).isCloseTo(3 * usual, within(1e-12));
    assertThat(slow.origin()).contains("60 links").contains("3 zeros");
  }

  @Test
  void hoursHoldTheWalkTheZerosAndTheVerifications() {
    List<Link> links = new ArrayList<>();
    for (int i = 0; i < 100; i++) {
      links.add(PlanLinks.link("K%03d".formatted(i), "Hub", "Room " + i / 10));
    }
    Choice required = new Choice(Directions.BOTH, true, false);
    Hours hours =
        Hours.of(links, Pace.USUAL, WalkOrder.of(links), VerificationInterval.of(0, 0), required);
    Hours.Row row = hours.required();
    assertThat(row.setUp()).isEqualTo(new Range(200, 200, 300));
    // 10 moves, and 100 links at one in 40.8: two more.
    assertThat(row.verification().usual()).isEqualTo(5 * (10 + 2));
    // One zero for all of them, and one more for the second shift begun.
    assertThat(row.zeros().usual()).isEqualTo(2 * 10);
    assertThat(row.repairs()).isEqualTo(new Range(15, 60, 300));
    assertThat(hours.rows()).contains(row).hasSize(Choice.ALL.size());
    for (Hours.Row one : hours.rows()) {
      assertThat(one.total().usual()).isGreaterThan(one.tests().usual());
    }
  }
}
