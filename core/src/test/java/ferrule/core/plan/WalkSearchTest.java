package ferrule.core.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** The walking order: against every order there is, and never worse than the schedule's. */
class WalkSearchTest {

  private static WalkSearch random(SplittableRandom dice, int stops, int places, int setups) {
    int[] a = dice.ints(stops, 0, places).toArray();
    int[] b = dice.ints(stops, 0, places).toArray();
    int[] setup = dice.ints(stops, 0, setups).toArray();
    return new WalkSearch(a, b, setup);
  }

  /** The least minutes of any order, every one of them tried. */
  private static double bruteForce(WalkSearch search) {
    List<Integer> left = new ArrayList<>();
    for (int i = 0; i < search.stops(); i++) {
      left.add(i);
    }
    return least(search, new ArrayList<>(), left);
  }

  private static double least(WalkSearch search, List<Integer> order, List<Integer> left) {
    if (left.isEmpty()) {
      return minutes(search, order.stream().mapToInt(i -> i).toArray());
    }
    double least = Double.POSITIVE_INFINITY;
    for (Integer next : List.copyOf(left)) {
      order.add(next);
      left.remove(next);
      least = Math.min(least, least(search, order, left));
      left.add(next);
      order.remove(order.size() - 1);
    }
    return least;
  }

  private static double minutes(WalkSearch search, int... order) {
    return search.effort(order).minutes();
  }

  private static void holdsEveryStopOnce(WalkSearch search, int... order) {
    int[] sorted = order.clone();
    Arrays.sort(sorted);
    for (int i = 0; i < search.stops(); i++) {
      assertThat(sorted[i]).isEqualTo(i);
    }
    assertThat(order).hasSize(search.stops());
  }

  @Test
  void ofFewStopsTheOrderIsTheBestOfAllOrders() {
    SplittableRandom dice = new SplittableRandom(5);
    for (int run = 0; run < 150; run++) {
      WalkSearch search =
          random(dice, 1 + dice.nextInt(7), 1 + dice.nextInt(6), 1 + dice.nextInt(3));
      WalkSearch.Found found = search.best();
      holdsEveryStopOnce(search, found.order());
      assertThat(found.proved()).isTrue();
      assertThat(minutes(search, found.order())).isEqualTo(bruteForce(search));
    }
  }

  @Test
  void theSearchForManyStopsIsOnFewSeldomAboveTheBestAndNeverByMuch() {
    SplittableRandom dice = new SplittableRandom(6);
    int above = 0;
    for (int run = 0; run < 300; run++) {
      WalkSearch search = random(dice, 9, 6, 3);
      int[] order = search.searched();
      holdsEveryStopOnce(search, order);
      double best = minutes(search, search.exact());
      double found = minutes(search, order);
      assertThat(found).isGreaterThanOrEqualTo(best);
      assertThat(found).isLessThanOrEqualTo(best + 2 * WalkSearch.WALK_MINUTES);
      above += found > best ? 1 : 0;
    }
    assertThat(above).isLessThanOrEqualTo(3);
  }

  @Test
  void noOrderIsWorseThanTheSchedulesWhateverThatIs() {
    SplittableRandom dice = new SplittableRandom(7);
    for (int run = 0; run < 60; run++) {
      WalkSearch search =
          random(dice, 1 + dice.nextInt(80), 1 + dice.nextInt(12), 1 + dice.nextInt(4));
      // A schedule comes back to stops as it pleases, but names each once at least, in this order.
      List<Integer> schedule = new ArrayList<>();
      for (int i = 0; i < search.stops(); i++) {
        schedule.add(i);
        schedule.add(dice.nextInt(i + 1));
      }
      int[] listed = schedule.stream().mapToInt(i -> i).toArray();
      int[] found = search.best().order();
      holdsEveryStopOnce(search, found);
      assertThat(minutes(search, found)).isLessThanOrEqualTo(minutes(search, listed));
    }
  }

  @Test
  void goingStraightOnNeverCostsMore() {
    SplittableRandom dice = new SplittableRandom(8);
    WalkSearch search = random(dice, 40, 4, 3);
    for (int i = 0; i < 40; i++) {
      for (int j = 0; j < 40; j++) {
        assertThat(search.cost(i, j)).isEqualTo(search.cost(j, i));
        for (int k = 0; k < 40; k++) {
          assertThat(search.cost(i, k)).isLessThanOrEqualTo(search.cost(i, j) + search.cost(j, k));
        }
      }
    }
  }

  @Test
  void bothTechniciansMayChangeRoles() {
    WalkSearch search = new WalkSearch(new int[] {0, 1, 1}, new int[] {1, 2, 0}, new int[3]);
    assertThat(search.walks(0, 1)).isEqualTo(1);
    assertThat(search.walks(0, 2)).isZero();
  }

  @Test
  void aScheduleThatGoesToAndFroIsPutInOrder() {
    List<ferrule.core.plant.Link> links = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      links.add(PlanLinks.link("K%02d".formatted(i), "Hub", i % 2 == 0 ? "North" : "South"));
    }
    WalkOrder walk = WalkOrder.of(links);
    assertThat(walk.stops()).hasSize(2);
    assertThat(walk.stops().get(0).links().get(0).id()).isEqualTo("K00");
    assertThat(walk.effort().walks()).isEqualTo(3);
    assertThat(walk.schedule().walks()).isEqualTo(13);
    assertThat(walk.effort().zeros()).isEqualTo(1);
    // (3 walks x 20 + 1 zero x 10) over (13 x 20 + 10).
    assertThat(walk.ratio()).isEqualTo(70.0 / 270);
  }

  @Test
  void theSameLinksGiveTheSameOrder() {
    SplittableRandom dice = new SplittableRandom(9);
    WalkSearch search = random(dice, 60, 9, 4);
    assertThat(search.best().order()).isEqualTo(search.best().order());
  }

  @Test
  void withoutLinksThereIsNoWalk() {
    WalkOrder walk = WalkOrder.of(List.of());
    assertThat(walk.stops()).isEmpty();
    assertThat(walk.ratio()).isEqualTo(1);
  }
}
