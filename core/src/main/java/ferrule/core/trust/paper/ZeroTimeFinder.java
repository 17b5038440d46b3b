package ferrule.core.trust.paper;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * {@code zero-lapsed}: readings taken before their zero was set, after it lapsed, after the same
 * source was zeroed again for the same direction and wavelength, or with no zero on record for
 * their case. Pure logic of times.
 */
public final class ZeroTimeFinder implements DoubtFinder {

  private enum Lapse {
    NO_ZERO("no zero of this name is on record"),
    NO_LEVEL("the zero holds no power for this direction and wavelength"),
    BEFORE("readings were taken before it was set"),
    AFTER("readings were taken after it lapsed"),
    REPLACED("its source had been zeroed again");

    final String words;

    Lapse(String words) {
      this.words = words;
    }
  }

  private record Key(String reference, Lapse lapse) {}

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    Replacements replacements = new Replacements(ledger);
    Duration validFor = ledger.requirement().settings().zeroValidFor();
    Map<Key, List<AssessedReading>> lapsed = new LinkedHashMap<>();
    List<AssessedReading> suspects = new ArrayList<>(ledger.withoutLevel());
    for (Zero zero : ledger.job().zeros()) {
      for (ZeroLevel level : zero.levels()) {
        if (lapse(level, ledger.byLevel().earliest(level), validFor, replacements) != null
            || lapse(level, ledger.byLevel().latest(level), validFor, replacements) != null) {
          suspects.addAll(ledger.byLevel().of(level));
        }
      }
    }
    suspects.sort(Comparator.comparingInt(AssessedReading::index));
    for (AssessedReading reading : suspects) {
      Lapse lapse = lapse(reading, validFor, replacements);
      if (lapse != null) {
        lapsed
            .computeIfAbsent(new Key(reading.reading().reference(), lapse), k -> new ArrayList<>())
            .add(reading);
      }
    }
    lapsed.forEach((key, reach) -> out.accept(doubt(key, reach, validFor)));
  }

  private static @Nullable Lapse lapse(
      AssessedReading reading, Duration validFor, Replacements replacements) {
    if (reading.zero().isEmpty()) {
      return Lapse.NO_ZERO;
    }
    if (reading.level().isEmpty()) {
      return Lapse.NO_LEVEL;
    }
    return lapse(reading.level().get(), reading.reading().measuredAt(), validFor, replacements);
  }

  private static @Nullable Lapse lapse(
      ZeroLevel level, Instant at, Duration validFor, Replacements replacements) {
    if (at.isBefore(level.setAt())) {
      return Lapse.BEFORE;
    }
    Optional<Instant> replaced = replacements.zeroedAgain(level);
    if (replaced.isPresent() && !at.isBefore(replaced.get())) {
      return Lapse.REPLACED;
    }
    return Duration.between(level.setAt(), at).compareTo(validFor) > 0 ? Lapse.AFTER : null;
  }

  private static Doubt doubt(Key key, List<AssessedReading> reach, Duration validFor) {
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(Evidence.of("what", key.lapse().words));
    evidence.add(Evidence.of("readings", reach.size()));
    AssessedReading first = reach.get(0);
    first.level().ifPresent(l -> evidence.add(Evidence.of("set_at", l.setAt().toString())));
    evidence.add(
        Evidence.of(
            "first_reading_at",
            reach.stream()
                .map(r -> r.reading().measuredAt())
                .min(Instant::compareTo)
                .orElseThrow()
                .toString()));
    evidence.add(
        Evidence.of(
            "last_reading_at",
            reach.stream()
                .map(r -> r.reading().measuredAt())
                .max(Instant::compareTo)
                .orElseThrow()
                .toString()));
    evidence.add(Evidence.of("valid_hours", validFor.toMinutes() / 60.0));
    boolean absent = key.lapse() == Lapse.NO_ZERO || key.lapse() == Lapse.NO_LEVEL;
    return new Doubt(
        DoubtKind.ZERO_LAPSED,
        Subject.reference(key.reference()),
        true,
        Reach.of(reach),
        evidence,
        absent
            ? Causes.ranked(
                "the zero was set and not handed in",
                "the readings name another zero",
                "no zero was set for this case")
            : Causes.ranked(
                "the readings name another zero than the one used",
                "a clock was wrong",
                "the crew went on without a new zero"),
        absent
            ? new NextStep(
                    "papers:" + key.reference() + ":" + key.lapse(),
                    "Find the missing powers of zero "
                        + key.reference()
                        + " and hand them in; if there are none, set a zero and retest",
                    Steps.commonPlace(reach),
                    Handling.LOOK_UP)
                .withResults(
                    "An instrument or a note holds the powers, from before the first reading",
                    "Nothing holds them: set a zero and retest")
            : Steps.retest(
                    "retest:" + key.reference() + ":" + key.lapse(),
                    "Zero " + key.reference() + " did not hold",
                    reach)
                .withResults(
                    "The retests agree with the readings on record"
                        + Steps.withinChance(reach)
                        + ": a zero that held was used",
                    "They differ by more: the readings stand without a zero"));
  }
}
