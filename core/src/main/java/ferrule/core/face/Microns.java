package ferrule.core.face;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Micrometres as text. */
final class Microns {

  private Microns() {}

  /** A size for a reader: one decimal, halves away from zero. */
  static String shown(double um) {
    return BigDecimal.valueOf(um).setScale(1, RoundingMode.HALF_UP).toPlainString();
  }

  /** A limit as its rulebook writes it: "2", "2.5". */
  static String plain(double um) {
    return Double.isInfinite(um)
        ? "∞"
        : BigDecimal.valueOf(um).stripTrailingZeros().toPlainString();
  }
}
