package ferrule.core.trust;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.cause.LossCauses;
import ferrule.core.uncertainty.Decision;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

/**
 * Ranks what to do. Each fibre that is not proved has one or more obstacles, each removed by one
 * deed; a deed may remove obstacles of many fibres. Of two deeds that one fibre waits for, one that
 * the other makes needless is left out. The rest is ranked so that over the whole job most fibres
 * are freed in least time, walking counted ({@link VisitOrder}).
 */
final class ActionRanking {

  private static final class Deed {
    final int number;
    NextStep step;
    double minutes;
    private int weight;
    final Set<String> needs = new HashSet<>();
    final List<Integer> slots = new ArrayList<>();

    Deed(int number, Obstacle obstacle) {
      this.number = number;
      this.step = obstacle.step;
      this.minutes = step.minutes();
      this.weight = obstacle.weight;
      needs.addAll(Steps.needs(step.key()));
    }

    /**
     * Doubts that share a deed may word it each in its way: that of the farthest reach stands, of
     * equal ones the last, for doubts that rest on many readings come last and have numbers.
     */
    void take(Obstacle obstacle) {
      minutes = Math.max(minutes, obstacle.step.minutes());
      needs.addAll(obstacle.needs);
      if (obstacle.weight >= weight) {
        weight = obstacle.weight;
        step = obstacle.step;
      }
    }
  }

  /** What holds one fibre back: the deed against it, and in how far its wording counts. */
  private static final class Obstacle {
    NextStep step;
    int weight;
    final Set<String> needs = new HashSet<>();

    Obstacle(NextStep step, int weight) {
      this.step = step;
      this.weight = weight;
    }
  }

  private final Ledger ledger;
  private final Map<String, Deed> deeds = new LinkedHashMap<>();
  private final Map<List<Integer>, Integer> groups = new LinkedHashMap<>();
  private final int[] remaining;

  private ActionRanking(Ledger ledger) {
    this.ledger = ledger;
    this.remaining = new int[ledger.slots()];
  }

  static List<Action> rank(Ledger ledger, List<FibreJudgement> fibres, LossCauses causes) {
    ActionRanking ranking = new ActionRanking(ledger);
    for (FibreJudgement fibre : fibres) {
      if (fibre.standing() != Standing.PROVED) {
        ranking.add(fibre.slot(), obstacles(fibre, causes));
      }
    }
    return ranking.deeds.isEmpty() ? List.of() : ranking.actions();
  }

  private void add(int slot, Map<String, Obstacle> obstacles) {
    List<Integer> numbers = new ArrayList<>(obstacles.size());
    obstacles.forEach(
        (key, obstacle) -> {
          Deed deed = deeds.computeIfAbsent(key, k -> new Deed(deeds.size(), obstacle));
          deed.take(obstacle);
          deed.slots.add(slot);
          numbers.add(deed.number);
        });
    numbers.sort(null);
    remaining[slot] = numbers.size();
    groups.merge(numbers, 1, Integer::sum);
  }

  private List<Action> actions() {
    List<Deed> all = new ArrayList<>(deeds.values());
    List<String> places = places(all);
    List<Action> actions = new ArrayList<>(all.size());
    int stop = 0;
    String at = "";
    for (int number : VisitOrder.of(workload(all, places))) {
      if (stop == 0 || !places.get(number).equals(at)) {
        stop++;
        at = places.get(number);
      }
      Deed deed = all.get(number);
      actions.add(
          new Action(
              actions.size() + 1,
              deed.step.what(),
              deed.step.where(),
              deed.minutes,
              freedBy(deed),
              deed.slots.size(),
              deed.step.confirms(),
              deed.step.refutes(),
              stop,
              at));
    }
    return actions;
  }

  private List<FibreId> freedBy(Deed deed) {
    List<FibreId> frees = new ArrayList<>();
    for (int slot : deed.slots) {
      remaining[slot]--;
      if (remaining[slot] == 0) {
        frees.add(ledger.fibre(slot));
      }
    }
    return frees;
  }

  private Workload workload(List<Deed> all, List<String> places) {
    double[] minutes = all.stream().mapToDouble(d -> d.minutes).toArray();
    Map<String, Integer> placeNumbers = new HashMap<>();
    placeNumbers.put("", Workload.ANYWHERE);
    int[] place =
        places.stream()
            .mapToInt(p -> placeNumbers.computeIfAbsent(p, k -> placeNumbers.size()))
            .toArray();
    int[][] needs =
        all.stream()
            .map(
                d ->
                    d.needs.stream()
                        .map(deeds::get)
                        .filter(Objects::nonNull)
                        .mapToInt(need -> need.number)
                        .sorted()
                        .toArray())
            .toArray(int[][]::new);
    int[][] waiting = groups.keySet().stream().map(VisitOrder::array).toArray(int[][]::new);
    int[] fibres = groups.values().stream().mapToInt(Integer::intValue).toArray();
    return new Workload(minutes, place, needs, waiting, fibres, Handling.SET_UP);
  }

