package ferrule.core.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.core.fixture.JobFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Cord.CordEnd;
import ferrule.core.rulebook.CordGrade;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PlantTest {

  private static final Connector LC = Connector.parse("LC-UPC").orElseThrow();
  private static final Connector SC_APC = Connector.parse("SC-APC").orElseThrow();

  private static CordEnd end(Connector connector, CordGrade grade) {
    return new CordEnd(Optional.of(connector), Optional.of(grade));
  }

  private static Cord cord(CordEnd one, CordEnd other) {
    return new Cord(
        "L1",
        FibreCategory.OS2,
        Optional.empty(),
        one,
        other,
        OptionalInt.empty(),
        Optional.empty());
  }

  @ParameterizedTest
  @CsvSource({
    "LC-UPC, LC-UPC, true",
    "LC-PC, LC-UPC, true",
    "lc-upc, LC-UPC, true",
    "LC-APC, LC-UPC, false",
    "SC-UPC, LC-UPC, false",
    "SC-APC, SC-APC, true"
  })
  void anAngledFaceNeverMeetsAStraightOne(String one, String other, boolean mates) {
    assertThat(Connector.parse(one).orElseThrow().mates(Connector.parse(other).orElseThrow()))
        .isEqualTo(mates);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "LC", "-UPC", "LC-", "LC-XPC", "L C-UPC", "1LC-PC"})
  void whatIsNoConnectorIsNotRead(String text) {
    assertThat(Connector.parse(text)).isEmpty();
  }

  @Test
  void theEndAtTheLinkIsTheOneThatMates() {
    Cord cord = cord(end(SC_APC, CordGrade.REFERENCE), end(LC, CordGrade.STANDARD));
    assertThat(cord.endFor(LC).flatMap(CordEnd::grade)).contains(CordGrade.STANDARD);
    assertThat(cord.endFor(SC_APC).flatMap(CordEnd::grade)).contains(CordGrade.REFERENCE);
    assertThat(cord.endFor(Connector.parse("ST-PC").orElseThrow())).isEmpty();
  }

  @Test
  void ofTwoEndsThatMateTheReferenceOneIsTaken() {
    CordEnd reference = end(LC, CordGrade.REFERENCE);
    CordEnd ordinary = end(LC, CordGrade.STANDARD);
    assertThat(cord(ordinary, reference).endFor(LC)).contains(reference);
    assertThat(cord(reference, ordinary).endFor(LC)).contains(reference);
  }

  @ParameterizedTest
  @CsvSource({"0, 10", "6913, 10", "2, 0", "2, -5", "2, 200001", "2, NaN", "2, Infinity"})
  void linksOutsideTheirRangesAreRefused(int fibres, double metres) {
    assertThatThrownBy(
            () -> JobFixture.aLink("K001", FibreCategory.OS2, fibres, metres, 0, 0, List.of()))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void directionsHaveTwoEnds() {
    Link link = JobFixture.aLink("K001", FibreCategory.OS2, 2, 10, 0, 0, List.of());
    for (Direction direction : Direction.values()) {
      assertThat(link.entry(direction)).isEqualTo(link.exit(direction.reversed()));
      assertThat(Direction.ofWord(direction.word().toLowerCase(java.util.Locale.ROOT)))
          .contains(direction);
    }
  }

  @Test
  void manyFibresAreShownInFewWords() {
    List<FibreId> fibres =
        List.of(
            new FibreId("K002", 1),
            new FibreId("K001", 3),
            new FibreId("K001", 1),
            new FibreId("K001", 2),
            new FibreId("K001", 2),
            new FibreId("K001", 7));
    assertThat(FibreRanges.shown(fibres)).isEqualTo("K001/1-3, K001/7, K002/1");
    assertThat(FibreRanges.shown(fibres, 1)).isEqualTo("K001/1-3 and others, 5 in all");
    assertThat(FibreRanges.shown(List.of())).isEmpty();
  }
}
