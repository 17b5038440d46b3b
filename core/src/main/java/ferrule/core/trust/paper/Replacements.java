package ferrule.core.trust.paper;

import ferrule.core.trust.Ledger;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;

/** When the levels of zeros gave way to later ones. */
public final class Replacements {

  private final Ledger ledger;

  /** Later levels of the same source. */
  private final Map<ZeroLevel, Instant> bySource = new IdentityHashMap<>();

  /** Later levels of the same cords whose verification is good. */
  private final Map<ZeroLevel, Instant> byCords = new IdentityHashMap<>();

  /** Looks through the zeros of a job. */
  public Replacements(Ledger ledger) {
    this.ledger = ledger;
    Map<ZeroLevel, Boolean> verified = new IdentityHashMap<>();
    for (Zero zero : ledger.job().zeros()) {
      for (ZeroLevel level : zero.levels()) {
        verified.put(level, ZeroVerificationFinder.isVerified(ledger, zero, level));
      }
    }
    next(
        level -> level.source().isEmpty() ? "" : key(level, level.source()),
        level -> true,
        bySource);
    next(
        level ->
            level.launchCord().isEmpty() || level.receiveCord().isEmpty()
                ? ""
                : key(level, level.launchCord() + "|" + level.receiveCord()),
        level -> verified.getOrDefault(level, false),
        byCords);
  }

  private static String key(ZeroLevel level, String of) {
    return of
        + "|"
        + level.direction().word()
        + "|"
        + level.wavelength().nm()
        + "|"
        + Levels.kind(level);
  }

  /** For each level, when the next one of its key that may replace it was set; no key: never. */
  private void next(
      Function<ZeroLevel, String> keys,
      Predicate<ZeroLevel> mayReplace,
      Map<ZeroLevel, Instant> at) {
    Map<String, List<ZeroLevel>> byKey = new HashMap<>();
    for (Zero zero : ledger.job().zeros()) {
      for (ZeroLevel level : zero.levels()) {
        String key = keys.apply(level);
        if (!key.isEmpty()) {
          byKey.computeIfAbsent(key, k -> new ArrayList<>()).add(level);
        }
      }
    }
    for (List<ZeroLevel> levels : byKey.values()) {
      levels.sort(Comparator.comparing(ZeroLevel::setAt).reversed());
      // From the latest to the earliest: equal times replace each other no more than themselves.
      Optional<Instant> next = Optional.empty();
      Optional<Instant> same = Optional.empty();
      for (ZeroLevel level : levels) {
        if (same.isPresent() && level.setAt().isBefore(same.get())) {
          next = same;
        }
        next.ifPresent(instant -> at.put(level, instant));
        if (mayReplace.test(level)) {
          same = Optional.of(level.setAt());
        }
      }
    }
  }

  /** When a level's source was next zeroed for the same direction and wavelength. */
  Optional<Instant> zeroedAgain(ZeroLevel level) {
    return Optional.ofNullable(bySource.get(level));
  }

  /**
   * When a level ceased to hold: its source was zeroed again, or its cords were zeroed anew and
   * verified well, or its validity was over.
   */
  public Instant endOf(ZeroLevel level) {
    Duration validFor = ledger.requirement().settings().zeroValidFor();
    Instant end =
        level.setAt().isAfter(Instant.MAX.minus(validFor))
            ? Instant.MAX
            : level.setAt().plus(validFor);
    for (Map<ZeroLevel, Instant> replaced : List.of(bySource, byCords)) {
      Instant at = replaced.get(level);
      end = at != null && at.isBefore(end) ? at : end;
    }
    return end;
  }
}
