package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.zero.Reading;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ScheduleOrderTest {

  private static final Instant START = Instant.parse("2026-10-05T08:00:00Z");

  private static Link link(String id) {
    LinkEnd end = new LinkEnd("", "", Connector.parse("LC-UPC").orElseThrow());
    return new Link(id, FibreCategory.OS2, 2, 100, end, end, 0, 0, List.of(), "");
  }

  private static Reading reading(String link, int fibre, int second, int nm, double lossDb) {
    return new Reading(
        link,
        fibre,
        Direction.A_TO_B,
        new Wavelength(nm),
        Double.NaN,
        lossDb,
        Double.NaN,
        "R1",
        START.plusSeconds(second),
        "");
  }

  @Test
  void readingsFollowTheScheduleThenFibreTimeAndWavelengthWhateverOrderTheyCameIn() {
    List<Link> links = List.of(link("B"), link("A"));
    List<Reading> inOrder =
        List.of(
            reading("B", 1, 5, 1310, 0.3),
            reading("B", 1, 5, 1550, 0.3),
            reading("B", 1, 9, 1310, 0.3),
            reading("B", 2, 1, 1310, 0.3),
            reading("A", 1, 2, 1310, 0.3),
            reading("X", 1, 0, 1310, 0.3),
            reading("Y", 1, 0, 1310, 0.3));
    assertThat(ScheduleOrder.of(links, inOrder)).isSameAs(inOrder);
    Random random = new Random(5);
    for (int i = 0; i < 50; i++) {
      List<Reading> shuffled = new ArrayList<>(inOrder);
      Collections.shuffle(shuffled, random);
      assertThat(ScheduleOrder.of(links, shuffled)).isEqualTo(inOrder);
    }
    assertThat(ScheduleOrder.of(links, List.of())).isEmpty();
  }

  @Test
  void readingsOfOneCaseAndTimeStayAsTheyCame() {
    List<Reading> alike =
        List.of(
            reading("A", 1, 3, 1310, 0.5),
            reading("A", 1, 3, 1310, 0.4),
            reading("A", 1, 2, 1310, 0.6));
    assertThat(ScheduleOrder.of(List.of(link("A")), alike))
        .containsExactly(alike.get(2), alike.get(0), alike.get(1));
  }
}
