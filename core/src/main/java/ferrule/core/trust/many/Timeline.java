package ferrule.core.trust.many;

import ferrule.core.trust.Ledger;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The times of a ledger's readings, and what is wrong with the clocks that kept them: worked out
 * once, when a finder first asks, for all finders that ask. Finders may ask at the same time.
 */
public final class Timeline {

  private final Ledger ledger;
  private @Nullable Moments moments;
  private @Nullable List<Checked> clocks;

  /** A clock, and its times that cannot be right. */
  record Checked(Clock clock, Optional<ImpossibleTimes> impossible) {}

  /** The times of a ledger. */
  public Timeline(Ledger ledger) {
    this.ledger = ledger;
  }

  /** When and where every reading was taken. */
  synchronized Moments moments() {
    Moments known = moments;
    if (known == null) {
      known = new Moments(ledger);
      moments = known;
    }
    return known;
  }

  /** The clocks of all instruments, in the order in which they are first named. */
  synchronized List<Checked> clocks() {
    List<Checked> known = clocks;
    if (known == null) {
      ImpossibleTimes.Search search = new ImpossibleTimes.Search(ledger, moments());
      known =
          Instruments.clocks(ledger, moments()).stream()
              .map(clock -> new Checked(clock, search.in(clock)))
              .toList();
      clocks = known;
    }
    return known;
  }
}
