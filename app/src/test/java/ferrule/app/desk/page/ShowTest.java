package ferrule.app.desk.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Numbers, addresses and pages as a reader sees them. */
class ShowTest {

  @Test
  void aShareIsNeverRoundedToNoneOrAll() {
    assertThat(Show.percent(0)).isEqualTo("0 %");
    assertThat(Show.percent(0.0004)).isEqualTo("under 0.1 %");
    assertThat(Show.percent(0.125)).isEqualTo("12.5 %");
    assertThat(Show.percent(0.99999)).isEqualTo("over 99.9 %");
    assertThat(Show.percent(1)).isEqualTo("100 %");
    assertThat(Show.percent(Double.NaN)).isEqualTo("none");
  }

  @Test
  void aProbabilityIsNeverCertain() {
    assertThat(Show.probability(1)).isEqualTo("over 99.9 %");
    assertThat(Show.probability(0)).isEqualTo("under 0.1 %");
    assertThat(Show.probability(0.977)).isEqualTo("97.7 %");
    assertThat(Show.probability(Double.NaN)).isEqualTo("none");
  }

  @Test
  void minutesAreShownAsHoursFromOneHourOn() {
    assertThat(Show.minutes(5)).isEqualTo("5 min");
    assertThat(Show.minutes(59.6)).isEqualTo("1 h");
    assertThat(Show.minutes(85)).isEqualTo("1 h 25 min");
  }

  @Test
  void namesOfEvidenceCarryTheirUnit() {
    assertThat(Show.evidenceName("stored_power_dbm")).isEqualTo("stored power, dBm");
    assertThat(Show.evidenceName("gap_db")).isEqualTo("gap, dB");
    assertThat(Show.evidenceName("gap_m")).isEqualTo("gap, m");
    assertThat(Show.evidenceName("readings")).isEqualTo("readings");
  }

  @Test
  void pagesHoldEveryItemOnce() {
    List<Integer> all = IntStream.range(0, 101).boxed().toList();
    int seen = 0;
    for (int page = 1; page <= 3; page++) {
      Pager<Integer> pager = Pager.of(all, 50, page);
      assertThat(pager.pages()).isEqualTo(3);
      for (int item : pager.items()) {
        assertThat(item).isEqualTo(seen);
        assertThat(Pager.pageOf(item, 50)).isEqualTo(page);
        seen++;
      }
    }
    assertThat(seen).isEqualTo(101);
    assertThat(Pager.of(all, 50, 99).page()).isEqualTo(3);
    assertThat(Pager.of(List.of(), 50, 2).last()).isZero();
  }

  @Test
  void anIdThatABrowserWouldTakeForAStepGoesIntoTheQuery() {
    assertThat(Urls.link("K/1 ä")).isEqualTo("/link/K%2F1%20%C3%A4");
    assertThat(Urls.link("..")).isEqualTo("/link?id=..");
    assertThat(Urls.fibre(new ferrule.core.plant.FibreId("..", 25)))
        .isEqualTo("/link?id=..&page=2#f25");
  }
}
