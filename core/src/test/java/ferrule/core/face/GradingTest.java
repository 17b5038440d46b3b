package ferrule.core.face;

import static ferrule.core.face.Faces.defect;
import static ferrule.core.face.Faces.scratch;
import static ferrule.core.face.Faces.seen;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.face.GradeReason.Kind;
import ferrule.core.face.ShippedCriteriaTest.Row;
import ferrule.core.rulebook.Confidence;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class GradingTest {

  private static final Criteria OF_2015 = ShippedCriteria.find("2015").orElseThrow();
  private static final Criteria OF_2009 = ShippedCriteria.find("2009").orElseThrow();

  private static Grade grade(FaceClass faceClass, Flaw... flaws) {
    return Grading.grade(OF_2015, faceClass, seen(flaws));
  }

  static List<Row> rows() {
    return ShippedCriteriaTest.rows();
  }

  /** A distance from the centre, well inside the zone. */
  private static double within(Row row) {
    return row.outerUm() / 2 - 2;
  }

  /** The smallest and the largest sizes that the row means, as near as numbers come. */
  private static List<Double> sizes(Row row) {
    SizeRange sizes = row.sizes();
    double least = sizes.lowIncluded() ? sizes.lowUm() : Math.nextUp(sizes.lowUm() + 1e-9);
    double most = sizes.highIncluded() ? sizes.highUm() : Math.nextDown(sizes.highUm() - 1e-9);
    return List.of(least, Double.isInfinite(sizes.highUm()) ? 200 : most);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("rows")
  void asManyAsARowAllowsConformAndOneMoreIsRejected(Row row) {
    Criteria criteria = ShippedCriteria.find(row.edition()).orElseThrow();
    for (double size : sizes(row)) {
      Flaw flaw = Faces.flaw(row.kind(), size, within(row));
      int allowed = row.most().orElse(40);
      Grade asMany =
          Grading.grade(criteria, row.faceClass(), seen(Collections.nCopies(allowed, flaw)));
      assertThat(asMany.outcome()).as(size + " µm").isEqualTo(FaceOutcome.CONFORMS);
      Grade oneMore =
          Grading.grade(criteria, row.faceClass(), seen(Collections.nCopies(allowed + 1, flaw)));
      if (row.most().isEmpty()) {
        assertThat(oneMore.outcome()).isEqualTo(FaceOutcome.CONFORMS);
        assertThat(oneMore.flaws()).noneMatch(GradedFlaw::counted);
        continue;
      }
      assertThat(oneMore.outcome()).as(size + " µm").isEqualTo(FaceOutcome.REJECTED);
      assertThat(oneMore.flaws()).allMatch(GradedFlaw::counted);
      assertThat(oneMore.reasons().get(0).kind()).isEqualTo(Kind.REJECTED);
      assertThat(oneMore.reasons().get(0).text())
          .as("names flaw, zone, size, limit, table and confidence")
          .containsIgnoringCase(row.kind().word() + " " + (allowed + 1))
          .contains(row.zone().shown())
          .contains(Microns.shown(size) + " µm")
          .contains("allowed is ")
          .contains(row.table())
          .contains("(" + row.confidence().shown() + ")");
    }
  }

  @Test
  void aReasonReadsLikeThis() {
    Flaw flaw = new Flaw(FlawKind.DEFECT, 12.14, -30.36, 6.2, 4.1, 0.25, -0.2, 29.6, 35.8);
    assertThat(grade(FaceClass.SM_PC, flaw).reasonTexts())
        .containsExactly(
            "Defect 1 of 6.2 µm (± 0.5 µm) at x 12.1, y -30.4 µm in zone B (cladding): allowed is"
                + " no defect over 5 µm in zone B (cladding); IEC 61300-3-35, 2015, Table 1 (one"
                + " source)");
    Flaw[] six = Collections.nCopies(6, defect(3, 40)).toArray(new Flaw[0]);
    assertThat(grade(FaceClass.SM_PC, six).reasonTexts())
        .singleElement()
        .asString()
        .startsWith(
            "6 defects of 2 to 5 µm in zone B (cladding): allowed is at most 5 defects of 2 to 5"
                + " µm in zone B (cladding); IEC 61300-3-35, 2015, Table 1 (one source). They are"
                + " defect 1 of 3.0 µm");
  }

  @ParameterizedTest
  @CsvSource({
    "12.5, A",
    "12.500001, B",
    "57.5, B",
    "57.500001, C",
    "67.5, C",
    "67.500001, D",
    "125, D"
  })
  void aFlawThatTouchesABoundaryCountsWhollyInTheInnerZone(double nearest, Zone zone) {
    Flaw astride = new Flaw(FlawKind.DEFECT, nearest + 4, 0, 8, 8, 0.1, -0.3, nearest, nearest + 8);
    assertThat(grade(FaceClass.SM_PC, astride).flaws())
        .singleElement()
        .satisfies(flaw -> assertThat(flaw.zone()).contains(zone));
  }

  @Test
  void aFlawAstrideTheCoreZoneIsRejectedAndSaysWhy() {
    Flaw astride = new Flaw(FlawKind.DEFECT, 13.4, 0, 1.9, 1.9, 0.1, -0.3, 12.45, 14.35);
    Grade grade = grade(FaceClass.SM_PC, astride);
    assertThat(grade.outcome()).isEqualTo(FaceOutcome.REJECTED);
    assertThat(grade.reasonTexts().get(0))
        .contains("in zone A (core), which it touches from outside");
    Flaw reaching = new Flaw(FlawKind.DEFECT, 13.4, 0, 6, 6, 0.1, -0.3, 9.4, 16.4);
    assertThat(grade(FaceClass.SM_PC, reaching).reasonTexts().get(0))
        .contains("in zone A (core), which it reaches into from outside");
    Flaw beside = new Flaw(FlawKind.DEFECT, 13.6, 0, 1.9, 1.9, 0.02, -0.3, 12.65, 14.55);
    assertThat(grade(FaceClass.SM_PC, beside).outcome()).isEqualTo(FaceOutcome.CONFORMS);
  }

  @Test
  void aScratchThroughTheCoreDoesNotTouchItFromOutside() {
    Flaw through = new Flaw(FlawKind.SCRATCH, 3, 0, 60, 1.2, 0.1, -0.3, 2.5, 33);
    assertThat(grade(FaceClass.SM_PC, through).reasonTexts().get(0))
        .contains("in zone A (core), which it runs into from outside");
  }

  @Test
  void theEditionsPartTheirZonesElsewhere() {
    Flaw flaw = defect(6, 58.5);
    assertThat(Grading.grade(OF_2015, FaceClass.SM_PC, seen(flaw)).outcome())
        .isEqualTo(FaceOutcome.CONFORMS);
    Grade older = Grading.grade(OF_2009, FaceClass.SM_PC, seen(flaw));
    assertThat(older.outcome()).isEqualTo(FaceOutcome.REJECTED);
    assertThat(older.reasonTexts().get(0)).endsWith("(from memory: confirm against the standard)");
  }

  @Test
  void aFlawOutsideTheContactZoneIsNotCounted() {
    Grade grade = grade(FaceClass.SM_PC, defect(60, 126));
    assertThat(grade.outcome()).isEqualTo(FaceOutcome.CONFORMS);
    assertThat(grade.flaws()).noneMatch(GradedFlaw::counted);
    assertThat(grade.reasonTexts()).anyMatch(text -> text.contains("outside the contact zone"));
  }

  @Test
  void aScratchIsSizedByItsWidthHoweverLong() {
    Flaw scratch = new Flaw(FlawKind.SCRATCH, 40, 0, 80, 2.9, 0.01, -0.2, 20, 56);
    assertThat(grade(FaceClass.SM_PC, scratch).outcome()).isEqualTo(FaceOutcome.CONFORMS);
    assertThat(grade(FaceClass.SM_PC, scratch(3.1, 20)).outcome()).isEqualTo(FaceOutcome.REJECTED);
  }

  @Test
  void anOutcomeThatRestsOnMemorySaysSo() {
    assertThat(Grading.grade(OF_2009, FaceClass.MM, seen()).reasonTexts())
        .containsExactly(
            "No limit is exceeded: IEC 61300-3-35, 2009, multimode PC (all limits from memory:"
                + " confirm against the standard)");
    assertThat(grade(FaceClass.SM_APC).reasonTexts().get(0))
        .contains("1 of 12 limits from memory: confirm against the standard");
    assertThat(grade(FaceClass.SM_PC).reasonTexts().get(0)).doesNotContain("memory");
  }

  @ParameterizedTest
  @CsvSource({
    // size, standard uncertainty, outcome, close
    "5.6, 0.25, REJECTED, false",
    "5.5, 0.25, REJECTED, true",
    "5.01, 0.25, REJECTED, true",
    "5.0, 0.25, CONFORMS, true",
    "4.5, 0.25, CONFORMS, true",
    "4.4, 0.25, CONFORMS, false",
    "3.5, 0.25, CONFORMS, false",
    "2.5, 0.25, CONFORMS, true",
    "1.4, 0.25, CONFORMS, false"
  })
  void aSizeWithinItsOwnUncertaintyOfALimitIsClose(
      double size, double uncertainty, FaceOutcome outcome, boolean close) {
    Grade grade = grade(FaceClass.SM_PC, Faces.flaw(FlawKind.DEFECT, size, 40, uncertainty));
    assertThat(grade.outcome()).isEqualTo(outcome);
    assertThat(grade.close()).isEqualTo(close);
    assertThat(grade.flaws().get(0).close()).isEqualTo(close);
    assertThat(grade.reasons().stream().filter(r -> r.kind() == Kind.CLOSE)).hasSize(close ? 1 : 0);
  }

  @Test
  void aCloseSizeSaysWhatTheOutcomeWouldBeOnTheOtherSide() {
    assertThat(grade(FaceClass.SM_PC, Faces.flaw(FlawKind.DEFECT, 5.2, 40, 0.25)).reasonTexts())
        .anyMatch(
            text ->
                text.contains("the limit of 5 µm")
                    && text.contains("the outcome would be \"conforms\""));
    assertThat(grade(FaceClass.SM_PC, Faces.flaw(FlawKind.DEFECT, 2.2, 40, 0.25)).reasonTexts())
        .anyMatch(text -> text.contains("the outcome would be the same"));
    Flaw[] five = Collections.nCopies(6, defect(3, 40)).toArray(new Flaw[0]);
    five[5] = Faces.flaw(FlawKind.DEFECT, 1.9, 40, 0.25);
    Grade grade = grade(FaceClass.SM_PC, five);
    assertThat(grade.outcome()).isEqualTo(FaceOutcome.CONFORMS);
    assertThat(grade.reasonTexts())
        .anyMatch(
            text ->
                text.contains("the limit of 2 µm")
                    && text.contains("the outcome would be \"rejected\""));
  }

  @Test
  void aZoneWithoutSizesHasNothingToBeCloseTo() {
    assertThat(grade(FaceClass.SM_PC, Faces.flaw(FlawKind.DEFECT, 0.9, 5, 5)).close()).isFalse();
    assertThat(grade(FaceClass.SM_PC, Faces.flaw(FlawKind.DEFECT, 10, 60, 5)).close()).isFalse();
  }

  @Test
  void aPictureThatCannotShowTheSmallestSizeIsUnreadable() {
    Examined.Seen coarse =
        new Examined.Seen(
            Cladding.circle(160, 120, 50), 1.25, 1.25, 2.1, 250, List.of(defect(40, 5)));
    Grade grade = Grading.grade(OF_2015, FaceClass.SM_PC, coarse);
    assertThat(grade.outcome()).isEqualTo(FaceOutcome.UNREADABLE);
    assertThat(grade.resolutionOk()).isFalse();
    assertThat(grade.reasonTexts())
        .containsExactly(
            "The smallest flaw that this picture could show is 2.1 µm, and 2 µm must be seen: IEC"
                + " 61300-3-35, 2015 (from memory: confirm against the standard)");
    Examined.Seen enough =
        new Examined.Seen(Cladding.circle(160, 120, 50), 1.25, 1.25, 2, 250, List.of());
    assertThat(Grading.grade(OF_2015, FaceClass.SM_PC, enough).outcome())
        .isEqualTo(FaceOutcome.CONFORMS);
  }

  @Test
  void aPictureThatCutsTheCladdingIsUnreadableAndOneThatCutsTheContactZoneSaysSo() {
    Examined.Seen cut = new Examined.Seen(Cladding.circle(9, 9, 125), 0.5, 0.5, 1, 114, List.of());
    Grade unread = Grading.grade(OF_2015, FaceClass.SM_PC, cut);
    assertThat(unread.outcome()).isEqualTo(FaceOutcome.UNREADABLE);
    assertThat(unread.resolutionOk()).isTrue();
    Examined.Seen narrow =
        new Examined.Seen(Cladding.circle(9, 9, 125), 0.5, 0.5, 1, 180, List.of());
    Grade grade = Grading.grade(OF_2015, FaceClass.SM_PC, narrow);
    assertThat(grade.outcome()).isEqualTo(FaceOutcome.CONFORMS);
    assertThat(grade.reasons())
        .filteredOn(r -> r.kind() == Kind.NOTE)
        .singleElement()
        .satisfies(r -> assertThat(r.text()).contains("180.0 µm: zone D (contact)"));
  }

  @Test
  void whatCouldNotBeExaminedIsUnreadableForItsOwnReason() {
    Grade grade =
        Grading.grade(OF_2015, FaceClass.MM, new Examined.Unreadable("No cladding edge was found"));
    assertThat(grade.outcome()).isEqualTo(FaceOutcome.UNREADABLE);
    assertThat(grade.reasonTexts()).containsExactly("No cladding edge was found");
  }

  private static RowGrade row(Examined.Face... fibres) {
    return Grading.grade(OF_2015, FaceClass.SM_APC, new Examined.Row(List.of(fibres)));
  }

  @Test
  void aRowConformsWhenEveryFibreDoes() {
    RowGrade grade = row(seen(), seen(defect(3, 40)), seen());
    assertThat(grade.outcome()).isEqualTo(FaceOutcome.CONFORMS);
    assertThat(grade.fibres()).hasSize(3);
    assertThat(grade.reasonTexts().get(0)).startsWith("All 3 fibres conform: IEC 61300-3-35");
    assertThat(grade.reasons()).filteredOn(r -> r.kind() == Kind.NOTE).hasSize(1);
  }

  @Test
  void oneFailingFibreFailsTheRow() {
    RowGrade grade = row(seen(), seen(defect(3, 4)), seen());
    assertThat(grade.outcome()).isEqualTo(FaceOutcome.REJECTED);
    assertThat(grade.fibres())
        .extracting(Grade::outcome)
        .containsExactly(FaceOutcome.CONFORMS, FaceOutcome.REJECTED, FaceOutcome.CONFORMS);
    assertThat(grade.reasonTexts().get(0)).startsWith("Fibre 2: Defect 1 of 3.0 µm");
  }

  @Test
  void aRowWithAFibreNotFoundIsUnreadable() {
    RowGrade grade =
        row(seen(), seen(defect(3, 4)), new Examined.Unreadable("No cladding edge was found"));
    assertThat(grade.outcome()).isEqualTo(FaceOutcome.UNREADABLE);
    assertThat(grade.reasonTexts().get(0)).isEqualTo("Fibre 3: No cladding edge was found");
  }

  @Test
  void onARowOnlyCoreAndCladdingAreGraded() {
    Flaw inContact = defect(60, 90);
    assertThat(grade(FaceClass.SM_APC, inContact).outcome()).isEqualTo(FaceOutcome.REJECTED);
    RowGrade grade = row(seen(inContact), seen());
    assertThat(grade.outcome()).isEqualTo(FaceOutcome.CONFORMS);
    assertThat(grade.fibres().get(0).flaws()).noneMatch(GradedFlaw::counted);
    assertThat(grade.reasonTexts())
        .anyMatch(t -> t.contains("only zones A, B are graded") && t.contains("one source"));
  }

  @Test
  void memoryIsNeverShownAsAnotherConfidence() {
    for (Row row : rows()) {
      if (row.confidence() == Confidence.MEMORY && row.most().isPresent()) {
        Flaw flaw = Faces.flaw(row.kind(), sizes(row).get(1), within(row));
        Grade grade =
            Grading.grade(
                ShippedCriteria.find(row.edition()).orElseThrow(),
                row.faceClass(),
                seen(Collections.nCopies(row.most().getAsInt() + 1, flaw)));
        assertThat(grade.reasonTexts().get(0))
            .contains("from memory: confirm against the standard")
            .doesNotContain("source)");
      }
    }
  }
}
