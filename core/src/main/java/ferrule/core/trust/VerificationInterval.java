package ferrule.core.trust;

import ferrule.core.uncertainty.EventRate;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.Set;

/**
 * After how many links a crew best verifies its zero again, from how often zeros and cords were
 * found changed in this very job. A pure function of the judgement: another event, another
 * interval.
 *
 * <p>Verifying every {@code n} links costs {@code v/n} minutes a link. An event, with chance {@code
 * h} a link, is noticed {@code n/2} links late on average, and these are retested at {@code c}
 * minutes each: {@code h c n/2} minutes a link. The sum is least at {@code n* = sqrt(2 v/(h c))}
 * (own derivation). On leaving a site a zero is always verified: coming back costs far more than
 * {@code c}.
 *
 * <p>The rate has a gamma law. Before anything is counted it is worth one event in 500 links
 * (common practice, no source): {@code Gamma(1, 500)}, which leaves 1/6000 to 1/170 credible.
 *
 * @param links cheapest interval at the mean rate, links, unrounded
 * @param low cheapest interval at the highest credible rate (95 % quantile), links
 * @param high cheapest interval at the lowest credible rate (5 % quantile), links
 * @param events zeros found changed, each counted once
 * @param linksTested links with a reading
 */
public record VerificationInterval(
    double links, double low, double high, int events, int linksTested) {

  /** One event in 500 links, with the weight of that one event. */
  public static final EventRate PRIOR = new EventRate(1, 500);

  /** Doubts that say of a zero, or of the cords it was set with, that it was found changed. */
  private static final Set<DoubtKind> CHANGES =
      EnumSet.of(
          DoubtKind.ZERO_SHIFT,
          DoubtKind.LEVEL_STEP,
          DoubtKind.LEVEL_DRIFT,
          DoubtKind.ZERO_VERIFICATION);

  private static final double LOW = 0.05;
  private static final double HIGH = 0.95;

  /** The interval for the crew and the links of a job. */
  public static VerificationInterval of(Judgement judgement) {
    Ledger ledger = judgement.ledger();
    // A zero is one event however many doubts speak of it: they may all have one cause.
    Set<Subject> changed = new HashSet<>();
    for (Doubt doubt : judgement.doubts()) {
      if (CHANGES.contains(doubt.kind())) {
        changed.add(doubt.subject());
      }
    }
    BitSet links = new BitSet();
    for (AssessedReading reading : ledger.readings()) {
      if (reading.slot() >= 0) {
        // The slot of the link's first fibre stands for the link.
        links.set(reading.slot() - reading.reading().fibre() + 1);
      }
    }
    return of(changed.size(), links.cardinality());
  }

  /**
   * The interval after some events.
   *
   * @param events not negative
   * @param linksTested not negative
   */
  public static VerificationInterval of(int events, int linksTested) {
    EventRate rate = PRIOR.after(events, linksTested);
    return new VerificationInterval(
        cheapest(Handling.VERIFY, rate.mean(), Handling.RETEST_LINK),
        cheapest(Handling.VERIFY, rate.quantile(HIGH), Handling.RETEST_LINK),
        cheapest(Handling.VERIFY, rate.quantile(LOW), Handling.RETEST_LINK),
        events,
        linksTested);
  }

  /**
   * The cheapest interval, {@code sqrt(2 v/(h c))}, links.
   *
   * @param verify minutes to verify, above 0
   * @param rate chance a link of an event that spoils zero or cord, above 0
   * @param retest minutes to retest a link, above 0
   */
  public static double cheapest(double verify, double rate, double retest) {
    return Math.sqrt(2 * verify / (rate * retest));
  }

  /** "every 41 links", for a reader: whole links, at least one. */
  public String shown() {
    long whole = whole(links);
    return whole == 1 ? "after every link" : "every " + whole + " links";
  }

  /** "24 to 180", whole links. */
  public String rangeShown() {
    return whole(low) + " to " + whole(high);
  }

  /** "1 zero found changed over 48 links tested". */
  public String basis() {
    return Steps.count(events, "zero")
        + " found changed over "
        + Steps.count(linksTested, "link")
        + " tested";
  }

  private static long whole(double links) {
    return Math.max(1, Math.round(links));
  }
}
