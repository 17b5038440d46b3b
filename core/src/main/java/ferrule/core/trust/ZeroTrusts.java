package ferrule.core.trust;

import ferrule.core.trust.Subject.Type;
import ferrule.core.trust.paper.Replacements;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/**
 * How far zeros can be trusted: in one word, and over time.
 *
 * <p>Over time the worst of what holds at a moment is said. A zero is fresh when set (its
 * verification has no time of its own on record, it is taken to follow at once), verified from the
 * first reading under it on, ageing once it is older than the job lets it go without another
 * verification. A doubt about it makes it doubtful or broken: from the start, for a zero that is
 * wrong is so from the start; a step from its moment on; a lapse from the end of the zero, or from
 * the first reading that came at the wrong time. It ends when its last level ends, {@link
 * Replacements#endOf}.
 *
 * <p>The one word is the worst of these while the zero held, but for two things: it ages only if
 * readings go on, and readings at the wrong time age it, for the zero was good while it held.
 */
final class ZeroTrusts {

  private static final String GOOD = "Verified within its window in every direction and wavelength";

  private final Ledger ledger;
  private final Replacements replacements;
  private final Duration every;

  private ZeroTrusts(Ledger ledger) {
    this.ledger = ledger;
    this.replacements = new Replacements(ledger);
    this.every = ledger.requirement().settings().verifyEvery();
  }

  /** The trust of every zero, in the order on record. */
  static List<ZeroTrust> of(Ledger ledger, List<Doubt> doubts) {
    Map<String, List<Doubt>> byZero = new HashMap<>();
    for (Doubt doubt : doubts) {
      if (doubt.subject().type() == Type.REFERENCE) {
        byZero.computeIfAbsent(doubt.subject().id(), k -> new ArrayList<>()).add(doubt);
      }
    }
    ZeroTrusts trusts = new ZeroTrusts(ledger);
    List<ZeroTrust> all = new ArrayList<>();
    for (Zero zero : ledger.job().zeros()) {
      all.add(trusts.of(zero, byZero.getOrDefault(zero.id(), List.of())));
    }
    return all;
  }

  private ZeroTrust of(Zero zero, List<Doubt> own) {
    int readings = 0;
    Duration oldest = Duration.ZERO;
    for (ZeroLevel level : zero.levels()) {
      readings += ledger.byLevel().of(level).size();
      Duration age = Duration.between(level.setAt(), ledger.byLevel().latest(level));
      oldest = age.compareTo(oldest) > 0 ? age : oldest;
    }
    List<String> reasons = new ArrayList<>();
    own.forEach(doubt -> reasons.add(doubt.line()));
    Trust trust = worst(own);
    if (trust == Trust.VERIFIED) {
      reasons.add(GOOD);
      if (readings == 0) {
        trust = Trust.FRESH;
      } else if (oldest.compareTo(every) > 0) {
        trust = Trust.AGEING;
        reasons.add(
            "Readings go on for " + hours(oldest) + " h after it was set; " + verifyAtBreaks());
      }
    }
    return new ZeroTrust(zero, trust, reasons, readings, spans(zero, own));
  }

  private String verifyAtBreaks() {
    return "verify at every break, " + hours(every) + " h at most";
  }

  /** What the doubts about a zero leave of it. */
  private static Trust worst(List<Doubt> own) {
    Trust worst = Trust.VERIFIED;
    for (Doubt doubt : own) {
      Trust left = doubt.kind() == DoubtKind.ZERO_LAPSED ? Trust.AGEING : left(doubt);
      worst = left.compareTo(worst) > 0 ? left : worst;
    }
    return worst;
  }

  /** What a doubt about a zero leaves of it, from its moment on. */
  private static Trust left(Doubt doubt) {
    return switch (doubt.kind()) {
      // The zero was good while it held; what came at the wrong time has nothing to stand on.
      case ZERO_UNVERIFIED, ZERO_LAPSED -> Trust.DOUBTFUL;
      default -> doubt.blocking() ? Trust.BROKEN : Trust.DOUBTFUL;
    };
  }

  // -- over time

