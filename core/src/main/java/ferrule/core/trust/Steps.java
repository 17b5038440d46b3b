package ferrule.core.trust;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.zero.ZeroLevel;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Next steps that several finders share, so that one deed has one key and one wording. */
public final class Steps {

  private static final String VERIFY = "verify:";
  private static final String STEP = "step:";
  private static final String RE_ZERO = "rezero:";
  private static final String RETEST = "retest:";

  private static final String SEPARATE = "separate:";

  private Steps() {}

  /**
   * The keys of deeds that make another one needless for a fibre that waits for both: a zero set
   * anew, with everything in reach retested, settles whether the old one was good.
   */
  static List<String> settledBy(String key) {
    if (key.startsWith(VERIFY)) {
      String zero = key.substring(VERIFY.length());
      return List.of(RE_ZERO + zero, STEP + zero);
    }
    if (key.startsWith(STEP)) {
      return List.of(RE_ZERO + key.substring(STEP.length()));
    }
    return key.startsWith(RETEST) ? List.of(RE_ZERO + zeroOfRetest(key)) : List.of();
  }

  /**
   * The keys of deeds that must come first. A zero is read as it stands before its cords are
   * cleaned, its cords are cleaned before it is set anew, and it holds before anything is retested.
   */
  static List<String> needs(String key) {
    if (key.startsWith(RETEST)) {
      return ofZero(zeroOfRetest(key));
    }
    if (key.startsWith(RE_ZERO)) {
      String zero = key.substring(RE_ZERO.length());
      return List.of(VERIFY + zero, STEP + zero);
    }
    return key.startsWith(STEP) ? List.of(VERIFY + key.substring(STEP.length())) : List.of();
  }

  /** The keys of all deeds about a zero itself. */
  static List<String> ofZero(String zero) {
    return List.of(VERIFY + zero, STEP + zero, RE_ZERO + zero);
  }

  private static String zeroOfRetest(String key) {
    return key.substring(RETEST.length(), Math.max(RETEST.length(), key.lastIndexOf(':')));
  }

  /** Verify a zero as it now stands; if that fails, set it again and retest. */
  public static NextStep verify(String zero, List<AssessedReading> reach) {
    return new NextStep(
        VERIFY + zero,
        "Read the launch cord of zero "
            + zero
            + " mated to its receive cord, if it never left the source: inside the window, the"
            + " readings stand; otherwise set and verify a new zero and retest an early, a middle"
            + " and a late link",
        commonPlace(reach),
        Handling.VERIFY,
        "The cords read outside their window: the zero is off",
        "They read inside it: the zero holds");
  }

  /**
   * Verify a zero under which readings seem to lie off by one amount. Half of the amount parts
   * "off" from "holds": both results are then equally far from what is expected.
   *
   * @param shiftDb how far readings lie off, negative if too low, dB
   */
  public static NextStep verify(String zero, List<AssessedReading> reach, double shiftDb) {
    String half = Decibels.shown(Math.abs(shiftDb) / 2);
    String way = shiftDb < 0 ? " below " : " above ";
    Optional<ZeroLevel> first = mostReadVerified(reach);
    NextStep step = verify(zero, reach);
    if (first.isEmpty()) {
      return step.withResults(
          "The cords read" + way + "their window: the zero is off",
          "They read inside it: the zero holds; look at the panels that it was used on");
    }
    return step.withResults(
        "The cords read about "
            + Decibels.shown(Math.abs(shiftDb))
            + " dB"
            + way
            + "their first verification ("
            + first.get().verification().map(v -> Decibels.shown(v.value())).orElse("?")
            + " dB at "
            + first.get().wavelength()
            + " "
            + first.get().direction().word()
            + "), "
            + half
            + " at least: the zero is off",
        "They read within "
            + half
            + " dB of it: the zero holds; look at the panels that it was used on");
  }

  /** The level with a verification under which most of the readings were taken. */
  @SuppressWarnings("IdentityHashMapUsage") // the ledger holds each level once
  private static Optional<ZeroLevel> mostReadVerified(List<AssessedReading> reach) {
    Map<ZeroLevel, Integer> votes = new IdentityHashMap<>();
    ZeroLevel best = null;
    int most = 0;
    for (AssessedReading reading : reach) {
      ZeroLevel level = reading.level().orElse(null);
      if (level == null || level.verification().isEmpty()) {
        continue;
      }
      int count = votes.merge(level, 1, Integer::sum);
      if (count > most) {
        most = count;
        best = level;
      }
    }
    return Optional.ofNullable(best);
  }

  /**
   * Take the readings that tell two causes apart.
   *
   * @param instead what one would do if only one cause were possible; says where
   */
  public static NextStep separate(Separation separation, NextStep instead) {
    boolean fresh = separation.readings().stream().anyMatch(r -> r.reference().isEmpty());
    List<String> where = separation.readings().stream().map(SeparatingReading::where).toList();
    return new NextStep(
            SEPARATE + separation.first() + "|" + separation.second(),
            (fresh ? "Set and verify a new zero with other cords, and read " : "Read ")
                + String.join("; ", where)
                + ": this tells "
                + separation.first()
                + " from "
                + separation.second(),
            instead.where(),
            separation.minutes())
        .withResults(
            "They read nearer to "
                + values(separation, SeparatingReading::firstDb)
                + " dB: it is "
                + separation.first(),
            "They read nearer to "
                + values(separation, SeparatingReading::secondDb)
                + " dB: it is "
                + separation.second());
  }