  /** For each deed, the place that one must walk to; empty if none is on record. */
  private List<String> places(List<Deed> all) {
    Set<String> known = new HashSet<>();
    for (Link link : ledger.job().links()) {
      known.add(link.a().place());
      known.add(link.b().place());
    }
    return all.stream().map(deed -> place(deed.step.where(), known)).toList();
  }

  /** "Store A / 1:07" lies at "Store A", if there is such a place. */
  private static String place(String where, Set<String> known) {
    int end = where.length();
    while (end > 0) {
      String place = where.substring(0, end);
      if (known.contains(place)) {
        return place;
      }
      end = where.lastIndexOf(" / ", end - 1);
    }
    return "";
  }

  private static Map<String, Obstacle> obstacles(FibreJudgement fibre, LossCauses causes) {
    Map<String, Obstacle> obstacles = new LinkedHashMap<>();
    for (Doubt doubt : fibre.doubts()) {
      boolean gap = doubt.kind() == DoubtKind.MISSING || doubt.kind() == DoubtKind.FACE_UNSEEN;
      if (doubt.blocking() || gap) {
        add(obstacles, doubt.next(), doubt.reach().fibres().size());
      }
    }
    for (AssessedReading reading : fibre.readings()) {
      if (!reading.current() || fibre.blocked(reading)) {
        continue;
      }
      if (reading.decision() == Decision.REJECT) {
        addRetest(obstacles, mend(fibre, reading, causes), reading);
      } else if (reading.decision() == Decision.UNDECIDED && fibre.standing() == Standing.OPEN) {
        if (Double.isNaN(reading.limitDb())) {
          add(obstacles, rulebook(), 0);
        } else {
          addRetest(obstacles, undecided(fibre, reading), reading);
        }
      }
    }
    if (obstacles.isEmpty() && fibre.standing() == Standing.OPEN) {
      add(obstacles, rulebook(), 0);
    }
    if (obstacles.size() > 1) {
      Set<String> keys = new HashSet<>(obstacles.keySet());
      obstacles.keySet().removeIf(key -> Steps.settledBy(key).stream().anyMatch(keys::contains));
    }
    return obstacles;
  }

  private static void add(Map<String, Obstacle> obstacles, NextStep step, int weight) {
    Obstacle known = obstacles.get(step.key());
    if (known == null) {
      obstacles.put(step.key(), new Obstacle(step, weight));
    } else if (weight >= known.weight) {
      known.step = step;
      known.weight = weight;
    }
  }

  /** A retest after cleaning, with the first reading that wants it in its words. */
  private static void addRetest(
      Map<String, Obstacle> obstacles, NextStep step, AssessedReading reading) {
    obstacles
        .computeIfAbsent(step.key(), k -> new Obstacle(step, 0))
        .needs
        .addAll(Steps.ofZero(reading.reading().reference()));
  }

  /** What its leading cause asks for; cleaning first where none leads. */
  private static NextStep mend(FibreJudgement fibre, AssessedReading reading, LossCauses causes) {
    NextStep usual = clean(fibre, reading);
    NextStep first = causes.next(fibre.slot(), usual);
    return first.key().startsWith("clean:") ? usual : first;
  }

  private static NextStep clean(FibreJudgement fibre, AssessedReading reading) {
    String limit = Decibels.shown(reading.limitDb()) + " dB";
    return new NextStep(
        "mend:" + fibre.fibre(),
        "Clean and inspect both ends of "
            + fibre.fibre()
            + ", retest once; still over "
            + limit
            + " at "
            + reading.caseShown()
            + ": look for the bad connection or bend",
        fibre.link().a().where(),
        Handling.CLEAN_AND_RETEST,
        "It reads " + limit + " or less at " + reading.caseShown() + " once clean: it was dirt",
        "It reads more with clean ends: a bad connection, splice or bend in the link");
  }

  private static NextStep undecided(FibreJudgement fibre, AssessedReading reading) {
    String enough = Decibels.shown(reading.limitDb() - reading.expandedDb()) + " dB";
    return new NextStep(
        "near:" + fibre.fibre(),
        "Clean both ends of " + fibre.fibre() + " and retest it: a reading lies too near its limit",
        fibre.link().a().where(),
        Handling.CLEAN_AND_RETEST,
        "It reads " + enough + " or less at " + reading.caseShown() + " once clean: it was dirt",
        "It stays above "
            + enough
            + ": the link is near its limit; settle with the owner what counts");
  }

  private static NextStep rulebook() {
    return new NextStep(
        "rulebook",
        "Settle with the owner which limits hold where the rulebook has none, and give them in an"
            + " owner's rulebook",
        "",
        Handling.LOOK_UP,
        "The owner names limits: the readings can be decided",
        "The owner wants none: take these fibres out of the requirement");
  }
}
