package ferrule.core.trust.paper;

import ferrule.core.face.FlawKind;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Causes;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * What may lie behind rejected faces, and what cleaning can do about it: a defect may be dirt, a
 * scratch is in the glass and stays.
 */
final class RejectedFaces {

  /** What it means if the same flaws are seen again after cleaning. */
  static final String IF_NOT =
      "The same flaws stay: they are damage, and the connector is to be replaced";

  private RejectedFaces() {}

  /**
   * Why one face was rejected.
   *
   * @param cleaned whether its picture was taken after cleaning
   * @param kinds of the flaws that are over a limit; empty if its grade does not say
   */
  record Reason(boolean cleaned, Set<FlawKind> kinds) {

    /**
     * Of a grade as a job keeps it.
     *
     * @param stage when its picture was taken: "found", "cleaned", or empty
     * @param reasons as the grade gives them
     */
    static Reason of(String stage, List<String> reasons) {
      Set<FlawKind> kinds = EnumSet.noneOf(FlawKind.class);
      for (String reason : reasons) {
        // "Scratch 2, 1.2 µm wide ... : allowed is ...", "6 defects of 2 to 5 µm ...".
        int allowed = reason.indexOf(": allowed is ");
        for (FlawKind kind : FlawKind.values()) {
          if (allowed > 0
              && reason
                  .substring(0, allowed)
                  .toLowerCase(Locale.ROOT)
                  .matches("([0-9]+ )?" + kind.word() + ".*")) {
            kinds.add(kind);
          }
        }
      }
      return new Reason(stage.equals("cleaned"), kinds);
    }

    boolean scratched() {
      return kinds.contains(FlawKind.SCRATCH);
    }

    /** Whether something else than scratches is over a limit, or may be. */
    boolean mayBeDirty() {
      return kinds.isEmpty() || kinds.contains(FlawKind.DEFECT);
    }
  }

  /** Causes, likeliest first. */
  static List<Cause> causes(List<Reason> faces) {
    boolean scratched = faces.stream().anyMatch(Reason::scratched);
    boolean defects = faces.stream().anyMatch(Reason::mayBeDirty);
    boolean cleaned = faces.stream().allMatch(Reason::cleaned);
    List<String> causes = new ArrayList<>();
    if (scratched) {
      causes.add("a scratch in the glass, which cleaning does not take away");
    }
    if (defects && cleaned) {
      causes.add("a pit or chip, or dirt burnt in, that stayed after cleaning");
      causes.add("dirt that the cleaning left or brought");
    } else if (defects) {
      causes.add(
          scratched
              ? "dirt besides, which cleaning takes away; the scratch rejects the face all the same"
              : "dirt that cleaning takes away");
      causes.add(
          scratched ? "a pit or chip that stays" : "a pit or chip that stays after cleaning");
    } else {
      causes.add("a thread or smear that looks like a scratch, which cleaning takes away");
    }
    return Causes.ranked(causes.toArray(String[]::new));
  }

  /** What it means if the face conforms once clean. */
  static String ifClean(List<Reason> faces) {
    return faces.stream().anyMatch(Reason::scratched)
        ? "The face conforms once clean: what looked like a scratch was dirt"
        : "The face conforms once clean: it was dirt";
  }
}
