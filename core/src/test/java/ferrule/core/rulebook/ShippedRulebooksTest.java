package ferrule.core.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import java.util.Collection;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ShippedRulebooksTest {

  static List<String> ids() {
    return ShippedRulebooks.ids();
  }

  private static Rulebook book(String id) {
    return ShippedRulebooks.find(id).orElseThrow();
  }

  private static Stream<Figure> figures(Rulebook book) {
    return Stream.of(
            book.fibre().values(),
            book.inner().values(),
            book.end().values(),
            book.referencePair().values(),
            book.splice().values(),
            book.device().values())
        .flatMap(Collection::stream);
  }

  @Test
  void theShippedOnesAreThereInAlphabeticalOrder() {
    assertThat(ids())
        .isSorted()
        .contains(
            "iso-11801-1",
            "iso-11801-1-ends-2006",
            "tia-568.3-d",
            "tia-568.3-e",
            "tia-568.3-e-indoor-outdoor",
            "iec-61753-1-grade-b",
            "iec-61753-1-grade-c",
            "itu-t-access");
    assertThat(ShippedRulebooks.find("nobody's")).isEmpty();
    assertThat(ShippedRulebooks.text("../rulebooks/iso-11801-1")).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("ids")
  void eachIsReadWithoutAProblem(String id) {
    RulebookReader.Outcome outcome =
        RulebookReader.read(id, ShippedRulebooks.text(id).orElseThrow());
    assertThat(outcome.problems()).isEmpty();
    assertThat(outcome.rulebook()).map(Rulebook::id).contains(id);
    assertThat(book(id).edition()).isNotBlank();
    assertThat(book(id).title()).isNotBlank();
  }

  @ParameterizedTest
  @MethodSource("ids")
  void eachIsKeptAsATextThatStandsAlone(String id) {
    String text = ShippedRulebooks.text(id).orElseThrow();
    String kept = RulebookReader.standingAlone(text, book(id));
    assertThat(kept).doesNotContain("based_on");
    assertThat(RulebookReader.readKept(id, kept).rulebook()).contains(book(id));
    assertThat(RulebookToml.of(book(id))).isEqualTo(RulebookToml.of(book(id)));
    assertThat(RulebookReader.read(id, RulebookToml.of(book(id))).rulebook()).contains(book(id));
    assertThat(kept.equals(text)).isEqualTo(!text.contains("based_on"));
  }

  @ParameterizedTest
  @MethodSource("ids")
  void everyFigureSaysWhereItComesFrom(String id) {
    assertThat(figures(book(id)))
        .isNotEmpty()
        .allSatisfy(
            figure -> {
              Provenance source = figure.provenance();
              assertThat(source.standard()).isNotBlank();
              assertThat(source.clause()).isNotBlank();
              assertThat(source.seenIn()).isNotBlank();
              assertThat(source.confidence()).isNotEqualTo(Confidence.OWNER);
              assertThat(source.seenIn().equals("memory"))
                  .as("seen nowhere exactly if from memory: " + source.line())
                  .isEqualTo(source.fromMemory());
              assertThat(source.line().contains("from memory: confirm against the standard"))
                  .isEqualTo(source.fromMemory());
            });
  }

  @ParameterizedTest
  @MethodSource("ids")
  void twoSourcesAreTwo(String id) {
    assertThat(figures(book(id)))
        .filteredOn(f -> f.provenance().confidence() == Confidence.TWO_SOURCES)
        .isNotEmpty()
        .allSatisfy(f -> assertThat(f.provenance().seenIn()).contains(";"));
  }

  @ParameterizedTest
  @MethodSource("ids")
  void figuresFromMemoryAreCounted(String id) {
    assertThat(book(id).figuresFromMemory())
        .isPositive()
        .isEqualTo(figures(book(id)).filter(f -> f.provenance().fromMemory()).count());
  }

  @ParameterizedTest
  @MethodSource("ids")
  void allowancesOfConnectionsAndSplicesAreWhole(String id) {
    for (FibreKind kind : FibreKind.values()) {
      assertThat(book(id).innerLimit(kind)).isPresent();
      assertThat(book(id).spliceLimit(kind)).isPresent();
      assertThat(book(id).referencePairLimit(kind)).isPresent();
      for (CordGrade grade : CordGrade.values()) {
        assertThat(book(id).endLimit(kind, grade)).isPresent();
      }
      double reference = book(id).endLimit(kind, CordGrade.REFERENCE).orElseThrow().value();
      double ordinary = book(id).endLimit(kind, CordGrade.STANDARD).orElseThrow().value();
      assertThat(reference).isLessThanOrEqualTo(ordinary);
    }
  }

  @ParameterizedTest
  @MethodSource("ids")
  void theTwoUsualWavelengthsOfEachCategoryAreLimited(String id) {
    for (FibreCategory category : book(id).categories()) {
      boolean singleMode = category.kind() == FibreKind.SINGLE_MODE;
      assertThat(book(id).wavelengths(category))
          .contains(
              new Wavelength(singleMode ? 1310 : 850), new Wavelength(singleMode ? 1550 : 1300));
    }
  }

  @Test
  void editionsDifferWhereTheyAreKnownToDiffer() {
    Wavelength red = new Wavelength(850);
    assertThat(book("iso-11801-1").fibreLimit(FibreCategory.OM4, red).orElseThrow().value())
        .isEqualTo(3.5);
    assertThat(book("tia-568.3-d").fibreLimit(FibreCategory.OM4, red).orElseThrow().value())
        .isEqualTo(3.0);
    assertThat(end("tia-568.3-d", FibreKind.MULTIMODE)).isEqualTo(0.30);
    assertThat(end("tia-568.3-e", FibreKind.MULTIMODE)).isEqualTo(0.50);
    assertThat(end("tia-568.3-e", FibreKind.SINGLE_MODE)).isEqualTo(0.50);
    assertThat(end("iso-11801-1", FibreKind.SINGLE_MODE)).isEqualTo(0.75);
  }

  /** All four are from memory in every shipped rulebook, and must be shown so. */
  private static double end(String id, FibreKind kind) {
    Figure figure = book(id).endLimit(kind, CordGrade.REFERENCE).orElseThrow();
    assertThat(figure.provenance().fromMemory()).isTrue();
    return figure.value();
  }

  /** Facts of ISO/IEC 14763-3: the two generations differ in their end connections alone. */
  @Test
  void theOlderEndConnectionsAreTighterAndNothingElseDiffers() {
    Rulebook now = book("iso-11801-1");
    Rulebook older = book("iso-11801-1-ends-2006");
    assertThat(older.fibre()).isEqualTo(now.fibre());
    assertThat(older.inner()).isEqualTo(now.inner());
    assertThat(older.splice()).isEqualTo(now.splice());
    assertThat(older.notes()).containsAll(now.notes());
    for (FibreKind kind : FibreKind.values()) {
      assertThat(older.endLimit(kind, CordGrade.REFERENCE).orElseThrow().value())
          .isLessThan(now.endLimit(kind, CordGrade.REFERENCE).orElseThrow().value());
      assertThat(older.endLimit(kind, CordGrade.STANDARD))
          .isEqualTo(now.endLimit(kind, CordGrade.STANDARD));
    }
  }

  /** What splitting alone costs is 10 log10 N (arithmetic); real splitters lose more. */
  @Test
  void everySplitterMayLoseMoreThanSplittingCosts() {
    Rulebook access = book("itu-t-access");
    for (int n = 2; n <= 128; n *= 2) {
      double limit = access.deviceLimit("splitter-1x" + n).orElseThrow().value();
      assertThat(limit).isBetween(10 * Math.log10(n) + 0.5, 10 * Math.log10(n) + 4);
    }
    assertThat(access.wavelengths(FibreCategory.OS2))
        .extracting(Wavelength::nm)
        .containsExactly(1310, 1383, 1490, 1550, 1625);
  }
}