  private List<TrustSpan> spans(Zero zero, List<Doubt> own) {
    Instant set = zero.setAt();
    Instant end = set;
    Instant start = set;
    Instant lastRead = set;
    Instant firstRead = Instant.MAX;
    for (ZeroLevel level : zero.levels()) {
      end = later(end, replacements.endOf(level));
      start = earlier(start, ledger.byLevel().earliest(level));
      lastRead = later(lastRead, ledger.byLevel().latest(level));
      for (AssessedReading reading : ledger.byLevel().of(level)) {
        firstRead = earlier(firstRead, later(set, reading.reading().measuredAt()));
      }
    }
    Instant stop = later(end, lastRead);
    List<TrustSpan> claims = new ArrayList<>();
    for (Doubt doubt : own) {
      if (doubt.kind() == DoubtKind.ZERO_LAPSED) {
        lapse(doubt, set, end, start, stop, claims);
      } else {
        claims.add(new TrustSpan(from(doubt, start), stop, left(doubt), doubt.line()));
      }
    }
    Instant aged = set.isAfter(Instant.MAX.minus(every)) ? Instant.MAX : set.plus(every);
    claims.add(
        new TrustSpan(
            aged,
            stop,
            Trust.AGEING,
            "Set more than " + hours(every) + " h before; " + verifyAtBreaks()));
    claims.add(new TrustSpan(firstRead, stop, Trust.VERIFIED, GOOD));
    claims.add(new TrustSpan(start, stop, Trust.FRESH, GOOD + "; no reading under it yet"));
    return worstOf(claims, start, stop);
  }

  /** Readings before it was set, and readings after its end. */
  private static void lapse(
      Doubt doubt, Instant set, Instant end, Instant start, Instant stop, List<TrustSpan> claims) {
    Instant from = Instant.MAX;
    for (AssessedReading reading : doubt.reach().readings()) {
      if (reading.level().isEmpty()) {
        continue;
      }
      Instant at = reading.reading().measuredAt();
      if (at.isBefore(reading.level().get().setAt())) {
        Instant until = later(set, reading.level().get().setAt());
        claims.add(new TrustSpan(start, until, Trust.DOUBTFUL, doubt.line()));
        return;
      }
      from = earlier(from, at);
    }
    if (from.isBefore(Instant.MAX)) {
      claims.add(new TrustSpan(earlier(from, end), stop, Trust.DOUBTFUL, doubt.line()));
    }
  }

  /** From when on a doubt speaks. */
  private static Instant from(Doubt doubt, Instant start) {
    if (doubt.kind() != DoubtKind.LEVEL_STEP) {
      return start;
    }
    Instant first = Instant.MAX;
    for (AssessedReading reading : doubt.reach().readings()) {
      first = earlier(first, reading.reading().measuredAt());
    }
    return first.equals(Instant.MAX) ? start : first;
  }

  /** At each moment the worst claim; of claims as bad the first. */
  private static List<TrustSpan> worstOf(List<TrustSpan> claims, Instant start, Instant stop) {
    TreeSet<Instant> cuts = new TreeSet<>();
    cuts.add(start);
    for (TrustSpan claim : claims) {
      // A doubt may speak of the last moment alone: of a reading just when the source was
      // re-zeroed.
      boolean last = claim.trust().compareTo(Trust.DOUBTFUL) >= 0 && claim.from().equals(stop);
      if (last || (claim.from().isAfter(start) && claim.from().isBefore(stop))) {
        cuts.add(claim.from());
      }
      if (claim.to().isAfter(start) && claim.to().isBefore(stop)) {
        cuts.add(claim.to());
      }
    }
    List<TrustSpan> spans = new ArrayList<>();
    for (Instant cut : cuts) {
      Instant from = cut;
      Instant next = cuts.higher(from);
      Instant to = next == null ? stop : next;
      TrustSpan worst = null;
      for (TrustSpan claim : claims) {
        boolean holds = !claim.from().isAfter(from) && !claim.to().isBefore(to);
        if (holds && (worst == null || claim.trust().compareTo(worst.trust()) > 0)) {
          worst = claim;
        }
      }
      if (worst == null) {
        continue;
      }
      TrustSpan last = spans.isEmpty() ? null : spans.get(spans.size() - 1);
      if (last != null && last.trust() == worst.trust() && last.reason().equals(worst.reason())) {
        spans.remove(spans.size() - 1);
        from = last.from();
      }
      spans.add(new TrustSpan(from, to, worst.trust(), worst.reason()));
    }
    return spans;
  }

  private static Instant earlier(Instant a, Instant b) {
    return b.isBefore(a) ? b : a;
  }

  private static Instant later(Instant a, Instant b) {
    return b.isAfter(a) ? b : a;
  }

  private static String hours(Duration duration) {
    long tenths = Math.round(duration.toMinutes() / 6.0);
    return tenths / 10 + (tenths % 10 == 0 ? "" : "." + tenths % 10);
  }
}
