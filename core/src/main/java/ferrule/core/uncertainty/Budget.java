package ferrule.core.uncertainty;

import ferrule.core.allowance.TestPlugs;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.GlassModel;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.uncertainty.Contribution.Scale;
import ferrule.core.zero.Method;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The uncertainty budget of one loss reading: every contribution visible, each open to replacement.
 *
 * <p>The structure follows the contents pages of IEC TR 61282-14; its numeric values could not be
 * read, so <b>the default sizes are assumed</b> and are to be replaced by certificates or the
 * crew's own data. Plug geometry: reading an end of mean plug loss {@code mA} with a cord plug of
 * mean {@code mL} adds {@code u = sqrt(2 mA mL + mL^2)} (own derivation from lateral offset,
 * confirmed by simulation of the same model only). Reference connections of a two- or three-cord
 * zero enter as independent, which is the conservative way.
 */
public final class Budget {

  /** Coverage factor of every uncertainty that is shown. */
  public static final double COVERAGE_FACTOR = 2;

  private static final String ASSUMED = "assumed; replace by a certificate or own data";
  private static final double INFINITE = Double.POSITIVE_INFINITY;

  /** Mean loss of a plug against a perfect one, dB: grade B plug (97 % of pairs within 0.25 dB). */
  static final double ORDINARY_PLUG_DB = plugMean(0.25);

  /** The same for a reference plug (97 % of pairs within 0.1 dB). */
  static final double REFERENCE_PLUG_DB = plugMean(0.10);

  /** Names of all contributions, as a job may override them. */
  public static final Set<String> IDS =
      Set.of(
          "source-drift",
          "meter-linearity",
          "display-step",
          "polarisation",
          "meter-connection",
          "cord-handling",
          "source-wavelength",
          "plug-geometry",
          "re-mating",
          "reference-connection",
          "launch-condition");

  private final List<Contribution> contributions;
  private final double fixedVariance;
  private final double perKmVariance;
  private final double ofLossVariance;

  private Budget(List<Contribution> contributions) {
    this.contributions = List.copyOf(contributions);
    double fixed = 0;
    double perKm = 0;
    double ofLoss = 0;
    for (Contribution c : contributions) {
      double product = c.product(1, 1);
      switch (c.scale()) {
        case FIXED -> fixed += product * product;
        case PER_KM -> perKm += product * product;
        case OF_LOSS -> ofLoss += product * product;
      }
    }
    this.fixedVariance = fixed;
    this.perKmVariance = perKm;
    this.ofLossVariance = ofLoss;
  }

  /**
   * The budget of readings of a kind of fibre under a kind of zero.
   *
   * @param kind multimode or single-mode
   * @param wavelength of the reading
   * @param method of the zero
   * @param plugs test plugs at the link's ends
   * @param overrides sizes that replace the defaults, by contribution id; see {@link #IDS}
   */
  public static Budget of(
      FibreKind kind,
      Wavelength wavelength,
      Method method,
      TestPlugs plugs,
      Map<String, Double> overrides) {
    boolean singleMode = kind == FibreKind.SINGLE_MODE;
    double twice = Math.sqrt(2);
    List<Contribution> list = new ArrayList<>();
    list.add(
        fixed("source-drift", "source drift between zero and reading", Law.RECTANGULAR, 0.05, 1));
    list.add(
        fixed("meter-linearity", "meter non-linearity over the range", Law.RECTANGULAR, 0.03, 1));
    list.add(
        new Contribution(
            "display-step",
            "display step of 0.01 dB, two readings",
            Law.RECTANGULAR,
            0.005,
            twice,
            Scale.FIXED,
            INFINITE,
            "half a display step; JCGM 100:2008, F.2.2.1"));
    if (singleMode) {
      list.add(
          fixed("polarisation", "polarisation-dependent meter response", Law.ARCSINE, 0.02, twice));
    }
    list.add(
        new Contribution(
            "meter-connection",
            "connection to the meter, two insertions",
            Law.NORMAL,
            0.010,
            twice,
            Scale.FIXED,
            9,
            ASSUMED));
    list.add(fixed("cord-handling", "handling and bending of the cords", Law.RECTANGULAR, 0.02, 1));
    list.add(wavelengthTerm(kind, wavelength));
    double entry = plugGeometry(plugs.entry());
    double exit = plugGeometry(plugs.exit());
    list.add(
        new Contribution(
            "plug-geometry",
            "geometry of the test plugs at the two link ends",
            Law.NORMAL,
            Math.sqrt((entry * entry + exit * exit) / 2),
            twice,
            Scale.FIXED,
            INFINITE,
            "lateral-offset model, grade B link plugs; assumed"));
    list.add(
        new Contribution(
            "re-mating",
            "repeatability of mating, two ends",
            Law.NORMAL,
            0.02,
            twice,
            Scale.FIXED,
            4,
            ASSUMED));
    if (method.cordPairs() > 0) {
      double pair = 2 * plugMeanOf(plugs.poorer());
      list.add(
          new Contribution(
              "reference-connection",
              "cord-to-cord connections inside the zero",
              Law.NORMAL,
              Math.sqrt(pair * pair + 0.02 * 0.02),
              Math.sqrt(method.cordPairs()),
              Scale.FIXED,
              INFINITE,
              "lateral-offset model and re-mating; assumed"));
    }
    if (!singleMode) {
      list.add(
          new Contribution(
              "launch-condition",
              "launch condition, share of the loss",
              Law.RECTANGULAR,
              0.10,
              1,
              Scale.OF_LOSS,
              INFINITE,
              "10 % of the loss with controlled launch; IEC 61280-4-1 as quoted by one public source"));
    }
    return new Budget(
        list.stream()
            .map(
                c -> {
                  Double size = overrides.get(c.id());
                  return size == null ? c : c.withSize(size, "set for this job");
                })
            .toList());
  }

