package ferrule.core.face;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import ferrule.core.rulebook.ShippedRulebooks;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CriteriaReaderTest {

  private static final String WHOLE =
      ShippedRulebooks.criteriaText("iec-61300-3-35-2015").orElseThrow();

  private static List<Problem> problems(String text) {
    CriteriaReader.Outcome outcome = CriteriaReader.read("own.toml", text);
    assertThat(outcome.criteria()).isEmpty();
    return outcome.problems();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "most = 5|most = 6.5|most|6.5",
        "most = 5|most = \"some\"|most|some",
        "most = 5|least = 5|limit.least|least",
        "flaw = \"scratch\"|flaw = \"crack\"|flaw|crack",
        "class = \"sm-pc\"|class = \"sm\"|class|sm",
        "zone = \"A\"|zone = \"E\"|zone|E",
        "zones = [\"A\", \"B\"]|zones = [\"A\", \"X\"]|zones|X",
        "zones = [\"A\", \"B\"]|zones = []|zones|[]",
        "over_um = 30|over_um = \"30\"|over_um|30",
        "confidence = \"one-source\"|confidence = \"sure\"|confidence|sure",
        "outer_um = 25|outer_um = -25|outer_um|-25",
        "from_um = 2|over_um = 1;from_um = 2|from_um|two",
        "to_um = 5|to_um = 1|to_um|1.0",
        "smallest_um = 2|smallest_um = \"two\"|smallest_um|two"
      })
  void whatIsNotUnderstoodIsRefused(String right, String wrong, String column, String found) {
    assertThat(WHOLE).contains(right);
    String damaged = WHOLE.replace(right, wrong.replace(";", "\n"));
    assertThat(problems(damaged))
        .anySatisfy(
            problem -> {
              assertThat(problem.file()).isEqualTo("own.toml");
              assertThat(problem.row()).isPositive();
              assertThat(problem.column()).isEqualTo(column);
              assertThat(problem.found()).isEqualTo(found);
            });
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "to_um = 5|to_um = 4.5|every size once for class sm-pc, zone B, defect",
        "from_um = 2|over_um = 2|every size once for class sm-pc, zone B, defect",
        "outer_um = 115|outer_um = 20|zone B of class sm-pc",
        "[resolution]|[revolution]|a table [resolution]",
        "[array]|[ray]|a table [array]"
      })
  void gapsAreRefused(String right, String wrong, String expected) {
    assertThat(WHOLE).contains(right);
    assertThat(problems(WHOLE.replace(right, wrong)))
        .anySatisfy(problem -> assertThat(problem.expected()).contains(expected));
  }

  @Test
  void aZoneGivenTwiceIsRefused() {
    assertThat(problems(WHOLE.replace("zone = \"D\"", "zone = \"C\"")))
        .anySatisfy(problem -> assertThat(problem.expected()).isEqualTo("each figure once"));
  }

  @Test
  void aLeftOutTableIsToldFromAnyNumber() {
    assertThat(problems(WHOLE.replace("most = \"unlimited\"\n", "")))
        .allSatisfy(problem -> assertThat(problem.column()).isEqualTo("most"));
  }
}
