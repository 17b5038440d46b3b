package ferrule.record.page;

import ferrule.core.allowance.Allowance;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Standing;
import ferrule.core.uncertainty.Budget;
import ferrule.core.uncertainty.Contribution;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How the numbers of one reading came about, and the uncertainty budgets in use.
 *
 * @param reading the reading
 * @param allowance its limit and expectation
 * @param budget its uncertainty
 */
public record WorkedExample(AssessedReading reading, Allowance allowance, Budget budget) {

  /** A reading with a limit, of a proved fibre if there is one; empty if no reading has a limit. */
  public static Optional<WorkedExample> of(Judgement judgement) {
    Optional<WorkedExample> any = Optional.empty();
    for (FibreJudgement fibre : judgement.fibres()) {
      for (AssessedReading reading : fibre.readings()) {
        if (reading.current() && !Double.isNaN(reading.marginDb())) {
          Optional<WorkedExample> example =
              reading
                  .allowance()
                  .flatMap(a -> reading.budget().map(b -> new WorkedExample(reading, a, b)));
          if (fibre.standing() == Standing.PROVED && example.isPresent()) {
            return example;
          }
          any = any.isPresent() ? any : example;
        }
      }
    }
    return any;
  }

  /** Length of the link, km. */
  public double km() {
    return reading.link().map(l -> l.lengthKm()).orElse(Double.NaN);
  }

  /** Size of a contribution with its unit. */
  public static String size(Contribution contribution) {
    return switch (contribution.scale()) {
      case FIXED -> Show.fine(contribution.size()) + " dB";
      case PER_KM -> Show.fine(contribution.size()) + " dB/km";
      case OF_LOSS -> Show.fine(contribution.size()) + " of the loss";
    };
  }

  /** What a contribution adds to this reading's standard uncertainty, dB. */
  public double product(Contribution contribution) {
    return contribution.product(km(), reading.lossDb());
  }

  /** One example for each kind of fibre and method in use, for its budget. */
  public static Map<String, WorkedExample> budgets(Judgement judgement) {
    Map<String, WorkedExample> budgets = new LinkedHashMap<>();
    List<AssessedReading> readings = new ArrayList<>(judgement.ledger().current());
    for (AssessedReading reading : readings) {
      if (!reading.hasLoss() || reading.link().isEmpty()) {
        continue;
      }
      String key =
          Show.sentence(reading.link().get().category().kind().word()).replace(".", "")
              + " fibre, "
              + reading
                  .zero()
                  .map(z -> z.method())
                  .orElse(judgement.ledger().requirement().method())
                  .word();
      if (!budgets.containsKey(key)) {
        reading
            .allowance()
            .ifPresent(
                a ->
                    reading
                        .budget()
                        .ifPresent(b -> budgets.put(key, new WorkedExample(reading, a, b))));
      }
    }
    return budgets;
  }
}
