package ferrule.core.trust.many;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Readings of one instrument whose times cannot be right, and why. Pure logic of times; nothing is
 * measured against the present.
 *
 * @param why in which way
 * @param readings those with impossible times, every attempt, in the order handed in
 * @param shiftSeconds how far the clock seems to have been off at least; 0 if it cannot be told
 */
record ImpossibleTimes(Why why, List<AssessedReading> readings, double shiftSeconds) {

  /** In which way times are impossible. */
  enum Why {
    SET_BACK("a block runs backwards against the order handed in"),
    AT_TWO_LINKS("two links were read at once with one instrument"),
    BEFORE_ZERO("all its readings come before its zeros were set, by the same time");

    private final String words;

    Why(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  /** Of the readings whose index is set. */
  static ImpossibleTimes of(Why why, BitSet wrong, List<AssessedReading> all, double shiftSeconds) {
    List<AssessedReading> readings = new ArrayList<>(wrong.cardinality());
    for (int i = wrong.nextSetBit(0); i >= 0; i = wrong.nextSetBit(i + 1)) {
      readings.add(all.get(i));
    }
    return new ImpossibleTimes(why, readings, shiftSeconds);
  }

  static boolean isBeforeZero(AssessedReading reading) {
    @Nullable ZeroLevel level = reading.level().orElse(null);
    return level != null && reading.reading().measuredAt().isBefore(level.setAt());
  }

  /** The search through the clocks of a ledger. */
  static final class Search {
    private final Ledger ledger;
    private final List<AssessedReading> readings;
    private final Moments moments;
    private final AtTwoLinks atTwoLinks;

    Search(Ledger ledger, Moments moments) {
      this.ledger = ledger;
      this.readings = ledger.readings();
      this.moments = moments;
      this.atTwoLinks = new AtTwoLinks(readings, moments);
    }

    /** Finds what is wrong with the times of one clock, if anything is. */
    Optional<ImpossibleTimes> in(Clock clock) {
      Optional<ImpossibleTimes> found = ClockSetBack.in(ledger, moments, clock);
      if (found.isEmpty()) {
        found = atTwoLinks.in(clock);
      }
      return found.isEmpty() ? beforeZeros(clock) : found;
    }

    /** What was read under one zero. */
    private static final class UnderZero {
      int all;
      int before;
      double offset = Double.NEGATIVE_INFINITY;
    }

    /** All readings come before their zeros, under each zero by about the same time. */
    private Optional<ImpossibleTimes> beforeZeros(Clock clock) {
      BitSet wrong = new BitSet();
      BitSet links = new BitSet();
      for (int reading : clock.readings()) {
        if (isBeforeZero(readings.get(reading))) {
          wrong.set(reading);
          links.set(moments.link(reading));
        }
      }
      if (wrong.cardinality() < 8 || links.cardinality() < 3) {
        return Optional.empty();
      }
      double most = Double.NEGATIVE_INFINITY;
      double least = Double.POSITIVE_INFINITY;
      for (UnderZero zero : underZeros(clock, wrong)) {
        if (zero.before < 0.8 * zero.all) {
          return Optional.empty();
        }
        most = Math.max(most, zero.offset);
        least = Math.min(least, zero.offset);
      }
      return most - least > Math.max(1800, 0.25 * most)
          ? Optional.empty()
          : Optional.of(of(Why.BEFORE_ZERO, wrong, readings, most));
    }

    private Iterable<UnderZero> underZeros(Clock clock, BitSet wrong) {
      Map<String, UnderZero> zeros = new LinkedHashMap<>();
      String lastReference = "";
      @Nullable UnderZero zero = null;
      for (int i : clock.readings()) {
        AssessedReading reading = readings.get(i);
        String reference = reading.reading().reference();
        if (zero == null || !reference.equals(lastReference)) {
          zero = zeros.computeIfAbsent(reference, k -> new UnderZero());
          lastReference = reference;
        }
        zero.all++;
        if (wrong.get(i)) {
          zero.before++;
          double setAt = reading.level().map(l -> Times.seconds(l.setAt())).orElseThrow();
          zero.offset = Math.max(zero.offset, setAt - moments.seconds(i));
        }
      }
      return zeros.values();
    }
  }
}