  private static Contribution fixed(
      String id, String what, Law law, double size, double sensitivity) {
    return new Contribution(id, what, law, size, sensitivity, Scale.FIXED, INFINITE, ASSUMED);
  }

  /**
   * Centre wavelength up to 20 nm off: {@code sqrt[(a' D/sqrt3)^2 + 2 (a'' D^2/6)^2]} per km, the
   * second term for the curvature where the slope vanishes.
   */
  private static Contribution wavelengthTerm(FibreKind kind, Wavelength wavelength) {
    double off = 20;
    double first = GlassModel.slopePerNm(kind, wavelength) * off / Math.sqrt(3);
    double second = GlassModel.curvaturePerNm2(kind, wavelength) / 2 * off * off / 3;
    return new Contribution(
        "source-wavelength",
        "centre wavelength up to 20 nm off",
        Law.NORMAL,
        Math.sqrt(first * first + 2 * second * second),
        1,
        Scale.PER_KM,
        INFINITE,
        "slope and curvature of the glass model; offset assumed");
  }

  /**
   * Mean of a plug's loss against a perfect plug: half the mean of a like pair, {@code A97/3.5066}.
   */
  private static double plugMean(double pair97Db) {
    return pair97Db / -Math.log(0.03) / 2;
  }

  private static double plugMeanOf(CordGrade grade) {
    return grade == CordGrade.REFERENCE ? REFERENCE_PLUG_DB : ORDINARY_PLUG_DB;
  }

  private static double plugGeometry(CordGrade grade) {
    double cord = plugMeanOf(grade);
    return Math.sqrt(2 * ORDINARY_PLUG_DB * cord + cord * cord);
  }

  /** Every contribution, in the order shown. */
  public List<Contribution> contributions() {
    return contributions;
  }

  /**
   * Combined standard uncertainty of a reading, dB.
   *
   * @param km length of the link
   * @param lossDb the reading
   */
  public double standard(double km, double lossDb) {
    return Math.sqrt(fixedVariance + perKmVariance * km * km + ofLossVariance * lossDb * lossDb);
  }

  /** Expanded uncertainty, {@code k = 2}, dB. */
  public double expanded(double km, double lossDb) {
    return COVERAGE_FACTOR * standard(km, lossDb);
  }

  /** The same with effective degrees of freedom. */
  public Combined combined(double km, double lossDb) {
    double[] products = contributions.stream().mapToDouble(c -> c.product(km, lossDb)).toArray();
    double[] degrees = contributions.stream().mapToDouble(Contribution::degrees).toArray();
    return Combined.independent(products, degrees);
  }
}
