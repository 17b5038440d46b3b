package ferrule.core.rulebook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.checks.CheckFile;
import org.junit.jupiter.api.Test;

/** Losses of splitters; sources in the table. */
class SplitterTest {

  @Test
  void idealAndUsualLossesAreThoseOfTheTable() {
    var rows = CheckFile.table("/checks/splitters.csv");
    assertThat(rows).hasSize(7);
    for (var row : rows) {
      int legs = Integer.parseInt(row.getField("legs"));
      Splitter splitter = Splitter.ofDevice("Splitter-1x" + legs).orElseThrow();
      assertThat(splitter.idealDb())
          .isCloseTo(Double.parseDouble(row.getField("ideal_db")), within(0.005));
      assertThat(splitter.leastUsualDb()).isEqualTo(Double.parseDouble(row.getField("least_db")));
      assertThat(splitter.mostUsualDb()).isEqualTo(Double.parseDouble(row.getField("most_db")));
      assertThat(splitter.usualDb()).isGreaterThan(splitter.idealDb());
    }
  }

  @Test
  void whatIsNoSplitterOfThatTableHasNoFigure() {
    assertThat(Splitter.ofDevice("splitter-1x3")).isEmpty();
    assertThat(Splitter.ofDevice("splitter-2x8")).isEmpty();
    assertThat(Splitter.ofDevice("tap")).isEmpty();
  }
}
