package ferrule.core.trust.paper;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.ByLevel;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.LinkLook;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.zero.Method;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * {@code zero-mismatch}: the zero's method, fibre, connectors, cord grade or stored power do not
 * fit the requirement, the links read under it, or the readings themselves. One doubt for each zero
 * and aspect; an ordinary cord only widens the limit at its end and blocks nothing.
 */
public final class ZeroMismatchFinder implements DoubtFinder {

  private enum Aspect {
    METHOD,
    CORE,
    CONNECTOR,
    STORED_POWER,
    CORD_GRADE
  }

  private static final class Found {
    final String what;
    final Set<AssessedReading> reach = Collections.newSetFromMap(new IdentityHashMap<>());

    Found(String what) {
      this.what = what;
    }
  }

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    ByLevel byLevel = ledger.byLevel();
    for (Zero zero : ledger.job().zeros()) {
      Map<Aspect, Found> found = new EnumMap<>(Aspect.class);
      if (zero.method() != ledger.requirement().method()) {
        method(ledger, zero, byLevel, found);
      }
      for (ZeroLevel level : zero.levels()) {
        new LevelCheck(ledger, zero, level, found).check(byLevel);
      }
      found.forEach((aspect, f) -> out.accept(doubt(ledger, zero, aspect, f)));
    }
  }

  private static void method(Ledger ledger, Zero zero, ByLevel byLevel, Map<Aspect, Found> found) {
    Method asked = ledger.requirement().method();
    Found f =
        new Found(
            "set with "
                + zero.method().word()
                + ", "
                + asked.word()
                + " is required: readings hold "
                + Steps.count(zero.method().endConnections(), "end connection")
                + " instead of "
                + asked.endConnections());
    f.reach.addAll(byLevel.of(zero, l -> true));
    found.put(Aspect.METHOD, f);
  }

  /** Checks of one level, each remembered for links that look the same to it. */
  private static final class LevelCheck {
    private final Ledger ledger;
    private final ZeroLevel level;
    private final Map<Aspect, Found> found;
    private final Map<LinkLook, Map<Aspect, String>> verdicts = new HashMap<>();

    LevelCheck(Ledger ledger, Zero zero, ZeroLevel level, Map<Aspect, Found> found) {
      this.ledger = ledger;
      this.level = level;
      this.found = found;
    }

    void check(ByLevel byLevel) {
      boolean fits = !byLevel.contradicted(level);
      for (LinkLook look : byLevel.looks(level)) {
        fits &= verdicts.computeIfAbsent(look, this::mismatches).isEmpty();
      }
      if (!fits) {
        check(byLevel.of(level));
      }
    }

    private void check(List<AssessedReading> readings) {
      Link last = null;
      Map<Aspect, String> verdict = Map.of();
      for (AssessedReading reading : readings) {
        if (reading.contradictsZero()) {
          add(Aspect.STORED_POWER, storedPower(reading), reading);
        }
        Link link = reading.link().orElse(null);
        if (link == null) {
          continue;
        }
        if (link != last) {
          last = link;
          LinkLook look =
              new LinkLook(
                  link.category(),
                  link.entry(level.direction()).connector(),
                  link.exit(level.direction()).connector());
          verdict = verdicts.computeIfAbsent(look, this::mismatches);
        }
        if (!verdict.isEmpty()) {
          verdict.forEach((aspect, what) -> add(aspect, what, reading));
        }
      }
    }

    private void add(Aspect aspect, String what, AssessedReading reading) {
      found.computeIfAbsent(aspect, k -> new Found(what)).reach.add(reading);
    }

    private String storedPower(AssessedReading reading) {
      return "power and loss of "
          + reading.reading().fibreId()
          + " contradict its stored power: "
          + Decibels.shown(level.power().value())
          + " dBm less "
          + Decibels.shown(reading.reading().powerDbm())
          + " dBm is not "
          + Decibels.shown(reading.reading().lossDb())
          + " dB";
    }

    private Map<Aspect, String> mismatches(LinkLook looks) {
      Map<Aspect, String> verdict = new EnumMap<>(Aspect.class);
      level
          .category()
          .filter(c -> !c.sameCoreAs(looks.category()))
          .ifPresent(
              c ->
                  verdict.put(
                      Aspect.CORE,
                      "zero set with "
                          + c.label()
                          + " cords, links are "
                          + looks.category().label()));
      cord(level.launchCord(), "launch", looks.category(), looks.entry(), verdict);
      cord(level.receiveCord(), "receive", looks.category(), looks.exit(), verdict);
      return verdict;
    }

    private void cord(
        String id,
        String role,
        FibreCategory linkCategory,
        Connector linkConnector,
        Map<Aspect, String> verdict) {
      Cord cord = ledger.cord(id).orElse(null);
      if (cord == null) {
        return;
      }
      String name = role + " cord " + id;
      if (!cord.category().sameCoreAs(linkCategory)) {
        verdict.putIfAbsent(
            Aspect.CORE,
            name + " is " + cord.category().label() + ", links are " + linkCategory.label());
      }
      Optional<Cord.CordEnd> end = cord.endFor(linkConnector);
      if (end.isEmpty() && cord.connectorsKnown()) {
        verdict.putIfAbsent(
            Aspect.CONNECTOR,
            name
                + " has "
                + cord.end1().connector().map(Connector::toString).orElse("?")
                + " and "
                + cord.end2().connector().map(Connector::toString).orElse("?")
                + ", links have "
                + linkConnector);
      }
      if (end.flatMap(Cord.CordEnd::grade).filter(g -> g == CordGrade.STANDARD).isPresent()) {
        verdict.putIfAbsent(
            Aspect.CORD_GRADE,
            name + " is standard-grade at the link: the full connection allowance holds there");
      }
    }
  }

  private static Doubt doubt(Ledger ledger, Zero zero, Aspect aspect, Found found) {
    List<AssessedReading> reach = new ArrayList<>(found.reach);
    reach.sort(Comparator.comparingInt(AssessedReading::index));
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(Evidence.of("what", found.what));
    evidence.add(Evidence.of("readings", reach.size()));
    if (aspect == Aspect.METHOD) {
      evidence.add(Evidence.of("method_of_zero", zero.method().word()));
      evidence.add(Evidence.of("method_required", ledger.requirement().method().word()));
    }
    return new Doubt(
        DoubtKind.ZERO_MISMATCH,
        Subject.reference(zero.id()),
        aspect != Aspect.CORD_GRADE,
        Reach.of(reach),
        evidence,
        causes(aspect),
        next(zero, ledger.requirement().method(), aspect, reach));
  }

  private static List<Cause> causes(Aspect aspect) {
    return switch (aspect) {
      case METHOD ->
          Causes.ranked(
              "the zero was set with another number of cords than required",
              "the number was written down wrong");
      case CORE ->
          Causes.ranked("cords of another core in the line", "fibre category written down wrong");
      case CONNECTOR ->
          Causes.ranked(
              "another cord was used than written down",
              "connector written down wrong",
              "angled mated to straight: both faces may be damaged");
      case STORED_POWER ->
          Causes.ranked("the readings belong to another zero", "a power or a loss was typed wrong");
      case CORD_GRADE -> Causes.ranked("no reference-grade cord at hand");
    };
  }

  private static NextStep next(
      Zero zero, Method asked, Aspect aspect, List<AssessedReading> reach) {
    return switch (aspect) {
      case METHOD ->
          Steps.reZero(zero.id(), reach)
              .withResults(
                  "The retests all read "
                      + (zero.method().endConnections() < asked.endConnections()
                          ? "higher"
                          : "lower")
                      + " by the loss of "
                      + Steps.count(
                          Math.abs(asked.endConnections() - zero.method().endConnections()),
                          "end connection"),
                  "They read as before: the number of cords was written down wrong");
      case CORE ->
          Steps.reZero(zero.id(), reach)
              .withResults(
                  "The print on the cords in the line names another core than the links'",
                  "It names the links' core: the category was written down wrong");
      case CONNECTOR ->
          new NextStep(
                  "cords:" + zero.id(),
                  "Find out which cords stood in zero "
                      + zero.id()
                      + "; if angled met straight, inspect both faces before mating anything again",
                  Steps.commonPlace(reach),
                  Handling.LOOK_UP)
              .withResults(
                  "A cord with the links' connector was in the line and is not on record",
                  "The cord on record was in the line: its connector is written down wrong, or the"
                      + " faces may be damaged");
      case STORED_POWER ->
          new NextStep(
                  "papers:" + zero.id() + ":power",
                  "Compare the stored powers of zero "
                      + zero.id()
                      + " with the instrument's own memory",
                  "",
                  Handling.LOOK_UP)
              .withResults(
                  "The memory holds these readings under another zero",
                  "It holds them under this one: a power or a loss was typed wrong");
      case CORD_GRADE ->
          new NextStep(
                  "grade:" + zero.id(),
                  "Use reference-grade cords for readings near the limit or in dispute",
                  "",
                  Handling.LOOK_UP)
              .withResults(
                  "There is no reference-grade cord at hand: the wider limit stays",
                  "There is one: read again with it, to the tighter limit");
    };
  }
}
