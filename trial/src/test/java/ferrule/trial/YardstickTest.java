package ferrule.trial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class YardstickTest {

  private static Campaign bothWays() {
    for (long seed = 1; ; seed++) {
      Campaign campaign = new Campaign(new Dice(seed));
      if (campaign.directions.size() == 2 && campaign.sessions.size() == 1) {
        return campaign;
      }
    }
  }

  @Test
  void aShiftOfHalfTheFibresMovesTheScoreByItsSize() {
    Campaign campaign = bothWays();
    Set<FibreId> half = new HashSet<>();
    for (RawReading reading : campaign.readings()) {
      if (reading.name.compareTo("K010") < 0) {
        half.add(reading.id());
      }
    }
    double before = Yardstick.level(campaign.readings(), half);
    campaign.readings().stream().filter(r -> half.contains(r.id())).forEach(r -> r.addLoss(5));
    assertThat(Yardstick.level(campaign.readings(), half)).isEqualTo(5, within(before + 1e-9));
    assertThat(Yardstick.level(campaign.readings(), Set.of())).isZero();
  }

  @Test
  void lossesThatOnlyRiseHaveTheHighestScoreOfTheirNumber() {
    List<RawReading> readings = bothWays().readings();
    List<FibreId> inOrder = readings.stream().map(RawReading::id).distinct().toList();
    readings.forEach(r -> r.addLoss(10.0 * inOrder.indexOf(r.id())));
    int n = inOrder.size();
    assertThat(Yardstick.drift(readings)).isEqualTo(Math.sqrt(n - 1.0), within(1e-9));
  }

  @Test
  void oneDirectionHigherByATenthScoresATenth() {
    Campaign campaign = bothWays();
    double before = Yardstick.direction(campaign.readings());
    campaign.readings().stream()
        .filter(r -> r.direction == Direction.A_TO_B)
        .forEach(r -> r.addLoss(1));
    // Two wavelengths a direction, half of each: one dB apart.
    assertThat(Yardstick.direction(campaign.readings())).isEqualTo(1, within(before + 1e-9));
  }
}
