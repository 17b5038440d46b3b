package ferrule.trial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.job.Job;
import ferrule.core.plant.FibreId;
import ferrule.core.zero.Reading;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A trouble changes what it says it changes, and nothing else. */
class TroublesTest {

  private static final int JOBS = 15;

  /** A clean job, the same with the trouble, and what was planted. */
  private record Pair(Job clean, Job troubled, Planted planted, Trouble trouble) {}

  private static Optional<Pair> pair(String kind, long seed) {
    Job clean = new Campaign(new Dice(seed).split()).job();
    Dice dice = new Dice(seed);
    Campaign campaign = new Campaign(dice.split());
    Dice own = dice.split();
    Trouble trouble = Troubles.draw(kind, own, OptionalDouble.empty()).orElseThrow();
    return trouble
        .plant(campaign, own)
        .map(planted -> new Pair(clean, campaign.job(), planted, trouble));
  }

  /** Fibres with a reading that is new, or not as it was. */
  private static Set<FibreId> changed(Job clean, Job troubled) {
    Set<Reading> before = new HashSet<>(clean.readings());
    Set<FibreId> changed = new HashSet<>();
    for (Reading reading : troubled.readings()) {
      if (!before.contains(reading)) {
        changed.add(reading.fibreId());
      }
    }
    return changed;
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "zero-shift",
        "direction-bias",
        "level-step",
        "level-drift",
        "panel-high",
        "position-high",
        "outlier",
        "below-floor",
        "wavelength-order",
        "direction-gap",
        "length-scale",
        "length-offset",
        "length-gap",
        "crossed",
        "port-shift",
        "repeated-values",
        "too-quick",
        "clock",
        "unscheduled",
        "double"
      })
  void changesReadingsOfItsReachAndNoOthers(String kind) {
    int planted = 0;
    for (long seed = 1; planted < JOBS; seed++) {
      Optional<Pair> pair = pair(kind, seed);
      if (pair.isEmpty()) {
        continue;
      }
      planted++;
      Set<FibreId> widest = new HashSet<>();
      pair.get().planted().reaches().forEach(widest::addAll);
      Set<FibreId> changed = changed(pair.get().clean(), pair.get().troubled());
      assertThat(widest).as("seed " + seed).containsAll(changed);
      // A drift has not moved the first readings by a display step yet; a length may round alike.
      Set<FibreId> narrowest =
          pair.get().planted().reaches().stream()
              .min((a, b) -> Integer.compare(a.size(), b.size()))
              .orElseThrow();
      assertThat(changed.size()).as("seed " + seed).isGreaterThan((int) (0.7 * narrowest.size()));
      assertThat(pair.get().troubled().zeros()).isEqualTo(pair.get().clean().zeros());
    }
  }

  @Test
  void aZeroShiftMovesReadingsByItsSize() {
    int planted = 0;
    for (long seed = 1; planted < JOBS; seed++) {
      Optional<Pair> drawn = pair("zero-shift", seed);
      if (drawn.isEmpty()) {
        continue;
      }
      planted++;
      Pair pair = drawn.get();
      Map<String, Reading> before = new HashMap<>();
      pair.clean().readings().forEach(r -> before.put(key(r), r));
      for (Reading now : pair.troubled().readings()) {
        Reading then = before.getOrDefault(key(now), now);
        if (now.equals(then)) {
          continue;
        }
        if (now.hasLoss()) {
          assertThat(now.lossDb() - then.lossDb()).isEqualTo(pair.trouble().size(), within(0.0101));
        }
        if (now.hasPower()) {
          assertThat(then.powerDbm() - now.powerDbm())
              .isEqualTo(pair.trouble().size(), within(0.0101));
        }
      }
    }
  }

  private static String key(Reading reading) {
    return reading.fibreId() + " " + reading.direction() + " " + reading.wavelength();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "zero-power",
        "zero-unverified",
        "zero-verification",
        "calibration-lapsed",
        "cord-worn",
        "paper-conflict"
      })
  void aTroubleOfPapersLeavesEveryLossAsItWas(String kind) {
    int planted = 0;
    for (long seed = 1; planted < JOBS; seed++) {
      Optional<Pair> pair = pair(kind, seed);
      if (pair.isEmpty()) {
        continue;
      }
      planted++;
      Map<String, Reading> before = new HashMap<>();
      pair.get().clean().readings().forEach(r -> before.put(key(r), r));
      for (Reading now : pair.get().troubled().readings()) {
        if (now.hasLoss()) {
          Reading then = before.getOrDefault(key(now), now);
          assertThat(now.lossDb()).isEqualTo(then.lossDb(), within(1e-9));
        }
      }
      assertThat(pair.get().troubled()).isNotEqualTo(pair.get().clean());
    }
  }
}
