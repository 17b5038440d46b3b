package ferrule.core.allowance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import ferrule.core.checks.CheckFile;
import ferrule.core.fixture.JobFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.zero.Method;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ShippedAllowancesTest {

  /** One case with its limit by hand. */
  record Case(NamedCsvRecord row) {
    private String text(String column) {
      return row.getField(column);
    }

    Allowance allowance() {
      AllowanceRecipe recipe =
          new AllowanceRecipe(
              JobFixture.shipped(text("rulebook")),
              FibreCategory.ofLabel(text("category")).orElseThrow(),
              new Wavelength(Integer.parseInt(text("wavelength_nm"))),
              Method.ofWord(text("method")).orElseThrow(),
              new TestPlugs(
                  CordGrade.ofWord(text("entry")).orElseThrow(),
                  CordGrade.ofWord(text("exit")).orElseThrow(),
                  true));
      return recipe.of(link());
    }

    Link link() {
      return JobFixture.aLink(
          "K001",
          FibreCategory.ofLabel(text("category")).orElseThrow(),
          2,
          Double.parseDouble(text("length_m")),
          Integer.parseInt(text("connections")),
          Integer.parseInt(text("splices")),
          List.of());
    }

    @Override
    public String toString() {
      return String.join(
          " ",
          text("rulebook"),
          text("category"),
          text("length_m") + " m",
          text("method"),
          text("entry") + "/" + text("exit"),
          text("wavelength_nm") + " nm:",
          text("working"));
    }
  }

  static List<Case> cases() {
    return CheckFile.table("/rulebooks/allowances.csv").stream().map(Case::new).toList();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void theLimitIsTheOneWorkedOutByHand(Case one) {
    double byHand = Double.parseDouble(one.text("limit_db"));
    Allowance allowance = one.allowance();
    assertThat(allowance.limitDb()).isCloseTo(byHand, within(1e-9));
    assertThat(allowance.limit())
        .hasValueSatisfying(l -> assertThat(l.value()).isCloseTo(byHand, within(1e-9)));
    assertThat(allowance.lacking()).isEmpty();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void theTermsShownMakeUpTheTotals(Case one) {
    Allowance allowance = one.allowance();
    assertThat(allowance.limitTerms().total().value())
        .isCloseTo(allowance.limitDb(), within(1e-12));
    assertThat(allowance.limitTerms().sd()).isZero();
    assertThat(allowance.expectedTerms().total().value())
        .isCloseTo(allowance.expectedDb(), within(1e-12));
    assertThat(allowance.expectedTerms().sd()).isCloseTo(allowance.expectedSdDb(), within(1e-12));
    assertThat(allowance.limitTerms().terms())
        .allSatisfy(term -> assertThat(term.part().source().standard()).isNotBlank());
  }

  @Test
  void everyShippedRulebookAndMethodIsChecked() {
    assertThat(cases().stream().map(c -> c.text("rulebook")).distinct())
        .containsExactlyInAnyOrderElementsOf(ShippedRulebooks.ids());
    assertThat(
            cases().stream()
                .filter(
                    c ->
                        Set.of("iso-11801-1", "tia-568.3-d", "tia-568.3-e")
                            .contains(c.text("rulebook")))
                .map(c -> c.text("rulebook") + " " + c.text("method"))
                .collect(Collectors.toSet()))
        .hasSize(9);
  }
}
