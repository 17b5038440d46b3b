package ferrule.core.plan;

import ferrule.core.plant.Link;
import ferrule.core.trust.Handling;
import ferrule.core.trust.VerificationInterval;
import java.util.ArrayList;
import java.util.List;

/**
 * How long a crew of two is busy, by what is asked of each link.
 *
 * @param pace where the times come from
 * @param rows one for each choice, in the order of {@link Choice#ALL}
 * @param required the row of what the job asks
 * @param office minutes in the office, not in the rows
 */
public record Hours(Pace pace, List<Row> rows, Row required, Range office) {

  /**
   * One choice. All in minutes of the crew; twice that is paid for.
   *
   * @param choice what is asked
   * @param tests at the links: inspecting, plugging, reading
   * @param setUp setting up on the walk
   * @param zeros setting zeros: those the walk calls for, and one for each further shift
   * @param verification verifying zeros: at the cheapest interval and before leaving a place
   * @param repairs links that fail the first time, put right while on site
   */
  public record Row(
      Choice choice, Range tests, Range setUp, Range zeros, Range verification, Range repairs) {

    /** All together. */
    public Range total() {
      return tests.plus(setUp).plus(zeros).plus(verification).plus(repairs);
    }

    /** Working days at least begun, at the slowest. */
    public long daysAtMost() {
      return Math.max(1, (long) Math.ceil(total().high() / Practice.SHIFT.minutes().high()));
    }
  }

  /** Copies the list. */
  public Hours {
    rows = List.copyOf(rows);
  }

  static Hours of(
      List<Link> links, Pace pace, WalkOrder walk, VerificationInterval interval, Choice required) {
    List<Row> rows = new ArrayList<>();
    Row asked = row(links, pace, walk, interval, required);
    for (Choice choice : Choice.ALL) {
      rows.add(choice.equals(required) ? asked : row(links, pace, walk, interval, choice));
    }
    return new Hours(pace, rows, asked, Practice.OFFICE.minutes().times(links.size() / 1000.0));
  }

  private static Row row(
      List<Link> links, Pace pace, WalkOrder walk, VerificationInterval interval, Choice choice) {
    Range tests = Range.NONE;
    for (Link link : links) {
      tests = tests.plus(pace.minutes(link, choice));
    }
    Range setUp = Practice.SET_UP.minutes().times(walk.effort().moves());
    Range work = tests.plus(setUp);
    double shift = Practice.SHIFT.minutes().usual();
    long set = walk.effort().zeros();
    Range zeros =
        new Range(
                zeros(set, work.low() / shift),
                zeros(set, work.usual() / shift),
                zeros(set, work.high() / shift))
            .times(Handling.RE_ZERO);
    long moves = walk.effort().moves();
    Range verification =
        new Range(
                moves + Math.floor(links.size() / interval.high()),
                moves + Math.floor(links.size() / interval.links()),
                moves + Math.floor(links.size() / interval.low()))
            .times(Handling.VERIFY);
    Range repairs =
        Practice.FIRST_FAILS.range().times(Practice.REPAIR.minutes()).times(links.size());
    return new Row(choice, tests, setUp, zeros, verification, repairs);
  }

  /** Zeros that the walk calls for, and one for each further shift begun. */
  private static double zeros(long walk, double shifts) {
    return walk + Math.max(0, Math.ceil(shifts) - 1);
  }
}
