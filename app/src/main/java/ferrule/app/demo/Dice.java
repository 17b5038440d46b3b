package ferrule.app.demo;

import java.util.SplittableRandom;

/**
 * Chance that falls alike on every machine: sums and products of a {@link SplittableRandom}'s
 * numbers only, since the library's logarithms and cosines may differ in the last bit.
 */
final class Dice {

  private final SplittableRandom random;

  Dice(long seed) {
    this(new SplittableRandom(seed));
  }

  private Dice(SplittableRandom random) {
    this.random = random;
  }

  /** Other dice, independent of these. */
  Dice split() {
    return new Dice(random.split());
  }

  /** Even between two bounds. */
  double between(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  /** Whole, even, both bounds included. */
  int whole(int low, int high) {
    return random.nextInt(low, high + 1);
  }

  /** Mean 0, standard deviation 1, never beyond 3: the sum of three even numbers, made to fit. */
  double bell() {
    return 2 * (random.nextDouble() + random.nextDouble() + random.nextDouble() - 1.5);
  }

  /** A lateral offset whose two coordinates each have the given standard deviation. */
  Offset offset(double sd) {
    double x = bell();
    return new Offset(sd * x, sd * bell());
  }
}
