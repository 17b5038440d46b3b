package ferrule.core.face;

import java.util.List;
import java.util.Optional;

/** Two pictures of one face held against each other. */
public sealed interface FaceComparison {

  /**
   * How the later picture lies to the earlier one.
   *
   * @param degrees turned so much from x to y (clockwise in the picture), -180 to 180
   * @param shiftXUm and then moved so far to the right, µm
   * @param shiftYUm and down, µm
   * @param matches how many flaws fit
   * @param byChance how often unrelated faces with as many flaws of such sizes would fit as well;
   *     an expected number, 0 or more
   */
  record Turn(double degrees, double shiftXUm, double shiftYUm, int matches, double byChance) {}

  /**
   * What became of every flaw.
   *
   * @param turn how the pictures lie to each other; empty where no way round lets any flaw of the
   *     one be a flaw of the other, so that it does not matter
   * @param changes the flaws seen before in their order, then the new ones in theirs
   */
  record Told(Optional<Turn> turn, List<FlawChange> changes) implements FaceComparison {
    /** Copies the list. */
    public Told {
      changes = List.copyOf(changes);
    }
  }

  /**
   * It cannot be told which flaw is which.
   *
   * @param reason why, one sentence without a full stop
   */
  record Untold(String reason) implements FaceComparison {}
}
