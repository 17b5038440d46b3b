package ferrule.app.demo;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Connector.Polish;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Instrument;
import ferrule.core.rulebook.CordGrade;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SortedSet;
import java.util.TreeSet;

/** Instruments and test cords of the invented crews. */
final class Kit {

  static final Wavelength NM_850 = new Wavelength(850);
  static final Wavelength NM_1300 = new Wavelength(1300);
  static final Wavelength NM_1310 = new Wavelength(1310);
  static final Wavelength NM_1550 = new Wavelength(1550);

  /** Used the day after this. */
  static final String OVERDUE_METER = "PC2";

  /**
   * What stands at one end: a source and a meter, which may be one instrument.
   *
   * @param source its id
   * @param meter its id
   * @param levelDbm what the source gives at its shorter wavelength through a good cord, dBm
   */
  record Set(String source, String meter, double levelDbm) {}

  /**
   * Two cords that travel together.
   *
   * @param near id of the one at end A
   * @param far id of the one at end B
   * @param category their fibre
   */
  record Pair(String near, String far, FibreCategory category) {}

  static final Set ADA_NEAR = new Set("TA1", "TA1", -6.55);
  static final Set ADA_FAR = new Set("TA2", "TA2", -5.80);
  static final Set BRUNO_NEAR = new Set("TB1", "TB1", -5.20);
  static final Set BRUNO_FAR = new Set("TB2", "TB2", -6.05);
  static final Set CHIDI_NEAR = new Set("LC1", "PC1", -20.40);
  static final Set CHIDI_FAR = new Set("LC2", OVERDUE_METER, -20.95);
  static final Set CHIDI_FAR_LATER = new Set("LC2", "PC3", -20.95);

  static final Pair S1 = new Pair("CS-11", "CS-12", FibreCategory.OS2);
  static final Pair S2 = new Pair("CS-21", "CS-22", FibreCategory.OS2);
  static final Pair S3 = new Pair("CS-31", "CS-32", FibreCategory.OS2);
  static final Pair ANGLED = new Pair("CA-11", "CA-12", FibreCategory.OS2);
  static final Pair M1 = new Pair("CM-11", "CM-12", FibreCategory.OM4);
  static final Pair M2 = new Pair("CM-21", "CM-22", FibreCategory.OM4);
  static final Pair M3 = new Pair("CM-31", "CM-32", FibreCategory.OM4);

  private Kit() {}

  static List<Instrument> instruments() {
    return List.of(
        tester("TA1", "2026-04-20"),
        tester("TA2", "2026-04-20"),
        tester("TB1", "2026-02-09"),
        tester("TB2", "2026-02-10"),
        multimode("LC1", Instrument.Kind.SOURCE, "2026-06-02"),
        multimode("LC2", Instrument.Kind.SOURCE, "2026-06-02"),
        multimode("PC1", Instrument.Kind.METER, "2026-06-03"),
        multimode(OVERDUE_METER, Instrument.Kind.METER, "2025-10-14"),
        multimode("PC3", Instrument.Kind.METER, "2026-09-28"));
  }

  private static Instrument tester(String id, String calibrated) {
    return instrument(
        id, Instrument.Kind.SOURCE_AND_METER, new TreeSet<>(List.of(NM_1310, NM_1550)), calibrated);
  }

  private static Instrument multimode(String id, Instrument.Kind kind, String calibrated) {
    return instrument(id, kind, new TreeSet<>(List.of(NM_850, NM_1300)), calibrated);
  }

  private static Instrument instrument(
      String id, Instrument.Kind kind, SortedSet<Wavelength> wavelengths, String calibrated) {
    LocalDate on = LocalDate.parse(calibrated);
    return new Instrument(
        id, kind, wavelengths, Optional.of(on), Optional.of(on.plusYears(1).minusDays(1)));
  }

  static List<Cord> cords() {
    Connector lcUpc = new Connector("LC", Polish.UPC);
    Connector lcPc = new Connector("LC", Polish.PC);
    return List.of(
        cord("CS-11", FibreCategory.OS2, lcUpc, 212, "2026-03-02"),
        cord("CS-12", FibreCategory.OS2, lcUpc, 208, "2026-03-02"),
        cord("CS-21", FibreCategory.OS2, lcUpc, 96, "2026-07-13"),
        cord("CS-22", FibreCategory.OS2, lcUpc, 96, "2026-07-13"),
        cord("CS-31", FibreCategory.OS2, lcUpc, 41, "2026-08-24"),
        cord("CS-32", FibreCategory.OS2, lcUpc, 43, "2026-08-24"),
        cord("CA-11", FibreCategory.OS2, new Connector("SC", Polish.APC), 58, "2026-05-18"),
        cord("CA-12", FibreCategory.OS2, new Connector("SC", Polish.APC), 57, "2026-05-18"),
        cord("CM-11", FibreCategory.OM4, lcPc, 164, "2026-04-07"),
        cord("CM-12", FibreCategory.OM4, lcPc, 160, "2026-04-07"),
        cord("CM-21", FibreCategory.OM4, lcPc, 120, "2026-05-04"),
        cord("CM-22", FibreCategory.OM4, lcPc, 121, "2026-05-04"),
        cord("CM-31", FibreCategory.OM4, lcPc, 35, "2026-09-01"),
        cord("CM-32", FibreCategory.OM4, lcPc, 35, "2026-09-01"));
  }

  /** A cord with an ordinary SC plug for the instrument and a reference plug for the link. */
  private static Cord cord(
      String id, FibreCategory category, Connector linkEnd, int matings, String since) {
    return new Cord(
        id,
        category,
        Optional.of(2.0),
        new Cord.CordEnd(
            Optional.of(new Connector("SC", Polish.PC)), Optional.of(CordGrade.STANDARD)),
        new Cord.CordEnd(Optional.of(linkEnd), Optional.of(CordGrade.REFERENCE)),
        OptionalInt.of(matings),
        Optional.of(LocalDate.parse(since)));
  }
}
