package ferrule.core.allowance;

import ferrule.core.rulebook.CordGrade;

/**
 * The plugs of the test cords that stood at the two ends of a link.
 *
 * @param entry grade of the launch cord's plug, where the light enters
 * @param exit grade of the receive cord's plug, where it leaves
 * @param known whether both grades are on record, or reference grade was assumed
 */
public record TestPlugs(CordGrade entry, CordGrade exit, boolean known) {

  /** Reference-grade plugs at both ends, on record. */
  public static final TestPlugs REFERENCE =
      new TestPlugs(CordGrade.REFERENCE, CordGrade.REFERENCE, true);

  /** The poorer of the two grades. */
  public CordGrade poorer() {
    return entry == CordGrade.STANDARD ? entry : exit;
  }

  /** The better of the two grades. */
  public CordGrade better() {
    return entry == CordGrade.REFERENCE ? entry : exit;
  }
}
