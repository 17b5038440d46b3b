package ferrule.core.trust;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.cause.LossCauses;
import ferrule.core.uncertainty.Decision;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;

/**
 * Ranks what to do. Each fibre that is not proved has one or more obstacles, each removed by one
 * deed; a deed may remove obstacles of many fibres. Deeds are taken one after another, each time
 * the one that brings most fibres forward per minute: a fibre counts for one over the number of
 * obstacles it still has, so a deed that frees it outright weighs most.
 *
 * <p>This is the greedy rule for weighted set cover: not always the best order, never far from it.
 */
final class ActionRanking {

  private static final class Deed {
    final int number;
    final NextStep step;
    final List<Integer> slots = new ArrayList<>();
    double minutes;
    double score;
    int version;
    boolean done;

    Deed(int number, NextStep step) {
      this.number = number;
      this.step = step;
      this.minutes = step.minutes();
    }
  }

  private record Offer(Deed deed, double score, int version) {}

  private ActionRanking() {}

  static List<Action> rank(Ledger ledger, List<FibreJudgement> fibres, LossCauses causes) {
    Map<String, Deed> deeds = new LinkedHashMap<>();
    List<List<Deed>> bySlot = new ArrayList<>(fibres.size());
    int[] remaining = new int[fibres.size()];
    for (FibreJudgement fibre : fibres) {
      List<Deed> own =
          fibre.standing() == Standing.PROVED ? List.of() : obstacles(fibre, deeds, causes);
      bySlot.add(own);
      remaining[fibre.slot()] = own.size();
    }
    PriorityQueue<Offer> offers =
        new PriorityQueue<>(
            Comparator.comparingDouble((Offer o) -> -o.score())
                .thenComparingInt(o -> o.deed().number));
    for (Deed deed : deeds.values()) {
      offers.add(offer(deed, remaining));
    }
    List<Action> actions = new ArrayList<>(deeds.size());
    while (!offers.isEmpty()) {
      Offer best = offers.remove();
      Deed deed = best.deed();
      if (deed.done || best.version() != deed.version) {
        continue;
      }
      deed.done = true;
      List<FibreId> frees = new ArrayList<>();
      Map<Integer, Deed> changed = new LinkedHashMap<>();
      for (int slot : deed.slots) {
        remaining[slot]--;
        if (remaining[slot] == 0) {
          frees.add(ledger.fibre(slot));
        }
        for (Deed other : bySlot.get(slot)) {
          if (!other.done) {
            changed.put(other.number, other);
          }
        }
      }
      changed.values().forEach(other -> offers.add(offer(other, remaining)));
      actions.add(
          new Action(
              actions.size() + 1,
              deed.step.what(),
              deed.step.where(),
              deed.minutes,
              frees,
              deed.slots.size()));
    }
    return actions;
  }

  private static Offer offer(Deed deed, int[] remaining) {
    double fibres = 0;
    for (int slot : deed.slots) {
      fibres += 1.0 / Math.max(1, remaining[slot]);
    }
    deed.score = fibres / deed.minutes;
    deed.version++;
    return new Offer(deed, deed.score, deed.version);
  }

  private static List<Deed> obstacles(
      FibreJudgement fibre, Map<String, Deed> deeds, LossCauses causes) {
    Map<String, NextStep> steps = new LinkedHashMap<>();
    for (Doubt doubt : fibre.doubts()) {
      boolean gap = doubt.kind() == DoubtKind.MISSING || doubt.kind() == DoubtKind.FACE_UNSEEN;
      if (doubt.blocking() || gap) {
        steps.putIfAbsent(doubt.next().key(), doubt.next());
      }
    }
    for (AssessedReading reading : fibre.readings()) {
      if (!reading.current() || fibre.blocked(reading)) {
        continue;
      }
      if (reading.decision() == Decision.REJECT) {
        NextStep step = mend(fibre, reading, causes);
        steps.putIfAbsent(step.key(), step);
      } else if (reading.decision() == Decision.UNDECIDED && fibre.standing() == Standing.OPEN) {
        NextStep step = undecided(fibre, reading);
        steps.putIfAbsent(step.key(), step);
      }
    }
    if (steps.isEmpty() && fibre.standing() == Standing.OPEN) {
      steps.put(rulebook().key(), rulebook());
    }
    // Setting a zero anew and retesting also settles whether the old one was good.
    steps.keySet().removeIf(key -> steps.containsKey(Steps.settledBy(key)));
    List<Deed> own = new ArrayList<>(steps.size());
    for (NextStep step : steps.values()) {
      Deed deed = deeds.computeIfAbsent(step.key(), k -> new Deed(deeds.size(), step));
      deed.minutes = Math.max(deed.minutes, step.minutes());
      deed.slots.add(fibre.slot());
      own.add(deed);
    }
    return own;
  }

  /** What its leading cause asks for; cleaning first where none leads. */
  private static NextStep mend(FibreJudgement fibre, AssessedReading reading, LossCauses causes) {
    NextStep usual = clean(fibre, reading);
    NextStep first = causes.next(fibre.slot(), usual);
    return first.key().startsWith("clean:") ? usual : first;
  }

  private static NextStep clean(FibreJudgement fibre, AssessedReading reading) {
    return new NextStep(
        "mend:" + fibre.fibre(),
        "Clean and inspect both ends of "
            + fibre.fibre()
            + ", retest once; still over "
            + Decibels.shown(reading.limitDb())
            + " dB at "
            + reading.caseShown()
            + ": look for the bad connection or bend",
        fibre.link().a().where(),
        Handling.CLEAN_AND_RETEST);
  }

  private static NextStep undecided(FibreJudgement fibre, AssessedReading reading) {
    if (Double.isNaN(reading.limitDb())) {
      return rulebook();
    }
    return new NextStep(
        "near:" + fibre.fibre(),
        "Clean both ends of " + fibre.fibre() + " and retest it: a reading lies too near its limit",
        fibre.link().a().where(),
        Handling.CLEAN_AND_RETEST);
  }

  private static NextStep rulebook() {
    return new NextStep(
        "rulebook",
        "Settle with the owner which limits hold where the rulebook has none, and give them in an"
            + " owner's rulebook",
        "",
        Handling.LOOK_UP);
  }
}
