package ferrule.core.trust.many;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Subject;
import ferrule.core.trust.many.SimulatedSite.Fibre;
import ferrule.core.trust.many.SimulatedSite.Kind;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Planted trouble is found with its exact reach, and honest sites are left alone. */
class LengthsFinderTest {

  private static final int SITES = 200;
  private static final double FOUND = 0.98;

  /** Plants trouble and says which fibres it touches. */
  private interface Trouble extends Function<SimulatedSite, Set<String>> {}

  private static void isFound(
      DoubtKind kind,
      LongStream seeds,
      Function<Long, SimulatedSite> sites,
      Trouble trouble,
      Set<DoubtKind> besides) {
    List<String> outcomes =
        seeds
            .parallel()
            .mapToObj(seed -> outcome(kind, seed, sites.apply(seed), trouble, besides))
            .toList();
    List<String> missed = outcomes.stream().filter(o -> !o.isEmpty()).toList();
    assertThat(1 - (double) missed.size() / outcomes.size())
        .as("found; but not %s", missed)
        .isGreaterThanOrEqualTo(FOUND);
  }

  /** Empty if what was planted was found with its exact reach, and nothing else. */
  private static String outcome(
      DoubtKind kind, long seed, SimulatedSite site, Trouble trouble, Set<DoubtKind> besides) {
    Set<String> touched = trouble.apply(site);
    List<Doubt> doubts = site.doubts();
    boolean right =
        SimulatedSite.of(doubts, kind).stream()
                .anyMatch(d -> SimulatedSite.reach(d).equals(touched))
            && doubts.stream().allMatch(d -> d.kind() == kind || besides.contains(d.kind()));
    return right ? "" : seed + " " + doubts.stream().map(Doubt::line).limit(2).toList();
  }

  private static void isFound(DoubtKind kind, Trouble trouble) {
    isFound(kind, LongStream.rangeClosed(1, SITES), SimulatedSite::new, trouble, Set.of());
  }

  private static LongStream seeds(Predicate<SimulatedSite> which) {
    return LongStream.rangeClosed(1, 2 * SITES).filter(s -> which.test(new SimulatedSite(s)));
  }

  private static long silent(Function<Long, SimulatedSite> sites, int count) {
    return LongStream.rangeClosed(1, count)
        .parallel()
        .filter(seed -> sites.apply(seed).doubts().isEmpty())
        .count();
  }

  @Test
  void honestSitesAreSilent() {
    assertThat(silent(SimulatedSite::new, 600)).isGreaterThanOrEqualTo(597);
  }

