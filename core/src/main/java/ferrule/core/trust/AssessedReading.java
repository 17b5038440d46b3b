package ferrule.core.trust;

import ferrule.core.allowance.Allowance;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Link;
import ferrule.core.uncertainty.Budget;
import ferrule.core.uncertainty.Conformity;
import ferrule.core.uncertainty.Decision;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A reading resolved against schedule and zero, with its loss, limit, uncertainty and decision.
 * Identity counts: two readings with equal values are two readings.
 */
public final class AssessedReading {

  private final int index;
  private final Reading reading;
  private final int slot;
  private final @Nullable Link link;
  private final @Nullable Zero zero;
  private final @Nullable ZeroLevel level;
  private final double lossDb;
  private final @Nullable Allowance allowance;
  private final @Nullable Budget budget;
  private final double standardDb;
  private final Decision decision;
  // What every finder asks of every reading is kept here: one memory access instead of three.
  private final short nm;
  private final boolean forward;
  private final boolean contradictsZero;
  private boolean current = true;

  AssessedReading(
      int index,
      Reading reading,
      int slot,
      @Nullable Link link,
      @Nullable Zero zero,
      @Nullable ZeroLevel level,
      double lossDb,
      @Nullable Allowance allowance,
      @Nullable Budget budget,
      double standardDb,
      Decision decision) {
    this.index = index;
    this.reading = reading;
    this.slot = slot;
    this.link = link;
    this.zero = zero;
    this.level = level;
    this.lossDb = lossDb;
    this.allowance = allowance;
    this.budget = budget;
    this.standardDb = standardDb;
    this.decision = decision;
    this.nm = (short) reading.wavelength().nm();
    this.forward = reading.direction() == Direction.A_TO_B;
    this.contradictsZero = level != null && reading.contradicts(level.power().value());
  }

  void replaced() {
    current = false;
  }

  /** Place in the job's list of readings, from 0. */
  public int index() {
    return index;
  }

  /** The reading as handed in. */
  public Reading reading() {
    return reading;
  }

  /** Nominal wavelength, nm. */
  public int nm() {
    return nm;
  }

  /** Whether the source stood at end A. */
  public boolean forward() {
    return forward;
  }

  /** Whether the other reading was taken in the same direction at the same wavelength. */
  public boolean sameCaseAs(AssessedReading other) {
    return nm == other.nm && forward == other.forward;
  }

  /** Whether its power and loss contradict the power that its zero stored. */
  public boolean contradictsZero() {
    return contradictsZero;
  }

  /** Place of the fibre in the ledger, or -1 if the fibre is not in the schedule. */
  public int slot() {
    return slot;
  }

  /** The link, if the fibre is in the schedule. */
  public Optional<Link> link() {
    return Optional.ofNullable(link);
  }

  /** The zero it names, if it is on record. */
  public Optional<Zero> zero() {
    return Optional.ofNullable(zero);
  }

  /** The level of that zero for its direction and wavelength, if there is one. */
  public Optional<ZeroLevel> level() {
    return Optional.ofNullable(level);
  }

  @Nullable Zero zeroOrNull() {
    return zero;
  }

  @Nullable ZeroLevel levelOrNull() {
    return level;
  }

  /**
   * The loss, dB: as handed in, or else stored power less the power read, beyond 1e300 that; NaN if
   * neither can be had.
   */
  public double lossDb() {
    return lossDb;
  }

  /** Whether there is a loss. */
  public boolean hasLoss() {
    return !Double.isNaN(lossDb);
  }

  /** The allowance; empty if the fibre is not in the schedule. */
  public Optional<Allowance> allowance() {
    return Optional.ofNullable(allowance);
  }

  /** The limit, dB; NaN if there is none. */
  public double limitDb() {
    return allowance == null ? Double.NaN : allowance.limitDb();
  }

  /** The expected loss, dB; NaN if none can be formed. */
  public double expectedDb() {
    return allowance == null ? Double.NaN : allowance.expectedDb();
  }

  /** Standard deviation of the expected loss, dB; NaN with {@link #expectedDb()}. */
  public double expectedSdDb() {
    return allowance == null ? Double.NaN : allowance.expectedSdDb();
  }

  /** The uncertainty budget; empty if the fibre is not in the schedule. */
  public Optional<Budget> budget() {
    return Optional.ofNullable(budget);
  }

  /** Standard uncertainty of the loss, dB; NaN without a loss. */
  public double standardDb() {
    return standardDb;
  }

  /** Expanded uncertainty of the loss (k = 2), dB; NaN without a loss. */
  public double expandedDb() {
    return Budget.COVERAGE_FACTOR * standardDb;
  }

  /** Limit less loss, dB; NaN without either. */
  public double marginDb() {
    return limitDb() - lossDb;
  }

  /** Probability that the loss is within the limit (JCGM 106:2012, 7.3.2); NaN without either. */
  public double probabilityConforming() {
    double limit = limitDb();
    return Double.isNaN(lossDb) || Double.isNaN(limit)
        ? Double.NaN
        : Conformity.belowUpper(lossDb, limit, standardDb);
  }

  /** The decision under the job's rule. */
  public Decision decision() {
    return decision;
  }

  /** Whether it counts: no later reading of the same fibre, direction and wavelength. */
  public boolean current() {
    return current;
  }

  /** "1310 nm A-B". */
  public String caseShown() {
    return reading.wavelength() + " " + reading.direction().word();
  }
}
