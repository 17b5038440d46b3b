package ferrule.core.trust.joint;

import ferrule.core.trust.Separation;
import ferrule.core.trust.joint.Outlook.Bearing;
import java.util.Optional;

/** What would tell effects apart. */
final class Separations {

  private final JointFit fit;
  private final Outlook outlook;
  private final Candidates candidates;

  Separations(JointFit fit) {
    this.fit = fit;
    this.outlook = new Outlook(fit);
    this.candidates = new Candidates(fit);
  }

  /**
   * The readings that would tell an effect of the estimate from another.
   *
   * @return empty if the data would have nothing of the other
   */
  Optional<Separation> of(Effect taken, Effect rival) {
    Bearing first = outlook.taken(taken);
    return outlook
        .instead(rival, first)
        .map(
            second ->
                new Design(outlook, first, second)
                    .among(
                        candidates.of(taken, rival),
                        Naming.of(fit.frame, taken),
                        Naming.of(fit.frame, rival)));
  }

  /** The readings that would tell two effects apart of which neither is in the estimate. */
  Separation ofSize(Effect one, Effect two, double sizeDb) {
    return new Design(outlook, outlook.beside(one, sizeDb), outlook.beside(two, sizeDb))
        .among(candidates.of(one, two), Naming.of(fit.frame, one), Naming.of(fit.frame, two));
  }
}
