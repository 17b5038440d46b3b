package ferrule.core.optics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class GlassTest {

  @ParameterizedTest
  @CsvSource({
    "MULTIMODE, 850, 2.0",
    "MULTIMODE, 1300, 0.4",
    "SINGLE_MODE, 1310, 0.30",
    "SINGLE_MODE, 1550, 0.17"
  })
  void theFloorHoldsItsAnchors(FibreKind kind, int nm, double dbPerKm) {
    assertThat(Glass.floorDbPerKm(kind, new Wavelength(nm))).hasValue(dbPerKm);
  }

  @ParameterizedTest
  @CsvSource({"MULTIMODE, 800, 1350", "SINGLE_MODE, 1260, 1600"})
  void theFloorIsPositiveAndNeverAboveItsHighestAnchor(FibreKind kind, int from, int to) {
    for (int nm = from; nm < to; nm++) {
      double here = Glass.floorDbPerKm(kind, new Wavelength(nm)).orElseThrow();
      assertThat(here).isPositive().isLessThanOrEqualTo(kind == FibreKind.MULTIMODE ? 2.0 : 0.30);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "MULTIMODE, 799",
    "MULTIMODE, 1351",
    "MULTIMODE, 1550",
    "SINGLE_MODE, 1259",
    "SINGLE_MODE, 850",
    "SINGLE_MODE, 1601"
  })
  void thereIsNoFloorOutsideTheRange(FibreKind kind, int nm) {
    assertThat(Glass.floorDbPerKm(kind, new Wavelength(nm))).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(ints = {1260, 1310, 1383, 1490, 1550, 1600})
  void theFloorLiesBelowOrdinarySingleModeGlass(int nm) {
    Wavelength wavelength = new Wavelength(nm);
    assertThat(Glass.floorDbPerKm(FibreKind.SINGLE_MODE, wavelength).orElseThrow())
        .isLessThan(GlassModel.dbPerKm(FibreKind.SINGLE_MODE, wavelength));
  }

  @Test
  void theModelFallsAtItsKnownSlopeAt1310() {
    // Computed: numerical derivative of the assumed attenuation model.
    assertThat(GlassModel.slopePerNm(FibreKind.SINGLE_MODE, new Wavelength(1310)))
        .isCloseTo(-0.000952, within(1e-6));
  }

  @ParameterizedTest
  @CsvSource({
    "SINGLE_MODE, 1310",
    "SINGLE_MODE, 1550",
    "SINGLE_MODE, 1625",
    "MULTIMODE, 850",
    "MULTIMODE, 1300"
  })
  void slopeAndCurvatureAreThoseOfTheModel(FibreKind kind, int nm) {
    double below = GlassModel.dbPerKm(kind, new Wavelength(nm - 1));
    double at = GlassModel.dbPerKm(kind, new Wavelength(nm));
    double above = GlassModel.dbPerKm(kind, new Wavelength(nm + 1));
    assertThat(GlassModel.slopePerNm(kind, new Wavelength(nm)))
        .isCloseTo((above - below) / 2, within(3e-7));
    assertThat(GlassModel.curvaturePerNm2(kind, new Wavelength(nm)))
        .isCloseTo(above - 2 * at + below, within(2e-8));
  }

  @Test
  void anOffsetConnectionLosesMoreAtTheShorterWavelength() {
    // Computed: (w1550/w1310)^2 = (5.2/4.6)^2 from the offset formula.
    double factor = SingleModeCoupling.offsetFactorFrom1310(new Wavelength(1550));
    assertThat(1 / factor).isCloseTo(1.278, within(0.0005));
    assertThat(SingleModeCoupling.offsetFactorFrom1310(new Wavelength(1310))).isEqualTo(1);
    double at1310 = SingleModeCoupling.offset(1, SingleModeCoupling.MFD_1310_UM).value();
    double at1550 = SingleModeCoupling.offset(1, SingleModeCoupling.MFD_1550_UM).value();
    assertThat(at1310 / at1550).isCloseTo(1 / factor, within(1e-12));
    assertThat(SingleModeCoupling.offset(0, 9.2).value()).isZero();
  }

  @ParameterizedTest
  @ValueSource(ints = {599, 1701, 0, -1310})
  void wavelengthsOutsideTheRangeAreRefused(int nm) {
    assertThatThrownBy(() -> new Wavelength(nm)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void cordsFitLinksOfTheSameCoreOnly() {
    assertThat(FibreCategory.OM3.sameCoreAs(FibreCategory.OM5)).isTrue();
    assertThat(FibreCategory.OM1.sameCoreAs(FibreCategory.OM2)).isFalse();
    assertThat(FibreCategory.OS1A.sameCoreAs(FibreCategory.OS2)).isTrue();
    assertThat(FibreCategory.OS2.sameCoreAs(FibreCategory.OM4)).isFalse();
    assertThat(FibreCategory.ofLabel("os1A")).contains(FibreCategory.OS1A);
    assertThat(FibreCategory.ofLabel("OS3")).isEmpty();
  }
}
