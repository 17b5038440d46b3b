package ferrule.trial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.job.Job;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Direction;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import ferrule.trial.TrueLink.TrueFibre;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.Test;

class CampaignTest {

  private static final int JOBS = 60;

  private static List<Campaign> campaigns() {
    List<Campaign> campaigns = new ArrayList<>();
    for (long seed = 1; seed <= JOBS; seed++) {
      campaigns.add(new Campaign(new Dice(seed)));
    }
    return campaigns;
  }

  @Test
  void sameSeedGivesTheSameJobAndAnotherSeedAnother() {
    assertThat(new Campaign(new Dice(5)).job()).isEqualTo(new Campaign(new Dice(5)).job());
    assertThat(new Campaign(new Dice(5)).job()).isNotEqualTo(new Campaign(new Dice(6)).job());
  }

  @Test
  void jobsHaveTheSizesAndPapersThatWereAskedFor() {
    for (Campaign campaign : campaigns()) {
      Job job = campaign.job();
      assertThat(job.fibreCount()).isBetween(40, 440);
      assertThat(job.zeros().size()).isBetween(1, 12);
      assertThat(Fibres.byPlace(campaign).size()).isBetween(2, 10);
      for (Cord cord : job.cords()) {
        assertThat(cord.matings().orElseThrow()).isLessThan(300);
      }
      int cases = campaign.directions.size() * 2;
      assertThat(job.readings()).hasSize(cases * job.fibreCount());
    }
  }

  @Test
  void everyLawMethodSharingAndHandlingIsMet() {
    Set<Object> met = new HashSet<>();
    for (Campaign campaign : campaigns()) {
      met.add(campaign.world.law);
      met.add(campaign.method);
      met.add(campaign.sharing);
      met.add(campaign.site.handling);
      met.add(campaign.directions.size());
      met.add(campaign.lengths);
    }
    assertThat(met).hasSize(2 + 3 + 3 + 3 + 2 + 2);
  }

  @Test
  void aReadingIsWhatTheSignalFlowSaysWithinItsHonestScatter() {
    // reading = Lk + c(L,A) + c(B,R) - cord pairs of the zero; scatter: two matings, meter
    // connection, noise, wander.
    for (Campaign campaign : campaigns()) {
      double sum = 0;
      int count = 0;
      for (RawReading reading : campaign.readings()) {
        TrueFibre fibre = reading.link.fibres().get(reading.fibre - 1);
        boolean forward = reading.direction == Direction.A_TO_B;
        boolean longer = reading.band.longer();
        int leg = campaign.site.handling == Site.Handling.ARRAY ? reading.fibre - 1 : 0;
        CordSet cords = reading.session.cords;
        double expected =
            fibre.throughDb()[reading.band.index()]
                + campaign.world.matedDb(
                    reading.link.kind(),
                    cords.launch(reading.direction).tips.get(leg),
                    forward ? fibre.a() : fibre.b(),
                    longer)
                + campaign.world.matedDb(
                    reading.link.kind(),
                    cords.receive(reading.direction).tips.get(leg),
                    forward ? fibre.b() : fibre.a(),
                    longer)
                - reading.session.level(reading.direction, reading.band).takenOutDb;
        double off = reading.lossDb() - expected;
        assertThat(off).isEqualTo(0, within(0.35));
        sum += off;
        count++;
      }
      assertThat(sum / count).isEqualTo(0, within(0.06));
    }
  }

  @Test
  void verificationsLieInTheirWindowsAndAreNotNothingEverywhere() {
    for (Campaign campaign : campaigns()) {
      for (Session session : campaign.sessions) {
        double[] window = CordSet.window(session.method, session.kind());
        for (Session.Level level : session.levels) {
          assertThat(level.verificationDb.orElseThrow()).isBetween(window[0], window[1]);
        }
        assertThat(session.levels.stream().allMatch(l -> l.verificationDb.orElseThrow() == 0))
            .isFalse();
      }
    }
  }

  @Test
  void readingsFollowTheirZeroWithinAShiftAndAnInstrumentNeverReadsTwoLinksAtOnce() {
    for (Campaign campaign : campaigns()) {
      Job job = campaign.job();
      Map<String, ZeroLevel> levels = new HashMap<>();
      for (Zero zero : job.zeros()) {
        zero.levels().forEach(l -> levels.put(zero.id() + l.direction() + l.wavelength(), l));
      }
      for (Reading reading : job.readings()) {
        ZeroLevel level =
            Objects.requireNonNull(
                levels.get(reading.reference() + reading.direction() + reading.wavelength()));
        assertThat(reading.measuredAt()).isAfter(level.setAt());
        assertThat(Duration.between(level.setAt(), reading.measuredAt()))
            .isLessThan(Duration.ofHours(12));
        if (reading.hasPower() && reading.hasLoss()) {
          assertThat(reading.contradicts(level.power().value())).isFalse();
        }
      }
      for (int crew = 0; crew < 2; crew++) {
        Instant last = Instant.MIN;
        for (Session session : campaign.sessions) {
          if (session.crew == crew) {
            for (Session.Level level : session.levels) {
              assertThat(level.setAt).isAfter(last);
            }
            for (RawReading reading : session.readings) {
              assertThat(reading.at).isAfterOrEqualTo(last);
              last = reading.at;
            }
          }
        }
      }
    }
  }
}
