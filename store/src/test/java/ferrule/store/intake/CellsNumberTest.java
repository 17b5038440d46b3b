package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Against Double.parseDouble, which rounds every decimal to the nearest double. */
class CellsNumberTest {

  private final List<Problem> problems = new ArrayList<>();

  private Cells cells(boolean decimalComma, String cell) {
    Header header =
        Header.of(
            TableKind.READINGS,
            "readings.csv",
            1,
            TableKind.READINGS.columns().toArray(String[]::new),
            problems);
    RowBuffer row = new RowBuffer();
    row.begin(2);
    for (String column : TableKind.READINGS.columns()) {
      row.add(column.equals("power_dbm") ? cell : "1");
    }
    Cells cells = new Cells("readings.csv", header, decimalComma, problems);
    cells.turnTo(row);
    return cells;
  }

  private double number(boolean decimalComma, String text) {
    int column = TableKind.READINGS.columns().indexOf("power_dbm");
    return cells(decimalComma, text).number(column, -1e16, 1e16, "dBm");
  }

  @Test
  void decimalsAreReadToTheNearestDouble() {
    SplittableRandom random = new SplittableRandom(314);
    for (int i = 0; i < 50_000; i++) {
      BigDecimal decimal =
          BigDecimal.valueOf(random.nextLong() >> random.nextInt(14, 63), random.nextInt(0, 19));
      String text =
          switch (random.nextInt(4)) {
            case 0 -> decimal.toString();
            case 1 -> (decimal.signum() < 0 ? "" : "+") + decimal.toPlainString();
            case 2 -> " \u00a0" + decimal.toPlainString() + "0 ";
            default -> decimal.toPlainString();
          };
      double expected = Double.parseDouble(text.replace('\u00a0', ' '));
      assertThat(number(false, text)).as(text).isEqualTo(expected);
      if (decimal.scale() > 0 && text.indexOf('E') < 0) {
        assertThat(number(true, text.replace('.', ','))).as(text).isEqualTo(expected);
      }
    }
    assertThat(problems).isEmpty();
  }

  @Test
  void whatJavaWouldTakeForANumberButNoTableShouldHoldIsAProblem() {
    String alphabet = "0123456789+-.,eExXpPdDfFNaInity_ \u2212";
    SplittableRandom random = new SplittableRandom(15);
    for (int i = 0; i < 50_000; i++) {
      StringBuilder text = new StringBuilder();
      for (int length = random.nextInt(1, 7); length > 0; length--) {
        text.append(alphabet.charAt(random.nextInt(alphabet.length())));
      }
      problems.clear();
      double number = number(false, text.toString());
      String bare = text.toString().strip();
      boolean plain =
          bare.matches("[+-]?([0-9]+[.]?[0-9]*|[.][0-9]+)([eE][+-]?[0-9]{1,3})?")
              && Math.abs(Double.parseDouble(bare)) <= 1e16;
      assertThat(!Double.isNaN(number)).as(bare).isEqualTo(plain);
      assertThat(problems).hasSize(plain || bare.isEmpty() ? 0 : 1);
      if (plain) {
        assertThat(number).isEqualTo(Double.parseDouble(bare));
      }
    }
  }

  @Test
  void aDecimalCommaCountsOnlyWhereTheFileLeavesTheCommaFree() {
    assertThat(number(true, "-5,42")).isEqualTo(-5.42);
    assertThat(number(true, "-5.42")).isEqualTo(-5.42);
    assertThat(problems).isEmpty();
    assertThat(number(false, "-5,42")).isNaN();
    assertThat(number(true, "1.180,5")).isNaN();
    assertThat(number(true, "1,180,5")).isNaN();
    assertThat(problems).hasSize(3);
  }
}
