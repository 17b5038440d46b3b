package ferrule.core.trust;

import ferrule.core.plant.FibreId;
import ferrule.core.trust.cause.LossCauses;
import ferrule.core.trust.joint.JointEstimate;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What can be said of a job: the standing of every fibre, the trust of every zero, every doubt, and
 * what to do next.
 *
 * @param ledger the readings, resolved and decided
 * @param fibres in the order of the schedule
 * @param zeros in the order on record
 * @param doubts all of them, in a fixed order
 * @param actions ranked, in the order in which to do them
 * @param estimate the joint estimate of zeros and of what many readings share
 * @param causes why fibres lose more than was expected
 * @param alarm how often the doubts would be false if nothing were wrong
 */
public record Judgement(
    Ledger ledger,
    List<FibreJudgement> fibres,
    List<ZeroTrust> zeros,
    List<Doubt> doubts,
    List<Action> actions,
    JointEstimate estimate,
    LossCauses causes,
    Alarm alarm) {

  /** Copies the lists. */
  public Judgement {
    fibres = List.copyOf(fibres);
    zeros = List.copyOf(zeros);
    doubts = List.copyOf(doubts);
    actions = List.copyOf(actions);
  }

  /** How many fibres stand where. */
  public Map<Standing, Integer> totals() {
    Map<Standing, Integer> totals = new EnumMap<>(Standing.class);
    for (Standing standing : Standing.values()) {
      totals.put(standing, 0);
    }
    for (FibreJudgement fibre : fibres) {
      totals.merge(fibre.standing(), 1, Integer::sum);
    }
    return totals;
  }

  /** Whether every scheduled fibre is proved. */
  public boolean allProved() {
    return fibres.stream().allMatch(f -> f.standing() == Standing.PROVED);
  }

  /** How small a trouble of each zero and place, and of direction, the readings would show. */
  public List<Sight> sights() {
    return estimate.sights();
  }

  /** The way of a crew through the actions, place by place. */
  public Walk walk() {
    return Walk.of(actions);
  }

  /** One fibre, if it is in the schedule. */
  public Optional<FibreJudgement> fibre(FibreId id) {
    int slot = ledger.slotOf(id);
    return slot < 0 ? Optional.empty() : Optional.of(fibres.get(slot));
  }

  /**
   * How probable each cause of loss is for a fibre, likeliest first: worth asking of one that loses
   * more than was expected. Empty for a fibre not in the schedule or without readings to use.
   */
  public List<Cause> causesOf(FibreId id) {
    int slot = ledger.slotOf(id);
    return slot < 0 ? List.of() : causes.posterior(slot);
  }
}
