package ferrule.core.allowance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.fixture.JobFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.zero.Method;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class ExpectationsTest {

  private static final Wavelength NM_1310 = new Wavelength(1310);

  private static Allowance of(Rulebook rulebook, Wavelength wavelength, Method method, Link link) {
    return new AllowanceRecipe(rulebook, link.category(), wavelength, method, TestPlugs.REFERENCE)
        .of(link);
  }

  private static Link link(double metres, int connections, int splices, String... devices) {
    return JobFixture.aLink(
        "K001", FibreCategory.OS2, 2, metres, connections, splices, List.of(devices));
  }

  /** From a simulation of good work, not published: 0.29 dB with a spread of 0.11 dB. */
  @Test
  void aShortSingleModeLinkIsExpectedWhereTheSimulationPutsIt() {
    Allowance allowance =
        of(JobFixture.shipped("iso-11801-1"), NM_1310, Method.ONE_CORD, link(150, 0, 0));
    assertThat(allowance.expectedDb()).isCloseTo(0.29, within(0.005));
    assertThat(allowance.expectedSdDb()).isCloseTo(0.11, within(0.005));
  }

  @Test
  void connectionsAreExpectedToLoseLessAt1550() {
    Part at1310 = Expectations.end(FibreKind.SINGLE_MODE, CordGrade.REFERENCE, NM_1310);
    Part at1550 =
        Expectations.end(FibreKind.SINGLE_MODE, CordGrade.REFERENCE, new Wavelength(1550));
    assertThat(at1310.eachDb() / at1550.eachDb()).isCloseTo(1.278, within(0.0005));
    assertThat(at1310.eachSdDb() / at1550.eachSdDb()).isCloseTo(1.278, within(0.0005));
  }

  @ParameterizedTest
  @EnumSource(Method.class)
  void whatTheZeroTookOutLeavesItsSpread(Method method) {
    Rulebook book = JobFixture.shipped("iso-11801-1");
    Allowance one = of(book, NM_1310, Method.ONE_CORD, link(150, 0, 0));
    Allowance other = of(book, NM_1310, method, link(150, 0, 0));
    assertThat(one.expectedDb() - other.expectedDb())
        .isCloseTo(0.12 * method.cordPairs(), within(1e-12));
    assertThat(other.expectedSdDb()).isCloseTo(one.expectedSdDb(), within(1e-12));
  }

  @Test
  void spreadsOfConnectionsAddAsSquaresAndThatOfFibreWithTheLength() {
    Part part = Expectations.inner(FibreKind.SINGLE_MODE, NM_1310);
    assertThat(new LossSum(List.of(new Term(4, part, Term.Scatter.INDEPENDENT))).sd())
        .isCloseTo(2 * part.eachSdDb(), within(1e-12));
    assertThat(new LossSum(List.of(new Term(4, part, Term.Scatter.COMMON))).sd())
        .isCloseTo(4 * part.eachSdDb(), within(1e-12));
  }

  @Test
  void whatGoodWorkLosesLiesWithinEveryShippedLimit() {
    for (String id : List.of("iso-11801-1", "tia-568.3-d", "tia-568.3-e")) {
      Allowance allowance = of(JobFixture.shipped(id), NM_1310, Method.ONE_CORD, link(2000, 2, 4));
      assertThat(allowance.expectedDb()).isLessThan(allowance.limitDb());
    }
  }

  @Test
  void aDeviceHasNoExpectationAndNoLimitUntilTheRulebookHasOne() {
    Rulebook shipped = JobFixture.shipped("iso-11801-1");
    Allowance without = of(shipped, NM_1310, Method.ONE_CORD, link(150, 0, 0, "splitter-1x8"));
    assertThat(without.limit()).isEmpty();
    assertThat(without.limitDb()).isNaN();
    assertThat(without.expectedDb()).isNaN();
    assertThat(without.lacking()).containsExactly("device splitter-1x8");
    Figure figure = shipped.splice().get(FibreKind.SINGLE_MODE);
    Rulebook own =
        new Rulebook(
            "own",
            "own",
            "own",
            List.of(),
            shipped.fibre(),
            shipped.inner(),
            shipped.end(),
            shipped.referencePair(),
            shipped.splice(),
            Map.of(
                "splitter-1x8",
                new Figure(10.5, java.util.Objects.requireNonNull(figure).provenance())));
    Allowance with = of(own, NM_1310, Method.ONE_CORD, link(150, 0, 0, "splitter-1x8"));
    assertThat(with.limitDb()).isCloseTo(0.06 + 1.5 + 10.5, within(1e-9));
    assertThat(with.lacking()).isEmpty();
  }

  @Test
  void eachGapOfTheRulebookIsNamed() {
    Rulebook bare =
        new Rulebook(
            "bare", "bare", "bare", List.of(), Map.of(), Map.of(), Map.of(), Map.of(), Map.of(),
            Map.of());
    Allowance allowance = of(bare, NM_1310, Method.ONE_CORD, link(150, 1, 1));
    assertThat(allowance.limit()).isEmpty();
    assertThat(allowance.lacking())
        .containsExactly(
            "fibre OS2 at 1310 nm",
            "end connection, single-mode, reference-grade cord",
            "connection inside the link, single-mode",
            "splice, single-mode");
  }

  @ParameterizedTest
  @CsvSource({"OS2, 1600", "OM4, 1310", "OM4, 1550", "OS2, 850"})
  void noTypicalFigureIsInventedBetweenTheWindows(String category, int nm) {
    assertThat(
            Expectations.fibre(FibreCategory.ofLabel(category).orElseThrow(), new Wavelength(nm)))
        .isEmpty();
  }

  @Test
  void anUnknownGradeIsSaidToBeAssumed() {
    Link link = link(150, 0, 0);
    Allowance allowance =
        new AllowanceRecipe(
                JobFixture.shipped("iso-11801-1"),
                FibreCategory.OS2,
                NM_1310,
                Method.ONE_CORD,
                new TestPlugs(CordGrade.REFERENCE, CordGrade.REFERENCE, false))
            .of(link);
    assertThat(allowance.limitTerms().terms())
        .anyMatch(t -> t.part().what().contains("assumed: grade not on record"));
  }
}
