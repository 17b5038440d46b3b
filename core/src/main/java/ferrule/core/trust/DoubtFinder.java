package ferrule.core.trust;

import java.util.List;
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

  /**
   * How often it would ring on a perfect job of this size, if it controls the number of its looks;
   * empty for a finder that rests on facts or fixed bounds, and where there was nothing to look at.
   */
  default List<AlarmShare> alarms(Ledger ledger) {
    return List.of();
  }
}
