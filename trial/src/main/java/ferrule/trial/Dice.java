package ferrule.trial;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/** Seeded draws. The same seed gives the same draws; a split never disturbs its parent's. */
final class Dice {

  private final SplittableRandom random;

  Dice(long seed) {
    this(new SplittableRandom(seed));
  }

  private Dice(SplittableRandom random) {
    this.random = random;
  }

  /** Dice of their own, so that a draw more in one place changes nothing in another. */
  Dice split() {
    return new Dice(random.split());
  }

  /** Rectangular, from {@code low} up to {@code high}. */
  double uniform(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  /** A whole number, both bounds included. */
  int whole(int low, int high) {
    return random.nextInt(low, high + 1);
  }

  boolean chance(double probability) {
    return random.nextDouble() < probability;
  }

  double normal(double mean, double sd) {
    return sd == 0 ? mean : random.nextGaussian(mean, sd);
  }

  double exponential(double mean) {
    return -mean * Math.log1p(-random.nextDouble());
  }

  /** Log-normal with this mean and standard deviation of the value itself, not of its logarithm. */
  double logNormal(double mean, double sd) {
    double squared = Math.log1p(sd * sd / (mean * mean));
    return Math.exp(normal(Math.log(mean) - squared / 2, Math.sqrt(squared)));
  }

  /** Gamma of whole shape: a sum of exponentials. */
  double gamma(int shape, double mean) {
    double sum = 0;
    for (int i = 0; i < shape; i++) {
      sum += exponential(mean / shape);
    }
    return sum;
  }

  /** Uniform in the logarithm. */
  double logUniform(double low, double high) {
    return Math.exp(uniform(Math.log(low), Math.log(high)));
  }

  /** +1 or -1. */
  int sign() {
    return chance(0.5) ? 1 : -1;
  }

  <T> T oneOf(List<T> list) {
    return list.get(random.nextInt(list.size()));
  }

  /** The same elements in a random order. */
  <T> List<T> shuffled(List<T> list) {
    List<T> copy = new ArrayList<>(list);
    for (int i = copy.size() - 1; i > 0; i--) {
      int j = random.nextInt(i + 1);
      T other = copy.get(i);
      copy.set(i, copy.get(j));
      copy.set(j, other);
    }
    return copy;
  }
}
