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
     * The crew comes back and reads every one of these links again: beside the coming back the
     * tests, and for each further pair of places and kind of zero another setting up and zero.
     */
    LateCost readAgain(List<Link> links) {
      if (links.isEmpty()) {
        return lookUp("The papers are put right", 1);
      }
      Set<WalkOrder.Key> stops = new HashSet<>();
      Range tests = Range.NONE;
      for (Link link : links) {
        stops.add(WalkOrder.Key.of(link));
        tests = tests.plus(pace.minutes(link, choice));
      }
      Range eachStop = Practice.SET_UP.minutes().plus(Range.of(Handling.RE_ZERO));
      return new LateCost(
          "The crew comes back and reads " + count(links.size(), "link") + " again",
          Practice.COME_BACK.minutes().plus(tests).plus(eachStop.times(stops.size() - 1)));
    }

    /**
     * The readings are judged again and some links then fail: each is repaired.
     *
     * @param fails how many, as expected; not whole
     */
    LateCost judgeAgain(double fails) {
      long about = Math.round(fails);
      if (about == 0) {
        return lookUp("The readings are judged again; no link is expected to fail", 1);
      }
      return new LateCost(
          "The readings are judged again, and the crew comes back to about "
              + count(about, "link")
              + " expected to fail",
          Practice.COME_BACK.minutes().plus(Practice.REPAIR.minutes().times(about)));
    }

    /** The crew comes back to every one of these links: none can stay as it is. */
    LateCost repair(List<Link> links) {
      return new LateCost(
          "The crew comes back to " + count(links.size(), "link") + " that cannot stay as built",
          Practice.COME_BACK.minutes().plus(Practice.REPAIR.minutes().times(links.size())));
    }

    /** The crew comes back and makes traces of every fibre of these links from both ends. */
    LateCost traces(List<Link> links) {
      return new LateCost(
          "The crew comes back and makes traces of " + count(links.size(), "link"),
          Practice.COME_BACK.minutes().plus(traceMinutes(links)));
    }

    static Range traceMinutes(List<Link> links) {
      long fibres = links.stream().mapToLong(Link::fibres).sum();
      return Practice.TRACE.minutes().times(2.0 * fibres);
    }

    /** So many looks into the papers. */
    LateCost lookUp(String what, int times) {
      return new LateCost(what, Range.of(Handling.LOOK_UP).times(times));
    }
  }

  /** "1 link", "3 links". */
  static String count(long number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }
}
