package ferrule.core.trust.many;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.plant.PortOrder;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class PortOrderTest {

  private static final Connector LC = Connector.parse("LC-UPC").orElseThrow();

  @Test
  void numbersCountAndLettersSpell() {
    List<String> ports =
        new ArrayList<>(List.of("B1", "1:10", "A10", "1:2", "A9", "1:02", "2:1", ""));
    ports.sort(PortOrder.NATURAL);
    assertThat(ports).containsExactly("", "1:02", "1:2", "1:10", "2:1", "A9", "A10", "B1");
  }

  @Test
  void theNumberAtTheEndIsThePortAndTheRestThePanel() {
    assertThat(PortOrder.samePanel("1:07", "1:112")).isTrue();
    assertThat(PortOrder.samePanel("1:07", "2:07")).isFalse();
    assertThat(PortOrder.samePanel("1:07", "1")).isFalse();
    assertThat(PortOrder.samePanel("7", "12")).isTrue();
    assertThat(PortOrder.samePanel("A-12b", "A-12b")).isTrue();
    assertThat(PortOrder.samePanel("A-12b", "A-13b")).isFalse();
  }

  @Test
  void aRowFollowsItsPortsOrElseTheSchedule() {
    List<PortRow> rows =
        PortRow.of(
            List.of(
                link("K1", "Hub", "2:1", "Room", ""),
                link("K2", "Hub", "1:10", "Room", ""),
                link("K3", "Hub", "1:9", "Room", "")));
    assertThat(rows).extracting(PortRow::place).containsExactly("Hub", "Room");
    assertThat(rows.get(0).links()).containsExactly(2, 1, 0);
    assertThat(rows.get(0).panelStart()).containsExactly(0, 0, 2);
    assertThat(rows.get(0).panelEnd()).containsExactly(2, 2, 3);
    assertThat(rows.get(1).links()).containsExactly(0, 1, 2);
    assertThat(rows.get(1).panelStart()).containsExactly(0, 0, 0);
  }

  @Test
  void aPlaceAtBothEndsOfALinkHasARowForEachEnd() {
    List<PortRow> rows =
        PortRow.of(List.of(link("K1", "Hub", "1", "Hub", "9"), link("K2", "Hub", "2", "Hub", "8")));
    assertThat(rows).hasSize(2);
    assertThat(rows.get(0).links()).containsExactly(0, 1);
    assertThat(rows.get(1).links()).containsExactly(1, 0);
  }

  @Test
  void placesWithoutANameHaveNoRow() {
    assertThat(PortRow.of(List.of(link("K1", "", "1", "", "1")))).isEmpty();
  }

  private static Link link(String id, String a, String aPort, String b, String bPort) {
    return new Link(
        id,
        FibreCategory.OS2,
        1,
        100,
        new LinkEnd(a, aPort, LC),
        new LinkEnd(b, bPort, LC),
        0,
        0,
        List.of());
  }
}
