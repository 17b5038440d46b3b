package ferrule.core.allowance;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.SingleModeCoupling;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Confidence;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.Provenance;
import java.util.Optional;

/**
 * What good work usually loses: the basis of the expected loss, never of a limit.
 *
 * <p>Spreads are standard deviations of one part in ordinary good product. A connection on
 * single-mode fibre is taken to lose by lateral offset, so its loss scales from 1310 nm with the
 * square of the mode field ({@link SingleModeCoupling#offsetFactorFrom1310}).
 */
public final class Expectations {

  private static final Provenance SINGLE_MODE_FIBRE =
      new Provenance(
          "Typical cabled single-mode fibre, 0.32 to 0.36 dB/km at 1310 nm and 0.18 to 0.22 at 1550",
          "",
          "",
          Confidence.ONE_SOURCE,
          "common practice; state highway special provisions (2009) ask at most 0.35 and 0.22");
  private static final Provenance SINGLE_MODE_FIBRE_OTHER =
      new Provenance(
          "Typical single-mode fibre between the two main windows",
          "",
          "",
          Confidence.MEMORY,
          "memory");
  private static final Provenance MULTIMODE_FIBRE =
      new Provenance(
          "Typical OM3 and OM4 fibre, 2.2 to 2.5 dB/km at 850 nm and 0.5 to 0.6 at 1300",
          "",
          "",
          Confidence.ONE_SOURCE,
          "public OM4 fibre data sheet");
  private static final Provenance MULTIMODE_FIBRE_OLD =
      new Provenance(
          "Typical OM1 and OM2 fibre, below the data sheet maxima of 3.5 and 2.8 dB/km at 850 nm",
          "",
          "",
          Confidence.MEMORY,
          "memory");
  private static final Provenance END_REFERENCE =
      new Provenance(
          "Good connection against a reference-grade cord: 0.05 to 0.25 dB single-mode, 0.05 to 0.20"
              + " multimode",
          "",
          "",
          Confidence.MEMORY,
          "common practice, no source; the spread holds the re-mating of test cords");
  private static final Provenance END_STANDARD =
      new Provenance(
          "Good connection against an ordinary cord",
          "",
          "",
          Confidence.MEMORY,
          "common practice, no source");
  private static final Provenance INNER =
      new Provenance(
          "Good connection of two ordinary plugs; planners use 0.3 dB",
          "",
          "",
          Confidence.MEMORY,
          "common practice, no source");
  private static final Provenance SPLICE =
      new Provenance(
          "Fusion splice, 0.02 to 0.08 dB as the mean of both directions",
          "",
          "",
          Confidence.MEMORY,
          "common practice, no source");

  private Expectations() {}

  /**
   * Typical attenuation of a category at a wavelength, dB/km with its spread; empty where no
   * typical figure is held.
   */
  public static Optional<Part> fibre(FibreCategory category, Wavelength wavelength) {
    String what = "typical fibre " + category.label() + " at " + wavelength;
    int nm = wavelength.nm();
    if (category.kind() == FibreKind.SINGLE_MODE) {
      return switch (nm) {
        case 1310 -> Optional.of(new Part(what, "km", 0.34, 0.015, SINGLE_MODE_FIBRE));
        case 1550 -> Optional.of(new Part(what, "km", 0.20, 0.015, SINGLE_MODE_FIBRE));
        case 1383 -> Optional.of(new Part(what, "km", 0.31, 0.03, SINGLE_MODE_FIBRE_OTHER));
        case 1490 -> Optional.of(new Part(what, "km", 0.24, 0.02, SINGLE_MODE_FIBRE_OTHER));
        case 1625 -> Optional.of(new Part(what, "km", 0.23, 0.02, SINGLE_MODE_FIBRE_OTHER));
        default -> Optional.empty();
      };
    }
    boolean old = category == FibreCategory.OM1 || category == FibreCategory.OM2;
    return switch (nm) {
      case 850 ->
          Optional.of(
              old
                  ? new Part(
                      what,
                      "km",
                      category == FibreCategory.OM1 ? 2.9 : 2.5,
                      0.15,
                      MULTIMODE_FIBRE_OLD)
                  : new Part(what, "km", 2.35, 0.10, MULTIMODE_FIBRE));
      case 1300 ->
          Optional.of(
              old
                  ? new Part(what, "km", 0.7, 0.10, MULTIMODE_FIBRE_OLD)
                  : new Part(what, "km", 0.55, 0.05, MULTIMODE_FIBRE));
      case 953 -> Optional.of(new Part(what, "km", 1.7, 0.20, MULTIMODE_FIBRE_OLD));
      default -> Optional.empty();
    };
  }

  /** An end connection against a test cord of a grade, read with it. */
  public static Part end(FibreKind kind, CordGrade cord, Wavelength wavelength) {
    String what = "typical end connection, " + cord.word() + "-grade cord";
    double scale = scale(kind, wavelength);
    return cord == CordGrade.REFERENCE
        ? new Part(what, "connection", 0.12 * scale, 0.078 * scale, END_REFERENCE)
        : new Part(what, "connection", 0.17 * scale, 0.11 * scale, END_STANDARD);
  }

  /**
   * An end connection that the zero took out: on average nothing is left of it, but its spread is
   * still in the reading.
   */
  public static Part endTakenOut(FibreKind kind, Wavelength wavelength) {
    return new Part(
        "end connection taken out by the zero; its spread stays",
        "connection",
        0,
        0.078 * scale(kind, wavelength),
        END_REFERENCE);
  }

  /** A connection inside the link. */
  public static Part inner(FibreKind kind, Wavelength wavelength) {
    double scale = scale(kind, wavelength);
    return new Part(
        "typical connection inside the link", "connection", 0.20 * scale, 0.12 * scale, INNER);
  }

  /** A splice. */
  public static Part splice() {
    return new Part("typical splice", "splice", 0.05, 0.03, SPLICE);
  }

  private static double scale(FibreKind kind, Wavelength wavelength) {
    return kind == FibreKind.SINGLE_MODE ? SingleModeCoupling.offsetFactorFrom1310(wavelength) : 1;
  }
}