  private static String values(Separation separation, ToDoubleFunction<SeparatingReading> of) {
    return separation.readings().stream()
        .map(r -> Decibels.shown(of.applyAsDouble(r)))
        .collect(Collectors.joining(", "));
  }

  /** Clean, set a zero again, verify it, and retest every link in reach. */
  public static NextStep reZero(String zero, List<AssessedReading> reach) {
    long links = links(reach);
    return new NextStep(
        RE_ZERO + zero,
        "Clean and inspect the cords of zero "
            + zero
            + ", set a new zero, verify it, and retest "
            + count(links, "link"),
        commonPlace(reach),
        Handling.RE_ZERO + links * Handling.RETEST_LINK,
        "The retests all differ from the readings on record by one amount"
            + beyondChance(reach)
            + ": the old zero was off",
        "They agree with them: the old zero was good");
  }

  /** Retest the links in reach under a zero that holds. */
  public static NextStep retest(String key, String why, List<AssessedReading> reach) {
    long links = links(reach);
    return new NextStep(
        key,
        why + ": retest " + count(links, "link") + " under a verified zero",
        commonPlace(reach),
        Math.max(1, links) * Handling.RETEST_LINK,
        "The retests agree with the readings on record" + withinChance(reach),
        "They differ from them by more");
  }

  /** Clean both ends of a fibre and retest it. */
  public static NextStep cleanAndRetest(FibreId fibre, Link link) {
    return new NextStep(
        "clean:" + fibre,
        "Clean and inspect both ends of " + fibre + " and retest it once",
        link.a().where(),
        Handling.CLEAN_AND_RETEST,
        "It reads like its neighbours once clean: it was dirt",
        "It stays as it was: a poor connection, a splice or a bend");
  }

  /** Open trays and panels and watch the reading while the fibre is relaxed. */
  public static NextStep relax(FibreId fibre, Link link) {
    return new NextStep(
        "relax:" + fibre,
        "Open the trays and panels of "
            + fibre
            + ", relax the fibre and watch the reading at the longer wavelength",
        link.a().where(),
        Handling.OPEN_TRAY,
        "It falls while the fibre is relaxed: it was a bend",
        "It does not move: clean both ends and look for a poor connection or splice");
  }

  /** Find with visible light which fibre was read. */
  public static NextStep identify(FibreId fibre, Link link) {
    return new NextStep(
        "identify:" + fibre,
        "Check with visible light which fibre carries the label "
            + fibre
            + " at the far end, and retest it",
        link.b().where(),
        Handling.IDENTIFY,
        "The light comes out elsewhere than at " + fibre + ": another fibre was read",
        "It comes out at " + fibre + ": look at the schedule and at splices");
  }

  /** "1 link", "3 links". */
  public static String count(long number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }

  /**
   * How far two readings of one thing may lie apart, dB: the root of two times the largest expanded
   * uncertainty (k = 2) in reach; NaN if none has one. Both readings are taken as independent,
   * which is on the wide side.
   */
  public static double differenceDb(List<AssessedReading> reach) {
    double most = Double.NaN;
    for (AssessedReading reading : reach) {
      double own = reading.expandedDb();
      if (Double.isFinite(own) && !(own <= most)) {
        most = own;
      }
    }
    return Math.sqrt(2) * most;
  }

  /** " within 0.21 dB", or nothing where no uncertainty is known. */
  public static String withinChance(List<AssessedReading> reach) {
    double db = differenceDb(reach);
    return Double.isNaN(db) ? "" : " within " + Decibels.shown(db) + " dB";
  }

  /** " of more than 0.21 dB", or nothing where no uncertainty is known. */
  public static String beyondChance(List<AssessedReading> reach) {
    double db = differenceDb(reach);
    return Double.isNaN(db) ? "" : " of more than " + Decibels.shown(db) + " dB";
  }

  private static long links(List<AssessedReading> reach) {
    Set<String> links = new HashSet<>();
    for (AssessedReading reading : reach) {
      links.add(reading.reading().link());
    }
    return links.size();
  }

  /** The place where most of the readings had their source; empty if none is on record. */
  public static String commonPlace(List<AssessedReading> reach) {
    Map<String, Votes> votes = new HashMap<>();
    Votes ofA = new Votes("");
    Votes ofB = ofA;
    Votes best = ofA;
    for (AssessedReading reading : reach) {
      @Nullable Link link = reading.link().orElse(null);
      if (link == null) {
        continue;
      }
      // Neighbours in a reach mostly share the places of their ends.
      LinkEnd end = reading.forward() ? link.a() : link.b();
      Votes at = reading.forward() ? ofA : ofB;
      if (!at.place.equals(end.place())) {
        at = votes.computeIfAbsent(end.place(), Votes::new);
        if (reading.forward()) {
          ofA = at;
        } else {
          ofB = at;
        }
      }
      if (!at.place.isEmpty() && ++at.count > best.count) {
        best = at;
      }
    }
    return best.place;
  }

  private static final class Votes {
    final String place;
    int count;

    Votes(String place) {
      this.place = place;
    }
  }
}
