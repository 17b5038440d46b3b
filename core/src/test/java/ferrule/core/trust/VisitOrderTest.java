package ferrule.core.trust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class VisitOrderTest {

  private static final double SET_UP = 20;
  private static final int CASES = 600;

  /** Small random work: at most seven deeds at three places or anywhere. */
  private static Workload random(long seed, int most) {
    Random random = new Random(seed);
    int deeds = 2 + random.nextInt(most - 1);
    double[] minutes = random.doubles(deeds, 1, 40).map(Math::rint).toArray();
    int[] place = random.ints(deeds, 0, 4).toArray();
    int[][] needs = new int[deeds][0];
    for (int deed = 1; deed < deeds; deed++) {
      int need = random.nextInt(deed);
      if (random.nextInt(4) == 0) {
        needs[deed] = new int[] {need};
      }
    }
    int[][] groups = new int[deeds + random.nextInt(deeds)][];
    for (int group = 0; group < groups.length; group++) {
      int own = group < deeds ? group : random.nextInt(deeds);
      int waits = group < deeds ? random.nextInt(2) : 1 + random.nextInt(2);
      Set<Integer> set = new HashSet<>(Set.of(own));
      for (int i = 0; i < waits; i++) {
        set.add(random.nextInt(deeds));
      }
      groups[group] = set.stream().mapToInt(Integer::intValue).sorted().toArray();
    }
    int[] fibres = random.ints(groups.length, 1, 5).map(x -> x * x * x).toArray();
    return new Workload(minutes, place, needs, groups, fibres, SET_UP);
  }

  private static boolean keepsNeeds(Workload work, int[] order) {
    List<Integer> list = Arrays.stream(order).boxed().toList();
    return IntStream.range(0, order.length)
        .allMatch(
            i ->
                Arrays.stream(work.needs[order[i]])
                    .allMatch(need -> list.subList(0, i).contains(need)));
  }

  private static int visits(Workload work, int[] order) {
    return (int)
        IntStream.range(0, order.length)
            .filter(i -> i == 0 || work.place[order[i]] != work.place[order[i - 1]])
            .count();
  }

  /** The least waiting of all orders that keep all needs. */
  private static double least(Workload work) {
    return least(work, new ArrayList<>(), new boolean[work.deeds()]);
  }

  private static double least(Workload work, List<Integer> order, boolean[] done) {
    if (order.size() == work.deeds()) {
      return work.waiting(VisitOrder.array(order));
    }
    double least = Double.POSITIVE_INFINITY;
    for (int deed = 0; deed < work.deeds(); deed++) {
      if (!done[deed] && Arrays.stream(work.needs[deed]).allMatch(need -> done[need])) {
        done[deed] = true;
        order.add(deed);
        least = Math.min(least, least(work, order, done));
        order.remove(order.size() - 1);
        done[deed] = false;
      }
    }
    return least;
  }

  /**
   * The rule for weighted set cover alone, blind to walking: the deed with most fibres a minute.
   */
  private static int[] blindGreedy(Workload work) {
    List<Integer> order = new ArrayList<>();
    while (order.size() < work.deeds()) {
      int best = -1;
      double bestScore = -1;
      for (int deed = 0; deed < work.deeds(); deed++) {
        double score = 0;
        for (int group : work.groupsOf[deed]) {
          long waits = Arrays.stream(work.groups[group]).filter(d -> !order.contains(d)).count();
          score += (double) work.fibres[group] / waits;
        }
        score /= work.minutes[deed];
        boolean able =
            !order.contains(deed)
                && Arrays.stream(work.needs[deed]).allMatch(need -> order.contains(need));
        if (able && score > bestScore) {
          best = deed;
          bestScore = score;
        }
      }
      order.add(best);
    }
    return VisitOrder.array(order);
  }

  /** The same, each place visited once, in the order in which the rule comes to them. */
  private static int[] blindGreedyByPlace(Workload work) {
    int[] blind = blindGreedy(work);
    return Arrays.stream(blind)
        .map(deed -> work.place[deed])
        .distinct()
        .flatMap(place -> Arrays.stream(blind).filter(d -> work.place[d] == place))
        .toArray();
  }

  private static double greedy(Workload work) {
    return Stream.of(
            GreedyOrder.staying(work), GreedyOrder.leaving(work), GreedyOrder.blindToWalking(work))
        .mapToDouble(work::waiting)
        .min()
        .orElseThrow();
  }

  @Test
  void onSmallWorkItIsNeverWorseThanGreedyAndMostlyTheBestThereIs() {
    int best = 0;
    int greedyBest = 0;
    double over = 0;
    double greedyOver = 0;
    double blindOver = 0;
    for (int seed = 0; seed < CASES; seed++) {
      Workload work = random(seed, 7);
      double waiting = work.waiting(VisitOrder.of(work));
      double greedy = greedy(work);
      double blind = work.waiting(blindGreedy(work));
      int[] byPlace = blindGreedyByPlace(work);
      double least = least(work);
      assertThat(waiting).as("seed %d", seed).isGreaterThanOrEqualTo(least - 1e-6);
      assertThat(waiting)
          .as("seed %d", seed)
          .isLessThanOrEqualTo(greedy + 1e-6)
          .isLessThanOrEqualTo(blind + 1e-6);
      if (keepsNeeds(work, byPlace)) {
        assertThat(waiting).as("seed %d", seed).isLessThanOrEqualTo(work.waiting(byPlace) + 1e-6);
      }
      best += waiting < least + 1e-6 ? 1 : 0;
      greedyBest += greedy < least + 1e-6 ? 1 : 0;
      over += waiting / least - 1;
      greedyOver += greedy / least - 1;
      blindOver += blind / least - 1;
    }
    assertThat(best).isGreaterThan(CASES * 97 / 100).isGreaterThan(greedyBest);
    assertThat(over / CASES).isLessThan(0.001);
    assertThat(greedyOver / CASES).isGreaterThan(0.01);
    assertThat(blindOver).isGreaterThan(greedyOver);
  }

  @Test
  void everyDeedIsDoneOnceAndAfterWhatItNeeds() {
    for (int seed = 0; seed < CASES; seed++) {
      Workload work = random(seed, 40);
      int[] order = VisitOrder.of(work);
      assertThat(Arrays.stream(order).sorted())
          .containsExactlyElementsOf(IntStream.range(0, work.deeds()).boxed().toList());
      assertThat(keepsNeeds(work, order)).as("seed %d", seed).isTrue();
      assertThat(work.waiting(order)).isLessThanOrEqualTo(greedy(work) + 1e-6);
    }
  }

  /** Two places with a deed that frees many, and with ten that free one each in some minutes. */
  private static Workload twoPlaces(double cleaning) {
    double[] minutes = new double[22];
    int[] place = new int[22];
    int[][] groups = new int[22][];
    int[] fibres = new int[22];
    for (int deed = 0; deed < 22; deed++) {
      boolean reZero = deed % 11 == 0;
      minutes[deed] = reZero ? 40 : cleaning;
      place[deed] = 1 + deed / 11;
      groups[deed] = new int[] {deed};
      fibres[deed] = reZero ? 40 : 1;
    }
    return new Workload(minutes, place, new int[22][0], groups, fibres, SET_UP);
  }

  @Test
  void aPlaceIsDoneInOneVisitWhereThatCostsLittle() {
    Workload work = twoPlaces(1);
    assertThat(visits(work, VisitOrder.of(work))).isEqualTo(2);
  }

  @Test
  void aPlaceIsLeftWhereManyFibresWaitElsewhereAndMuchTimeGoesForFew() {
    Workload work = twoPlaces(15);
    int[] order = VisitOrder.of(work);
    assertThat(visits(work, order)).isEqualTo(3);
    assertThat(Arrays.copyOf(order, 2)).containsExactlyInAnyOrder(0, 11);
    assertThat(Arrays.copyOfRange(order, 2, 12)).isSorted();
  }

  @Test
  void aSecondVisitIsMadeOnlyWhereDeedsElsewhereMustComeBetween() {
    // 0 at A before 1 at B, 2 at B before 3 at A: neither place can be done in one go.
    Workload work =
        new Workload(
            new double[] {5, 5, 5, 5},
            new int[] {1, 2, 2, 1},
            new int[][] {{}, {0}, {}, {2}},
            new int[][] {{0}, {1}, {2}, {3}},
            new int[] {1, 1, 1, 1},
            SET_UP);
    int[] order = VisitOrder.of(work);
    assertThat(visits(work, order)).isEqualTo(3);
    assertThat(keepsNeeds(work, order)).isTrue();
  }

  @Test
  void theWaitingIsTheAreaAboveTheCurveOfFibresFreedAndTheEndOfAll() {
    // 20 to set up at A; ten fibres after 5 more, two after 10 more; 20 to B, one after 8 more.
    Workload work =
        new Workload(
            new double[] {5, 10, 8},
            new int[] {1, 1, 2},
            new int[][] {{}, {}, {}},
            new int[][] {{0}, {0, 1}, {2}},
            new int[] {10, 2, 1},
            SET_UP);
    int[] order = VisitOrder.of(work);
    assertThat(order).containsExactly(0, 1, 2);
    assertThat(work.waiting(order)).isCloseTo(10 * 25 + 2 * 35 + 63 + 13 * 63, within(1e-9));
  }

  @Test
  void twoDeedsThatOnlyTogetherFreeManyComeBeforeOneThatFreesFew() {
    // Greedy takes deed 2 first: 10 a minute against 9 for each of the pair.
    Workload work =
        new Workload(
            new double[] {1, 1, 1, 4},
            new int[] {1, 1, 1, 1},
            new int[][] {{}, {}, {}, {}},
            new int[][] {{0, 1, 3}, {2}, {0, 3}, {1}},
            new int[] {30, 10, 6, 1},
            SET_UP);
    double least = least(work);
    assertThat(work.waiting(VisitOrder.of(work))).isCloseTo(least, within(1e-9));
  }

  @Test
  void workOfAHundredThousandDeedsIsOrderedToo() {
    int deeds = 100_000;
    Random random = new Random(5);
    double[] minutes = random.doubles(deeds, 1, 40).toArray();
    int[] place = random.ints(deeds, 0, 3000).toArray();
    int[][] groups = new int[deeds][];
    for (int group = 0; group < deeds; group++) {
      int other = random.nextInt(deeds);
      groups[group] = other == group ? new int[] {group} : new int[] {group, other};
    }
    int[] fibres = random.ints(deeds, 1, 30).toArray();
    Workload work = new Workload(minutes, place, new int[deeds][0], groups, fibres, SET_UP);
    int[] order = VisitOrder.of(work);
    assertThat(Arrays.stream(order).distinct().count()).isEqualTo(deeds);
    assertThat(work.waiting(order)).isLessThanOrEqualTo(greedy(work));
  }
}
