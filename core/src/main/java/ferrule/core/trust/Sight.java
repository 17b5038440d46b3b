package ferrule.core.trust;

import ferrule.core.optics.Decibels;
import ferrule.core.uncertainty.Significance;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;

/**
 * How small a trouble the readings of a job would still show: the power of its own test.
 *
 * <p>The estimate of its size scatters around the true size by the standard deviation that the
 * joint estimate gives it, and the doubt is told if the estimate passes a bound; both follow from
 * how many readings there are, how they scatter, and what else they cannot be told from. So before
 * anything is found one can say what would be found.
 *
 * @param kind of the doubt
 * @param subject a zero, a place or the job
 * @param toldFromDb an estimate of this size or more is told, dB, above 0
 * @param sdDb standard deviation of the estimate, dB, above 0
 */
public record Sight(DoubtKind kind, Subject subject, double toldFromDb, double sdDb) {

  /** A trouble found with this chance is said to show. */
  public static final double SURE = 0.98;

  private static final String SURE_SHOWN = "98 times in 100";

  /** 98 % of a normal distribution lies below so many standard deviations above its mean. */
  private static final double SURE_SDS = Significance.normalExceededBy(1 - SURE);

  /** The smallest trouble that is found with a chance of {@value #SURE}, dB. */
  public double shownFromDb() {
    return toldFromDb + SURE_SDS * sdDb;
  }

  /**
   * The chance that a trouble of this true size is told.
   *
   * @param sizeDb either sign
   */
  public double chanceOf(double sizeDb) {
    return Math.exp(Significance.logNormalAbove((toldFromDb - Math.abs(sizeDb)) / sdDb));
  }

  /** "a shift of 0.12 dB". */
  public String shown() {
    String what =
        switch (kind) {
          case ZERO_SHIFT -> "a shift";
          case LEVEL_STEP -> "a step";
          case LEVEL_DRIFT -> "a drift";
          case PANEL_HIGH -> "a high panel";
          case POSITION_HIGH -> "a high position";
          case DIRECTION_BIAS -> "a bias of direction";
          default -> kind.id();
        };
    return what + " of " + Decibels.shown(shownFromDb()) + " dB";
  }

  /** Those about one subject, in their order. */
  public static List<Sight> about(List<Sight> sights, Subject subject) {
    return sights.stream().filter(s -> s.subject().equals(subject)).toList();
  }

  /** One sentence on a zero. */
  public static String ofZero(List<Sight> sights, String zero) {
    List<Sight> own = about(sights, Subject.reference(zero));
    return own.isEmpty()
        ? "Too little was read under it beside other zeros: a shift of it would not show in the"
            + " readings"
        : "What its readings would show, "
            + SURE_SHOWN
            + ": "
            + own.stream().map(Sight::shown).collect(Collectors.joining(", "))
            + " or more; smaller ones may stay hidden";
  }

  /** One sentence on the shifts of all zeros of a job; empty if it has none that would show. */
  public static String ofZeros(List<Sight> sights) {
    List<Sight> shifts =
        sights.stream()
            .filter(s -> s.kind() == DoubtKind.ZERO_SHIFT)
            .sorted(Comparator.comparingDouble(Sight::shownFromDb))
            .toList();
    if (shifts.isEmpty()) {
      return "";
    }
    Sight least = shifts.get(0);
    Sight most = shifts.get(shifts.size() - 1);
    String range =
        shifts.size() == 1
            ? "at " + least.at()
            : "at " + least.at() + " at best and " + most.at() + " at worst";
    return "A zero that is off would show in the readings, "
        + SURE_SHOWN
        + ", "
        + range
        + "; smaller shifts may stay hidden, and verifying finds them";
  }

  private String at() {
    return Decibels.shown(shownFromDb()) + " dB (" + subject.id() + ")";
  }
}
