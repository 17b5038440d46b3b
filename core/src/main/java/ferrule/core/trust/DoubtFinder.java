package ferrule.core.trust;

import java.util.function.Consumer;

/**
 * Looks for one family of doubts. A finder is pure: the same ledger gives the same doubts in the
 * same order. A new kind of doubt is a new finder that {@link Judge} asks.
 */
@FunctionalInterface
public interface DoubtFinder {

  /**
   * Hands every doubt it finds to {@code out}.
   *
   * @param ledger the readings, resolved and decided
   * @param out takes the doubts
   */
  void find(Ledger ledger, Consumer<Doubt> out);
}
