package ferrule.core.trust;

import ferrule.core.plant.Link;
import ferrule.core.trust.joint.JointEstimate;
import ferrule.core.trust.joint.JointEstimate.LevelShift;
import ferrule.core.trust.single.BelowFloorFinder;
import ferrule.core.uncertainty.Budget;
import ferrule.core.uncertainty.Decision;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;

/**
 * Works out {@link Proposal}s: one for each zero with a {@code zero-shift} or a verification
 * outside its window. A pure function of the judgement, which it leaves as it is.
 *
 * <p>Each reading in reach has the shift taken out, its uncertainty budget worked out for the loss
 * that remains, and the shift's standard deviation added to it in squares; the job's own rule then
 * decides. Both doubts count as settled, as does a {@code direction-bias} of the same zero over the
 * same readings (the same finding seen from the other side), and {@code below-floor} where the loss
 * that remains is no longer below. Every other doubt stays.
 */
public final class Proposals {

  private final Judgement judgement;
  private final Ledger ledger;
  private final Doubt shifted;
  private final double shiftDb;
  private final double sdDb;
  private final BitSet inReach = new BitSet();
  private final BitSet blocked = new BitSet();

  private Proposals(Judgement judgement, Doubt shifted, double shiftDb, double sdDb) {
    this.judgement = judgement;
    this.ledger = judgement.ledger();
    this.shifted = shifted;
    this.shiftDb = shiftDb;
    this.sdDb = sdDb;
    shifted.reach().readings().forEach(reading -> inReach.set(reading.index()));
    block();
  }

  /** The proposals of a judgement, at most one for a zero, in the order of its doubts. */
  public static List<Proposal> of(Judgement judgement) {
    Map<Subject, Proposal> proposals = new LinkedHashMap<>();
    for (Doubt doubt : judgement.doubts()) {
      if (doubt.kind() == DoubtKind.ZERO_SHIFT) {
        OptionalDouble shift = doubt.measure("shift_db");
        OptionalDouble sd = doubt.measure("shift_sd_db");
        if (shift.isPresent() && sd.isPresent()) {
          proposals.put(
              doubt.subject(),
              new Proposals(judgement, doubt, shift.getAsDouble(), sd.getAsDouble()).proposal());
        }
      } else if (doubt.kind() == DoubtKind.ZERO_VERIFICATION) {
        estimated(judgement.estimate(), doubt)
            .ifPresent(
                e ->
                    proposals.putIfAbsent(
                        doubt.subject(),
                        new Proposals(judgement, doubt, e.shiftDb(), e.sdDb()).proposal()));
      }
    }
    return List.copyOf(proposals.values());
  }

  /** One shift for all readings in reach: the mean of their levels', as certain as the worst. */
  private static Optional<LevelShift> estimated(JointEstimate estimate, Doubt doubt) {
    double sum = 0;
    double sd = 0;
    int count = 0;
    for (AssessedReading reading : doubt.reach().readings()) {
      Optional<LevelShift> own = reading.level().flatMap(estimate::shift);
      if (own.isPresent()) {
        sum += own.get().shiftDb();
        sd = Math.max(sd, own.get().sdDb());
        count++;
      }
    }
    return count == 0 ? Optional.empty() : Optional.of(new LevelShift(sum / count, sd));
  }

  private Proposal proposal() {
    TreeSet<Integer> slots = new TreeSet<>();
    for (AssessedReading reading : shifted.reach().readings()) {
      if (reading.slot() >= 0) {
        slots.add(reading.slot());
      }
    }
    List<Proposal.WouldBe> fibres = new ArrayList<>(slots.size());
    for (int slot : slots) {
      fibres.add(new Proposal.WouldBe(ledger.fibre(slot), standing(slot)));
    }
    return new Proposal(shifted.subject().id(), shiftDb, sdDb, fibres);
  }

  private Standing standing(int slot) {
    boolean faceUnseen = false;
    for (Doubt doubt : judgement.fibres().get(slot).doubts()) {
      faceUnseen |= doubt.kind() == DoubtKind.FACE_UNSEEN;
    }
    return Standings.of(ledger, slot, blocked, faceUnseen, this::decision);
  }

  /** The readings that doubts still hold back once this one is settled. */
  private void block() {
    for (Doubt doubt : judgement.doubts()) {
      if (!doubt.blocking() || settled(doubt)) {
        continue;
      }
      for (AssessedReading reading : doubt.reach().readings()) {
        if (doubt.kind() != DoubtKind.BELOW_FLOOR || stillBelow(reading)) {
          blocked.set(reading.index());
        }
      }
    }
  }

  private boolean settled(Doubt doubt) {
    return doubt.subject().equals(shifted.subject())
        && (doubt.kind() == DoubtKind.ZERO_SHIFT
            || doubt.kind() == DoubtKind.ZERO_VERIFICATION
            || (doubt.kind() == DoubtKind.DIRECTION_BIAS && doubt.reach().equals(shifted.reach())));
  }

  private boolean touches(AssessedReading reading) {
    return inReach.get(reading.index()) && reading.hasLoss();
  }

  private double expandedDb(AssessedReading reading) {
    double loss = reading.lossDb() - shiftDb;
    double km = reading.link().map(Link::lengthKm).orElse(0.0);
    double own = reading.budget().map(b -> b.standard(km, loss)).orElse(reading.standardDb());
    return Budget.COVERAGE_FACTOR * Math.hypot(own, sdDb);
  }

  private boolean stillBelow(AssessedReading reading) {
    return !touches(reading)
        || BelowFloorFinder.isBelow(
            ledger, reading, reading.lossDb() - shiftDb, expandedDb(reading));
  }

  private Decision decision(AssessedReading reading) {
    return touches(reading)
        ? ledger
            .requirement()
            .decision()
            .decide(reading.lossDb() - shiftDb, reading.limitDb(), expandedDb(reading))
        : reading.decision();
  }
}
