package ferrule.core.plan;

import ferrule.core.plant.Link;
import ferrule.core.trust.Handling;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * What a contradiction costs if nobody asks before the first test and it is found at close-out.
 *
 * @param what has to be done then
 * @param minutes of the crew of two
 */
public record LateCost(String what, Range minutes) {

  /** Prices by the pace of a job. */
  static final class Prices {
    private final Pace pace;
    private final Choice choice;

    Prices(Pace pace, Choice choice) {
      this.pace = pace;
      this.choice = choice;
    }

    /**
     * Every one of these links read again: a place set up for each pair of places and kind of zero,
     * a zero each, and the tests; and never less than coming back takes at all.
     */
    LateCost readAgain(List<Link> links) {
      if (links.isEmpty()) {
        return lookUp("The papers are put right");
      }
      Set<WalkOrder.Key> stops = new HashSet<>();
      Range sum = Range.NONE;
      for (Link link : links) {
        stops.add(WalkOrder.Key.of(link));
        sum = sum.plus(pace.minutes(link, choice));
      }
      sum =
          sum.plus(Practice.SET_UP.minutes().times(stops.size()))
              .plus(Range.of(Handling.RE_ZERO).times(stops.size()));
      return new LateCost(
          "The crew comes back and reads " + count(links.size(), "link") + " again",
          atLeast(Practice.COME_BACK.minutes(), sum));
    }

    /** Every one of these links repaired or built otherwise, and read again. */
    LateCost repair(List<Link> links) {
      return new LateCost(
          "The crew comes back to " + count(links.size(), "link") + " that cannot stay as built",
          atLeast(Practice.COME_BACK.minutes(), Practice.REPAIR.minutes().times(links.size())));
    }

    /** Traces of every fibre of these links from both ends. */
    LateCost traces(List<Link> links) {
      return new LateCost(
          "The crew comes back and makes traces of " + count(links.size(), "link"),
          atLeast(Practice.COME_BACK.minutes(), traceMinutes(links)));
    }

    static Range traceMinutes(List<Link> links) {
      long fibres = links.stream().mapToLong(Link::fibres).sum();
      return Practice.TRACE.minutes().times(2.0 * fibres);
    }

    /** A look into the papers. */
    LateCost lookUp(String what) {
      return new LateCost(what, Range.of(Handling.LOOK_UP));
    }

    private static Range atLeast(Range least, Range sum) {
      return new Range(
          Math.max(least.low(), sum.low()),
          Math.max(least.usual(), sum.usual()),
          Math.max(least.high(), sum.high()));
    }
  }

  /** "1 link", "3 links". */
  static String count(long number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }
}
