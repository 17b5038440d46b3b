package ferrule.record.data;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Standing;
import ferrule.core.uncertainty.Decision;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

/**
 * What is otherwise in one issue of a record than in the issue before, fibre by fibre.
 *
 * @param issue number of the issue before
 * @param issuedAt its time of issue
 * @param entries how many entries the job has gained since
 * @param fibres each fibre of which something is otherwise, in the order of the schedule
 */
public record Changes(long issue, Instant issuedAt, long entries, List<Fibre> fibres) {

  /**
   * One fibre.
   *
   * @param fibre which
   * @param was where it stood; empty if it was not scheduled
   * @param now where it stands; empty if it is no longer scheduled
   * @param newReadings readings of it that came in since
   * @param what is otherwise, each in words
   */
  public record Fibre(
      FibreId fibre,
      Optional<Standing> was,
      Optional<Standing> now,
      int newReadings,
      List<String> what) {

    /** Whether it stands elsewhere. */
    public boolean stoodElsewhere() {
      return !was.equals(now);
    }
  }

  /** Copies the list. */
  public Changes {
    fibres = List.copyOf(fibres);
  }

  /** How many fibres stand elsewhere than before. */
  public long stoodElsewhere() {
    return fibres.stream().filter(Fibre::stoodElsewhere).count();
  }

  /**
   * Compares two judgements of one job.
   *
   * @param issue number of the issue before
   * @param issuedAt its time of issue
   * @param before what was found then
   * @param now what is found now
   * @param entries how many entries the job has gained since
   */
  public static Changes of(
      long issue, Instant issuedAt, Judgement before, Judgement now, long entries) {
    List<Fibre> fibres = new ArrayList<>();
    for (FibreJudgement fibre : now.fibres()) {
      compare(before.fibre(fibre.fibre()), fibre).ifPresent(fibres::add);
    }
    for (FibreJudgement fibre : before.fibres()) {
      if (now.fibre(fibre.fibre()).isEmpty()) {
        fibres.add(
            new Fibre(
                fibre.fibre(),
                Optional.of(fibre.standing()),
                Optional.empty(),
                0,
                List.of("no longer in the schedule")));
      }
    }
    return new Changes(issue, issuedAt, entries, fibres);
  }

  private static Optional<Fibre> compare(Optional<FibreJudgement> before, FibreJudgement now) {
    List<String> what = new ArrayList<>();
    if (before.isEmpty()) {
      what.add("new in the schedule");
    }
    Map<String, AssessedReading> old = current(before);
    for (Map.Entry<String, AssessedReading> entry : current(Optional.of(now)).entrySet()) {
      reading(entry.getKey(), Optional.ofNullable(old.get(entry.getKey())), entry.getValue(), what);
    }
    Set<String> heldBefore = doubts(before);
    Set<String> held = doubts(Optional.of(now));
    heldBefore.stream().filter(d -> !held.contains(d)).forEach(d -> what.add("no longer: " + d));
    held.stream().filter(d -> !heldBefore.contains(d)).forEach(d -> what.add("now: " + d));
    Optional<Standing> was = before.map(FibreJudgement::standing);
    if (what.isEmpty() && was.filter(s -> s == now.standing()).isPresent()) {
      return Optional.empty();
    }
    int gained = now.readings().size() - before.map(b -> b.readings().size()).orElse(0);
    return Optional.of(
        new Fibre(now.fibre(), was, Optional.of(now.standing()), Math.max(0, gained), what));
  }

  private static Map<String, AssessedReading> current(Optional<FibreJudgement> fibre) {
    Map<String, AssessedReading> current = new LinkedHashMap<>();
    fibre.map(FibreJudgement::readings).orElse(List.of()).stream()
        .filter(AssessedReading::current)
        .forEach(reading -> current.put(reading.caseShown(), reading));
    return current;
  }

  private static Set<String> doubts(Optional<FibreJudgement> fibre) {
    Set<String> lines = new LinkedHashSet<>();
    for (Doubt doubt : fibre.map(FibreJudgement::doubts).orElse(List.of())) {
      if (doubt.blocking()) {
        lines.add(doubt.line());
      }
    }
    return lines;
  }

  private static void reading(
      String at, Optional<AssessedReading> before, AssessedReading now, List<String> what) {
    if (before.isEmpty()) {
      what.add(at + ": read since, " + Decibels.shown(now.lossDb()) + " dB, " + word(now));
      return;
    }
    AssessedReading old = before.get();
    if (!Objects.equals(old.reading(), now.reading())) {
      what.add(
          at
              + ": "
              + Decibels.shown(old.lossDb())
              + " dB before, read again "
              + Decibels.shown(now.lossDb())
              + " dB, "
              + word(now));
      return;
    }
    if (differ(old.lossDb(), now.lossDb())) {
      what.add(
          at
              + ": loss "
              + Decibels.shown(old.lossDb())
              + " dB before, "
              + Decibels.shown(now.lossDb())
              + " dB by the zero as it stands now");
    }
    if (differ(old.limitDb(), now.limitDb())) {
      what.add(
          at
              + ": limit "
              + Decibels.shown(old.limitDb())
              + " dB before, "
              + Decibels.shown(now.limitDb())
              + " dB now");
    }
    if (old.decision() != now.decision()) {
      what.add(at + ": " + word(old) + " before, " + word(now) + " now");
    }
  }

  private static boolean differ(double one, double other) {
    return Double.compare(one, other) != 0;
  }

  private static String word(AssessedReading reading) {
    Decision decision = reading.decision();
    return decision.word();
  }
}
