package ferrule.core.badhouse.plant;

import ferrule.core.badhouse.rulebook.CordGrade;
import ferrule.core.badhouse.rulebook.Rulebook;
import ferrule.core.badhouse.trust.Doubting;

/** Wrong on purpose: plant may know the grade of a cord, not a rulebook. */
public final class TakesARulebook {
  private TakesARulebook() {}

  /** Names both, and what stands after plant. */
  public static String both(CordGrade grade, Rulebook rulebook) {
    return grade.toString() + rulebook + new Doubting();
  }
}
