package ferrule.core.trust.joint;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.trust.cause.LossCauses;
import ferrule.core.uncertainty.Decision;
import ferrule.core.uncertainty.OrderStats;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.IntStream;

/**
 * {@code outlier}: inside the limit, far above what was expected once zeros, glass and panels are
 * taken out: more than 3.5 robust standard deviations of its like (Iglewicz and Hoaglin 1993, "How
 * to detect and handle outliers") and more than 0.30 dB (common practice, no source). A limit is
 * often three to five times the expected loss, so a bad connection passes it.
 *
 * <p>Honest connections have a long upper tail, so a large job holds a few such fibres by nature;
 * each is still worth a look, and none holds back a standing.
 */
public final class OutlierFinder implements DoubtFinder {

  private static final double ROBUST_SDS = 3.5;
  private static final double LEAST_DB = 0.30;
  private static final int ENOUGH = 12;

  private final JointEstimate estimate;
  private final LossCauses causes;

  /** Outliers beside an estimate and the causes of the job's losses. */
  public OutlierFinder(JointEstimate estimate, LossCauses causes) {
    this.estimate = estimate;
    this.causes = causes;
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    Optional<JointFit> fit = estimate.fit();
    if (fit.isEmpty()) {
      return;
    }
    Frame frame = fit.get().frame;
    double[] own = ownPart(fit.get());
    for (Family family : frame.families) {
      double[] values = values(frame, family, own);
      if (values.length < ENOUGH) {
        continue;
      }
      double centre = OrderStats.median(values);
      double sd = OrderStats.spread(values);
      double threshold = Math.max(LEAST_DB, ROBUST_SDS * sd);
      // Weighing causes takes longer than finding; each fibre's are weighed by themselves.
      IntStream.range(0, frame.fibres())
          .filter(i -> frame.family[i] == family.index() && own[i] - centre > threshold)
          .parallel()
          .mapToObj(i -> tell(ledger, frame, i, own[i] - centre, sd, threshold))
          .flatMap(Optional::stream)
          .toList()
          .forEach(out);
    }
  }

  /** Mean of a fibre's residuals, brought to the family's first pattern and the usual spread. */
  private static double[] ownPart(JointFit fit) {
    Frame frame = fit.frame;
    double[] own = new double[frame.fibres()];
    for (int i = 0; i < own.length; i++) {
      List<Family.Case> cases = frame.families.get(frame.family[i]).cases();
      double sum = 0;
      double pattern = 0;
      for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
        sum += fit.residual[r];
        pattern += cases.get(frame.caseOf[r]).pattern();
      }
      own[i] = sum / pattern / frame.scale[i];
    }
    return own;
  }

  private static double[] values(Frame frame, Family family, double[] own) {
    double[] values = new double[own.length];
    int size = 0;
    for (int i = 0; i < own.length; i++) {
      if (frame.family[i] == family.index()) {
        values[size++] = own[i];
      }
    }
    return Arrays.copyOf(values, size);
  }

  private Optional<Doubt> tell(
      Ledger ledger, Frame frame, int i, double above, double sd, double threshold) {
    List<AssessedReading> readings = new ArrayList<>();
    for (AssessedReading reading : ledger.readings(frame.slot[i])) {
      if (reading.current() && reading.hasLoss()) {
        if (reading.decision() == Decision.REJECT) {
          return Optional.empty();
        }
        readings.add(reading);
      }
    }
    AssessedReading worst =
        readings.stream().max(Comparator.comparingDouble(OutlierFinder::excess)).orElseThrow();
    FibreId fibre = ledger.fibre(frame.slot[i]);
    double expected = worst.allowance().map(a -> a.expectedDb()).orElse(Double.NaN);
    int slot = frame.slot[i];
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(
        Evidence.of(
            "what",
            Decibels.shown(worst.lossDb())
                + " dB at "
                + worst.caseShown()
                + " where "
                + Decibels.shown(expected)
                + " dB was expected"));
    evidence.add(Evidence.of("loss_db", worst.lossDb()));
    evidence.add(Evidence.of("expected_db", expected));
    evidence.add(Evidence.of("above_its_like_db", above * frame.scale[i]));
    evidence.add(Evidence.of("robust_sd_db", sd * frame.scale[i]));
    evidence.add(Evidence.of("threshold_db", threshold * frame.scale[i]));
    evidence.addAll(causes.evidence(slot));
    return Optional.of(
        new Doubt(
            DoubtKind.OUTLIER,
            Subject.fibre(fibre),
            false,
            Reach.of(readings),
            evidence,
            causes.told(slot),
            causes.next(
                slot,
                Steps.cleanAndRetest(fibre, ledger.link(slot))
                    .withResults(
                        "It falls by "
                            + Decibels.shown(above * frame.scale[i] / 2)
                            + " dB or more once clean: it was dirt",
                        "It stays above "
                            + Decibels.shown(worst.lossDb() - above * frame.scale[i] / 2)
                            + " dB at "
                            + worst.caseShown()
                            + ": look for one poor connection or splice"))));
  }

  private static double excess(AssessedReading reading) {
    double expected = reading.allowance().map(a -> a.expectedDb()).orElse(Double.NaN);
    return Double.isNaN(expected) ? Double.NEGATIVE_INFINITY : reading.lossDb() - expected;
  }
}
