package ferrule.core.trust.many;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.uncertainty.OrderStats;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class RanksTest {

  /** Values of both signs and all sizes, with many that are equal. */
  private static double[] values(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double[] values = new double[1 + random.nextInt(60)];
    for (int i = 0; i < values.length; i++) {
      values[i] =
          random.nextInt(3) == 0
              ? random.nextInt(4) - 2
              : (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(12));
    }
    return values;
  }

  @Test
  void theOrderIsThatOfTheValues() {
    for (long seed = 0; seed < 500; seed++) {
      double[] values = values(seed);
      double[] sorted = values.clone();
      Arrays.sort(sorted);
      double[] ordered =
          Arrays.stream(Ranks.ascending(values)).mapToDouble(i -> values[i]).toArray();
      assertThat(ordered).containsExactly(sorted);
    }
  }

  @Test
  void everyRankIsSelected() {
    for (long seed = 0; seed < 500; seed++) {
      double[] values = values(seed);
      double[] sorted = values.clone();
      Arrays.sort(sorted);
      for (int rank = 0; rank < sorted.length; rank++) {
        assertThat(OrderStats.select(values.clone(), sorted.length, rank)).isEqualTo(sorted[rank]);
      }
      int half = sorted.length / 2;
      double middle =
          sorted.length % 2 == 1 ? sorted[half] : sorted[half] / 2 + sorted[half - 1] / 2;
      assertThat(Ranks.median(values.clone(), sorted.length)).isEqualTo(middle);
    }
    assertThat(Ranks.median(new double[0], 0)).isNaN();
  }

  @Test
  void ofManyValuesTheRanksAreThoseOfTheSortedValues() {
    for (long seed = 0; seed < 40; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      int distinct = random.nextInt(1, 9000);
      double[] values = random.doubles(601 + random.nextInt(9000)).toArray();
      for (int i = 0; i < values.length; i++) {
        // Many ties, ascending, descending or in no order.
        double value = Math.floor(values[i] * distinct) - distinct / 3;
        values[i] = seed % 4 == 0 ? i / 3 : seed % 4 == 1 ? -i : value;
      }
      double[] sorted = values.clone();
      Arrays.sort(sorted);
      for (double share : new double[] {0, 0.001, 0.05, 0.25, 0.5, 0.77, 0.999, 1}) {
        int rank = (int) (share * (sorted.length - 1));
        assertThat(OrderStats.select(values.clone(), sorted.length, rank)).isEqualTo(sorted[rank]);
        assertThat(OrderStats.quantileInPlace(values.clone(), sorted.length, share))
            .isEqualTo(OrderStats.quantile(sorted, share));
      }
    }
  }

  @Test
  void theSpreadIsThatOfTheSortedValues() {
    for (long seed = 0; seed < 500; seed++) {
      double[] values = values(seed);
      double[] before = values.clone();
      double[] sorted = values.clone();
      Arrays.sort(sorted);
      double centre = OrderStats.quantile(sorted, 0.5);
      double[] away = Arrays.stream(values).map(v -> Math.abs(v - centre)).sorted().toArray();
      assertThat(OrderStats.spread(values))
          .isEqualTo(OrderStats.SD_OVER_MAD * OrderStats.quantile(away, 0.5));
      assertThat(values).containsExactly(before);
    }
  }

  @Test
  void countingBetweenTakesBothBoundsIn() {
    double[] ascending = {1, 2, 2, 3, 5};
    assertThat(Ranks.between(ascending, 2, 3)).isEqualTo(3);
    assertThat(Ranks.between(ascending, 6, 9)).isZero();
    assertThat(Ranks.between(ascending, 4, 3)).isZero();
    assertThat(Ranks.below(ascending, 2)).isEqualTo(1);
  }
}
