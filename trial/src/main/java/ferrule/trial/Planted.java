package ferrule.trial;

import ferrule.core.plant.FibreId;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Subject;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.DoubleSupplier;

/**
 * What was planted, and what a judge must say to have found it.
 *
 * @param right any of these counts as found
 * @param reaches any of these sets of fibres counts as the right reach
 * @param variant which sort of this trouble, for a table's row
 * @param confounded whether this plan cannot tell it from another trouble by level alone
 * @param detail for a reader of a missed job
 * @param plainScore of the plain test of such a trouble, told where to look; empty if there is none
 */
record Planted(
    List<Named> right,
    List<Set<FibreId>> reaches,
    String variant,
    boolean confounded,
    String detail,
    Optional<DoubleSupplier> plainScore) {

  /** A kind of doubt and its subject. */
  record Named(DoubtKind kind, Subject subject) {}

  Planted {
    right = List.copyOf(right);
    reaches = List.copyOf(reaches);
  }

  Planted(
      List<Named> right,
      List<Set<FibreId>> reaches,
      String variant,
      boolean confounded,
      String detail) {
    this(right, reaches, variant, confounded, detail, Optional.empty());
  }

  static Planted of(DoubtKind kind, Subject subject, Set<FibreId> reach, String variant) {
    return new Planted(List.of(new Named(kind, subject)), List.of(reach), variant, false, "");
  }

  /** The same, where the plan cannot tell it from another trouble. */
  Planted asConfounded() {
    return new Planted(right, reaches, variant, true, detail, plainScore);
  }

  /** The same, with the plain test that is held against the judge. */
  Planted scored(DoubleSupplier score) {
    return new Planted(right, reaches, variant, confounded, detail, Optional.of(score));
  }
}