  @Test
  void honestSitesOfManyKindsAreSilent() {
    // No take-up, a common 1 %, up to 2 % from cable to cable; one length only; long haul.
    List<Kind> kinds =
        List.of(
            new Kind(20, 300, 0, 0, 0.1),
            new Kind(20, 300, 0.01, 0, 0.1),
            new Kind(20, 90, 0.01, 0.01, 0.5),
            new Kind(95, 95, 0.005, 0.005, 0.5),
            new Kind(50, 60, 0.01, 0.002, 1),
            new Kind(300, 20_000, 0.01, 0.01, 1));
    for (Kind kind : kinds) {
      assertThat(silent(seed -> new SimulatedSite(seed, kind), 100))
          .as("%s", kind)
          .isGreaterThanOrEqualTo(99);
      assertThat(silent(seed -> new SimulatedSite(seed, kind).withoutLengths(), 50))
          .as("%s, no lengths", kind)
          .isEqualTo(50);
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {1.04, 1.06, 1.1, 0.95, 0.9, 3.2808, 0.3048})
  void oneRatioIsFound(double ratio) {
    isFound(
        DoubtKind.LENGTH_SCALE,
        site -> {
          site.lengths(m -> m * ratio);
          return site.names();
        });
  }

  @ParameterizedTest
  @ValueSource(doubles = {1.03, 0.97})
  void aSmallRatioIsFoundWhereTheScheduleIsNotRoundedToFiveMetres(double ratio) {
    isFound(
        DoubtKind.LENGTH_SCALE,
        seeds(site -> site.stepM <= 1),
        SimulatedSite::new,
        site -> {
          site.lengths(m -> m * ratio);
          return site.names();
        },
        Set.of());
  }

  @ParameterizedTest
  @ValueSource(doubles = {4, 10, 20, -4})
  void oneConstantIsFound(double metres) {
    isFound(
        DoubtKind.LENGTH_OFFSET,
        LongStream.rangeClosed(1, SITES),
        seed -> new SimulatedSite(seed, new Kind(30, 400, 0.005, 0.003, 0.5)),
        site -> {
          site.lengths(m -> m + metres);
          return site.names();
        },
        Set.of());
  }

  @Test
  void twoMetresAreFoundWhereLengthsScatterLittle() {
    isFound(
        DoubtKind.LENGTH_OFFSET,
        seeds(site -> site.stepM <= 1),
        seed -> new SimulatedSite(seed, new Kind(20, 300, 0.005, 0.003, 0.3)),
        site -> {
          site.lengths(m -> m + 2);
          return site.stepM > 1 ? Set.of() : site.names();
        },
        Set.of());
  }

  @Test
  void aSettingOfOneInstrumentReachesItsLengthsAlone() {
    isFound(
        DoubtKind.LENGTH_SCALE,
        site -> {
          int from = site.links.size() * 2 / 3;
          site.secondZeroFrom(site.links.get(from).id());
          site.fibres.stream().filter(f -> f.link >= from).forEach(f -> f.measuredM *= 3.2808);
          return site.names(from, site.links.size());
        });
  }

  @Test
  void whereLengthsAreAlikeARatioAndAConstantAreNotToldApart() {
    for (long seed = 1; seed <= 20; seed++) {
      SimulatedSite site = new SimulatedSite(seed, new Kind(95, 95.4, 0.005, 0, 0.3));
      List<Doubt> doubts = site.lengths(m -> m + 10).doubts();
      assertThat(doubts).hasSize(1);
      Doubt doubt = doubts.get(0);
      assertThat(doubt.kind()).isIn(DoubtKind.LENGTH_OFFSET, DoubtKind.LENGTH_SCALE);
      assertThat(doubt.blocking()).isFalse();
      assertThat(doubt.evidence()).extracting(Evidence::name).contains("cannot_be_told");
      assertThat(doubt.causes()).anyMatch(c -> c.cause().contains("after all"));
    }
  }

  @ParameterizedTest
  @CsvSource({"1,true", "1,false", "-1,true", "-1,false", "2,false", "-2,true"})
  void aPanelMovedIsFound(int lag, boolean wrap) {
    isFound(
        DoubtKind.PORT_SHIFT,
        site -> {
          int to = Math.min(24, site.links.size());
          site.shift(0, to, lag, wrap);
          return site.names(0, to);
        });
  }

  @Test
  void aSiteMovedAsAWholeIsFound() {
    isFound(
        DoubtKind.PORT_SHIFT,
        site -> {
          site.shift(0, site.links.size(), 1, true);
          return site.names();
        });
  }

  @Test
  void aRunFromASkippedPortOnIsFound() {
    isFound(
        DoubtKind.PORT_SHIFT,
        seeds(site -> site.links.size() >= 24 && site.firstTellable(8) < 18),
        SimulatedSite::new,
        site -> {
          int from = site.firstTellable(8);
          site.shift(from, 24, 1, false);
          return site.names(from, 24);
        },
        Set.of());
  }

  @Test
  void aPanelMovedIsFoundUnderARatioToo() {
    isFound(
        DoubtKind.PORT_SHIFT,
        LongStream.rangeClosed(1, SITES),
        SimulatedSite::new,
        site -> {
          site.lengths(m -> m * 1.05);
          int to = Math.min(24, site.links.size());
          site.shift(0, to, 1, true);
          return site.names(0, to);
        },
        Set.of(DoubtKind.LENGTH_SCALE));
  }

  @Test
  void aShiftBlocksAndNamesTheLagAndEveryPlaceThatItMayBeAt() {
    SimulatedSite site = new SimulatedSite(3, Kind.USUAL);
    site.shift(0, site.links.size(), 1, true);
    List<Doubt> doubts = site.doubts();
    assertThat(doubts).isNotEmpty();
    for (Doubt doubt : doubts) {
      assertThat(doubt.kind()).isEqualTo(DoubtKind.PORT_SHIFT);
      assertThat(doubt.blocking()).isTrue();
      assertThat(doubt.subject().type()).isEqualTo(Subject.Type.PLACE);
      assertThat(doubt.evidence()).contains(Evidence.of("lag", 1));
      assertThat(doubt.next().minutes()).isPositive();
    }
  }

  @Test
  void whereBothEndsHoldTheSameFibresBothPlacesAreNamed() {
    for (long seed = 1; seed <= 20; seed++) {
      SimulatedSite site = new SimulatedSite(seed, Kind.USUAL).oneRoom();
      site.shift(0, site.links.size(), 1, true);
      List<Doubt> doubts = site.doubts();
      assertThat(doubts)
          .extracting(d -> d.subject().id())
          .containsExactlyInAnyOrder("Hub", "Room 1");
      assertThat(doubts)
          .allSatisfy(
              d -> {
                assertThat(SimulatedSite.reach(d)).isEqualTo(site.names());
                assertThat(d.evidence()).extracting(Evidence::name).contains("cannot_be_told");
              });
      assertThat(doubts.get(0).next().key()).isEqualTo(doubts.get(1).next().key());
    }
  }

  @Test
  void twoCrossedFibresAreFoundAndEachReachesBoth() {
    isFound(
        DoubtKind.CROSSED,
        site -> {
          Fibre first = site.fibre(3, 1);
          Fibre second = site.fibre(site.partner(3), 1);
          site.cross(first, second);
          return new TreeSet<>(List.of(site.name(first), site.name(second)));
        });
    SimulatedSite site = new SimulatedSite(5, Kind.USUAL);
    Fibre first = site.fibre(3, 1);
    Fibre second = site.fibre(site.partner(3), 1);
    List<Doubt> doubts = site.cross(first, second).doubts();
    assertThat(doubts)
        .extracting(d -> d.subject().id())
        .containsExactly(site.name(first), site.name(second));
    assertThat(doubts)
        .allSatisfy(
            d -> {
              assertThat(d.blocking()).isTrue();
              assertThat(d.reach().readings()).hasSize(8);
              assertThat(d.next().key()).isEqualTo(doubts.get(0).next().key());
            });
  }

  @Test
  void wholeLinksCrossedArePairedFibreByFibre() {
    int checked = 0;
    for (long seed = 1; seed <= 60; seed++) {
      SimulatedSite site = new SimulatedSite(seed, Kind.USUAL);
      int other = site.partner(3);
      Set<String> reaches = new TreeSet<>();
      for (int number = 1; number <= site.fibresPerLink; number++) {
        site.cross(site.fibre(3, number), site.fibre(other, number));
        reaches.add(
            List.of(site.name(site.fibre(3, number)), site.name(site.fibre(other, number)))
                .toString());
      }
      List<Doubt> doubts = site.doubts();
      if (doubts.stream().allMatch(d -> d.kind() == DoubtKind.CROSSED)) {
        checked++;
        assertThat(doubts)
            .extracting(d -> SimulatedSite.reach(d).toString())
            .containsOnlyElementsOf(reaches);
        assertThat(doubts).hasSize(2 * site.fibresPerLink);
      }
    }
    assertThat(checked).isGreaterThanOrEqualTo(58);
  }

  @Test
  void longFibresCrossedAreFoundByTheirLossesAlone() {
    isFound(
        DoubtKind.CROSSED,
        LongStream.rangeClosed(1, 100),
        seed -> new SimulatedSite(seed, new Kind(500, 40_000, 0.005, 0.002, 0.5)).withoutLengths(),
        site -> {
          Fibre first = site.fibre(3, 1);
          int other = 4;
          while (Math.abs(site.links.get(3).lengthM() - site.links.get(other).lengthM()) < 12_000) {
            other++;
          }
          Fibre second = site.fibre(other, 1);
          site.cross(first, second);
          return new TreeSet<>(List.of(site.name(first), site.name(second)));
        },
        Set.of());
  }

  @Test
  void aLengthOfItsOwnIsAGapAndNothingElse() {
    isFound(
        DoubtKind.LENGTH_GAP,
        site -> {
          Fibre one = site.fibre(3, 1);
          one.measuredM = one.measuredM * 0.6 - 4;
          return Set.of(site.name(one));
        });
  }

  @Test
  void aGapIsJudgedAfterACommonRatioIsTakenOut() {
    isFound(
        DoubtKind.LENGTH_GAP,
        LongStream.rangeClosed(1, SITES),
        SimulatedSite::new,
        site -> {
          site.lengths(m -> m * 3.2808);
          Fibre one = site.fibre(3, 1);
          one.measuredM = one.measuredM * 0.6 - 12;
          return Set.of(site.name(one));
        },
        Set.of(DoubtKind.LENGTH_SCALE));
  }

  @Test
  void withoutPlacesNoShiftIsNamedAndTheGapsStay() {
    SimulatedSite site = new SimulatedSite(3, Kind.USUAL).withoutPlaces();
    site.shift(0, 24, 1, false);
    assertThat(site.doubts())
        .isNotEmpty()
        .extracting(Doubt::kind)
        .doesNotContain(DoubtKind.PORT_SHIFT)
        .contains(DoubtKind.LENGTH_GAP);
  }

  @ParameterizedTest
  @ValueSource(doubles = {1e9, 1e300, -1e300, -50, 0, 1e-300, Double.NaN})
  void wildLengthsAreGapsAndSpoilNothingElse(double wild) {
    for (long seed = 1; seed <= 10; seed++) {
      SimulatedSite site = new SimulatedSite(seed, Kind.USUAL).lengths(m -> m * 1.06);
      for (int link = 0; link < 5; link++) {
        site.fibre(link, 1).measuredM = wild;
      }
      List<Doubt> doubts = site.doubts();
      assertThat(SimulatedSite.of(doubts, DoubtKind.LENGTH_SCALE)).hasSize(1);
      assertThat(SimulatedSite.of(doubts, DoubtKind.LENGTH_GAP))
          .hasSize(Double.isNaN(wild) ? 0 : 5);
      areFinite(doubts);
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {1e9, 1e300, -1e300, -50, 0, 1e-300, 1e5})
  void lengthsThatAreAllWildAreNoCrash(double wild) {
    areFinite(new SimulatedSite(1, Kind.USUAL).lengths(m -> wild).doubts());
    areFinite(new SimulatedSite(2, Kind.USUAL).lengths(m -> wild).withoutPlaces().doubts());
  }

  @Test
  void theSameSiteGivesTheSameDoubts() {
    for (long seed = 1; seed <= 10; seed++) {
      SimulatedSite site = new SimulatedSite(seed).lengths(m -> m * 0.95);
      site.shift(0, 12, 1, false).cross(site.fibre(13, 1), site.fibre(site.partner(13), 1));
      var job = site.job();
      assertThat(SimulatedSite.found(job).toString().replaceAll("@[0-9a-f]+", ""))
          .isEqualTo(SimulatedSite.found(job).toString().replaceAll("@[0-9a-f]+", ""));
    }
  }

  private static void areFinite(List<Doubt> doubts) {
    for (Doubt doubt : doubts) {
      assertThat(doubt.evidence())
          .filteredOn(e -> e instanceof Evidence.Measure)
          .allSatisfy(e -> assertThat(((Evidence.Measure) e).value()).as(e.name()).isFinite());
    }
  }
}
