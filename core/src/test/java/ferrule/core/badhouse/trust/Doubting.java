package ferrule.core.badhouse.trust;

import ferrule.core.badhouse.sample.Sampled;

/**
 * Wrong on purpose: knows what stands after it. Its package is not null-marked, wrong on purpose.
 */
public final class Doubting {

  /** Names it. */
  public static String all() {
    return new Sampled().toString();
  }
}
