package ferrule.core.trust.joint;

import ferrule.core.trust.Separation;
import ferrule.core.trust.joint.JointEstimate.Finding;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Troubles that may hide behind connections inside the links, or splices: where few cables differ
 * in how many they have, connections that cost more than usual explain what a zero or a panel would
 * explain as well, and an estimate that may choose finds nothing.
 *
 * <p>So where connections inside or splices are estimated to cost more or less than usual, the
 * search is done again with them held near what is usual. What then rings is told, with what it
 * cannot be told from, if the data leave it open: taken into the estimate it keeps its size within
 * two standard deviations, and these are much larger than with the connections held.
 */
final class Hidden {

  /** Connections this much from usual, in parts of what is honest, may hide something. */
  private static final double WORTH_A_LOOK = 0.6;

  /** The estimate leaves an effect open if its standard deviation grows by this. */
  private static final double LEFT_OPEN = 1.3;

  private static final double AGREE_SDS = 2;
  private static final int MOST = 4;

  private final JointFit fit;
  private final Frame frame;

  private Hidden(JointFit fit) {
    this.fit = fit;
    this.frame = fit.frame;
  }

  /** What may hide in an estimate, each finding with the connections it hides behind. */
  static List<Finding> in(JointFit fit) {
    return new Hidden(fit).find();
  }

  private List<Finding> find() {
    List<Suspect> behind = behind();
    if (behind.isEmpty()) {
      return List.of();
    }
    JointFit held = fit.withUsualInside();
    List<Finding> found = new ArrayList<>();
    Set<Object> subjects = new HashSet<>();
    for (Suspect suspect : new Search(held).suspects()) {
      if (!suspect.rings() || found.size() >= MOST) {
        break;
      }
      List<Suspect> rivals = behind.stream().filter(r -> meet(suspect, r)).toList();
      if (!rivals.isEmpty() && subjects.add(subject(suspect.effect())) && isOpen(suspect)) {
        found.add(finding(suspect, rivals));
      }
    }
    return List.copyOf(found);
  }

  private Finding finding(Suspect suspect, List<Suspect> rivals) {
    Effect rival = rivals.get(0).effect();
    Separation separation = new Separations(fit).ofSize(suspect.effect(), rival, suspect.sizeDb());
    return new Finding(suspect, rivals, Map.of(rival, separation));
  }

  private static Object subject(Effect effect) {
    int zero = JointEstimate.zeroOf(effect);
    return zero < 0 ? effect : (Object) zero;
  }

  /** Connections inside and splices that lie off what is usual, as an effect with their size. */
  private List<Suspect> behind() {
    List<Suspect> behind = new ArrayList<>();
    for (Family family : frame.families) {
      for (boolean splices : new boolean[] {false, true}) {
        double db = fit.insideDb(family.index(), splices);
        double sd = JointFit.insideSdDb(splices);
        if (Math.abs(db) > WORTH_A_LOOK * sd) {
          Effect effect = new Effect.CostlyInside(family.index(), splices);
          behind.add(
              new Suspect(effect, db, sd, 0, JointEstimate.touched(frame, effect).cardinality()));
        }
      }
    }
    return behind;
  }

  /** Whether an effect touches fibres of a family that has such connections. */
  private boolean meet(Suspect suspect, Suspect behind) {
    BitSet both = JointEstimate.touched(frame, suspect.effect());
    both.and(JointEstimate.touched(frame, behind.effect()));
    return !both.isEmpty();
  }

  /** Whether the estimate, connections free, leaves room for an effect of this size. */
  private boolean isOpen(Suspect suspect) {
    List<Effect> effects = new ArrayList<>(fit.effects);
    effects.add(suspect.effect());
    JointFit with = fit.with(effects);
    int at = with.effectAt(effects.size() - 1);
    double sd = Math.sqrt(with.varianceOfPart(at));
    return sd > LEFT_OPEN * suspect.sdDb()
        && Math.abs(with.parts[at] - suspect.sizeDb()) < AGREE_SDS * sd;
  }
}
