package ferrule.core.entry;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.fixture.JobFixture;
import ferrule.core.job.Job;
import ferrule.core.job.Requirement.Directions;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.plant.PortOrder;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** The next fibre at a panel. */
class PortRoundTest {

  private static final Connector LC = Connector.parse("LC-UPC").orElseThrow();

  private static Link link(String id, String place, String port, int fibres) {
    return new Link(
        id,
        FibreCategory.OS2,
        fibres,
        200,
        new LinkEnd(place, port, LC),
        new LinkEnd("Store", id, LC),
        0,
        0,
        List.of());
  }

  private static JobFixture fixture() {
    return JobFixture.singleMode()
        .link(link("L1", "Hall", "1:10", 1))
        .link(link("L2", "Hall", "1:2", 2))
        .link(link("L3", "Loft", "1:1", 1))
        .link(link("L4", "Hall", "1:9", 1));
  }

  private static JobFixture read(JobFixture fixture, String link, int fibre, Integer... nm) {
    for (int one : nm) {
      fixture.reading(
          JobFixture.reading(link, fibre, Direction.A_TO_B, one, 0.3, "Z", JobFixture.MORNING));
    }
    return fixture;
  }

  private static List<String> coming(Job job, String place, Direction direction, String after) {
    Optional<FibreId> last =
        after.isEmpty()
            ? Optional.empty()
            : Optional.of(new FibreId(after.split("/")[0], Integer.parseInt(after.split("/")[1])));
    return PortRound.of(job, place, direction).comingAfter(last).stream()
        .map(stop -> stop.fibre().toString())
        .toList();
  }

  @Test
  void portsAreWalkedInTheOrderOfTheirNumbers() {
    assertThat(coming(fixture().job(), "Hall", Direction.A_TO_B, ""))
        .containsExactly("L2/1", "L2/2", "L4/1", "L1/1");
  }

  @Test
  void theRoundGoesOnBehindTheFibreReadLastAndThenAround() {
    assertThat(coming(fixture().job(), "Hall", Direction.A_TO_B, "L2/2"))
        .containsExactly("L4/1", "L1/1", "L2/1", "L2/2");
  }

  @Test
  void aFibreReadAtEveryWavelengthIsOfferedNoMoreAndOneReadInPartIs() {
    Job job = read(read(fixture(), "L2", 1, 1310, 1550), "L4", 1, 1310).job();
    assertThat(coming(job, "Hall", Direction.A_TO_B, "")).containsExactly("L2/2", "L4/1", "L1/1");
    PortRound round = PortRound.of(job, "Hall", Direction.A_TO_B);
    assertThat(round.openCount()).isEqualTo(3);
    assertThat(round.stop(new FibreId("L4", 1)).orElseThrow().open())
        .extracting(w -> w.nm())
        .containsExactly(1550);
  }

  @Test
  void theOtherDirectionIsAnotherRoundUnlessOneIsEnough() {
    JobFixture both = read(fixture(), "L2", 1, 1310, 1550);
    assertThat(coming(both.job(), "Hall", Direction.B_TO_A, "")).contains("L2/1");
    JobFixture one = read(fixture().directions(Directions.ONE), "L2", 1, 1310, 1550);
    assertThat(coming(one.job(), "Hall", Direction.B_TO_A, "")).doesNotContain("L2/1");
  }

  @Test
  void withoutAPlaceTheWholeScheduleIsWalkedInItsOwnOrder() {
    assertThat(coming(fixture().job(), "", Direction.A_TO_B, ""))
        .containsExactly("L1/1", "L2/1", "L2/2", "L3/1", "L4/1");
  }

  @Test
  void theFarEndOfALinkThatEndsHereWithItsBIsItsA() {
    PortRound round = PortRound.of(fixture().job(), "Store", Direction.B_TO_A);
    assertThat(round.stops().get(0).here().port()).isEqualTo("L1");
    assertThat(round.stops().get(0).there().place()).isEqualTo("Hall");
  }

  @Test
  void portsOfAnyNameHaveOneOrder() {
    List<String> ports =
        new ArrayList<>(
            Arrays.asList("B2", "b10", "", "B02x", "1:100000000000000000000", "1:9", "ä", "B2a"));
    ports.sort(PortOrder.ANY_CASE);
    assertThat(ports)
        .containsExactly("", "1:9", "1:100000000000000000000", "B2", "B2a", "B02x", "b10", "ä");
  }
}
