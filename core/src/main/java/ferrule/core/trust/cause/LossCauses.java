package ferrule.core.trust.cause;

import ferrule.core.optics.FibreKind;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.joint.FibreExcess;
import ferrule.core.trust.joint.JointEstimate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Why the fibres of one job lose more than was expected. Each cause is weighed by how often it is
 * met times how well it explains what is left of the fibre's readings ({@link Hypotheses}) and the
 * length measured; the weights are the probabilities that follow (Bayes). How often they are right
 * is shown by simulation in docs/methods.md.
 *
 * <p>Answers are computed when asked for and kept; asking from several threads is allowed.
 */
public final class LossCauses {

  /** Mixtures kept; a job has a handful, unless its readings are full of holes. */
  private static final int MOST_KEPT = 64;

  /** Scales are rounded to steps of this ratio, so that like fibres share their mixtures. */
  private static final double SCALE_STEP = Math.log(1.1);

  private record Key(FibreKind kind, long scatter, long scale) {}

  private final Ledger ledger;
  private final JointEstimate estimate;
  private final Map<Key, Hypotheses> hypotheses = new ConcurrentHashMap<>();
  private final Map<Integer, Finding> findings = new ConcurrentHashMap<>();
  private final Others others;

  /**
   * Causes of a job.
   *
   * @param ledger its readings
   * @param estimate its joint estimate
   */
  public LossCauses(Ledger ledger, JointEstimate estimate) {
    this.ledger = ledger;
    this.estimate = estimate;
    this.others = new Others(ledger);
  }

  /**
   * How probable each cause is for a fibre, likeliest first; empty where nothing of it can be used.
   *
   * @param slot of the fibre in the ledger
   */
  public List<Cause> posterior(int slot) {
    return finding(slot).posterior();
  }

  /**
   * What is told of a fibre: causes with their probabilities, likeliest first; or, where none
   * leads, first "cannot be told" with the causes between which it lies. Never empty; weights add
   * up to 1.
   *
   * @param slot of the fibre in the ledger
   */
  public List<Cause> told(int slot) {
    return finding(slot).told();
  }

  /** The numbers that it rests on: what is left of each reading, length, neighbours. */
  public List<Evidence> evidence(int slot) {
    return finding(slot).evidence();
  }

  /**
   * What to do first about a fibre.
   *
   * @param usual what is done where no cause leads, or one that the same deed answers; its wording
   *     and its results then stand, for they know the reading
   */
  public NextStep next(int slot, NextStep usual) {
    return finding(slot)
        .leader()
        .flatMap(cause -> CauseSteps.of(cause, ledger.fibre(slot), ledger.link(slot)))
        .filter(step -> !step.key().equals(usual.key()))
        .orElse(usual);
  }

  private Finding finding(int slot) {
    Finding known = findings.get(slot);
    if (known == null) {
      known = estimate.excess(slot).map(e -> weigh(slot, e)).orElseGet(Finding::nothing);
      findings.put(slot, known);
    }
    return known;
  }

  private Finding weigh(int slot, FibreExcess excess) {
    FibreKind kind = ledger.link(slot).category().kind();
    double[] db = excess.db();
    double scale = Math.exp(SCALE_STEP * Math.rint(Math.log(excess.scale()) / SCALE_STEP));
    double[][] honest = excess.covarianceAtScaleOne();
    for (double[] row : honest) {
      for (int k = 0; k < row.length; k++) {
        row[k] *= scale * scale;
      }
    }
    Hypotheses shapes = hypotheses(kind, excess, scale, honest);
    LengthLook length = others.length(slot);
    Map<LossCause, Double> logs = new EnumMap<>(LossCause.class);
    for (LossCause cause : LossCause.values()) {
      double frequency = cause.frequency(kind);
      if (frequency <= 0) {
        continue;
      }
      double log =
          switch (cause) {
            case OTHER_FIBRE -> others.logLikelihood(slot, excess, honest, length);
            case EXCHANGED -> Exchanged.logLikelihood(excess, honest) + length.logDensity(0, 0);
            default -> mixture(shapes.of(cause), db, length);
          };
      if (log > Double.NEGATIVE_INFINITY) {
        logs.put(cause, Math.log(frequency) + log);
      }
    }
    return Finding.of(logs, evidence(excess, length));
  }

  private Hypotheses hypotheses(
      FibreKind kind, FibreExcess excess, double scale, double[][] honest) {
    Key key = new Key(kind, excess.sameScatter(), Math.round(Math.log(scale) / SCALE_STEP));
    Hypotheses known = hypotheses.get(key);
    if (known == null) {
      List<AssessedReading> readings = excess.readings();
      int[] nm = readings.stream().mapToInt(AssessedReading::nm).toArray();
      boolean[] forward = new boolean[nm.length];
      for (int k = 0; k < nm.length; k++) {
        forward[k] = readings.get(k).forward();
      }
      known = new Hypotheses(kind, nm, forward, honest, excess.partSdDb() * scale);
      if (hypotheses.size() >= MOST_KEPT) {
        hypotheses.clear();
      }
      hypotheses.put(key, known);
    }
    return known;
  }

  private static double mixture(List<Hypotheses.Part> parts, double[] db, LengthLook length) {
    LogSum sum = new LogSum();
    double asScheduled = length.logDensity(0, 0);
    double[] room = new double[db.length];
    for (Hypotheses.Part part : parts) {
      double of =
          part.extraM() > 0 ? length.logDensity(part.extraM(), 0.12 * part.extraM()) : asScheduled;
      sum.add(part.logWeight() + part.normal().logDensity(db, room) + of);
    }
    return sum.value();
  }

  private static List<Evidence> evidence(FibreExcess excess, LengthLook length) {
    List<Evidence> evidence = new ArrayList<>();
    double[] db = excess.db();
    List<AssessedReading> readings = excess.readings();
    for (int k = 0; k < db.length; k++) {
      String way = readings.get(k).reading().direction().word().toLowerCase(Locale.ROOT);
      evidence.add(
          Evidence.of(
              "excess_" + readings.get(k).nm() + "_" + way.replace('-', '_') + "_db", db[k]));
    }
    length.beyondScheduleM().ifPresent(m -> evidence.add(Evidence.of("beyond_schedule_m", m)));
    double[] neighbours = excess.neighboursDb();
    if (neighbours.length > 0) {
      double bar = Math.max(0.1, excess.meanDb() / 2);
      long high = 0;
      for (double one : neighbours) {
        high += one > bar ? 1 : 0;
      }
      evidence.add(Evidence.of("neighbours", neighbours.length));
      evidence.add(Evidence.of("neighbours_high_too", high));
      if (high >= 2 && 2 * high >= neighbours.length) {
        evidence.add(
            Evidence.of(
                "neighbourhood",
                "most neighbours lie high as well: look first for what they share, a tray, a panel,"
                    + " a cord"));
      }
    }
    return evidence;
  }
}
