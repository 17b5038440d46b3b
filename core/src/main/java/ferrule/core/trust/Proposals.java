package ferrule.core.trust;

import ferrule.core.plant.Link;
import ferrule.core.trust.single.BelowFloorFinder;
import ferrule.core.uncertainty.Budget;
import ferrule.core.uncertainty.Decision;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.TreeSet;

/**
 * Works out {@link Proposal}s: one for each {@code zero-shift}. A pure function of the judgement,
 * which it leaves as it is.
 *
 * <p>Each reading in reach has the shift taken out, its uncertainty budget worked out for the loss
 * that remains, and the shift's standard deviation added to it in squares; the job's own rule then
 * decides. The doubt counts as settled, as does a {@code direction-bias} of the same zero over the
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

  /** The proposals of a judgement, in the order of its doubts. */
  public static List<Proposal> of(Judgement judgement) {
    List<Proposal> proposals = new ArrayList<>();
    for (Doubt doubt : judgement.doubts()) {
      if (doubt.kind() == DoubtKind.ZERO_SHIFT) {
        OptionalDouble shift = doubt.measure("shift_db");
        OptionalDouble sd = doubt.measure("shift_sd_db");
        if (shift.isPresent() && sd.isPresent()) {
          proposals.add(
              new Proposals(judgement, doubt, shift.getAsDouble(), sd.getAsDouble()).proposal());
        }
      }
    }
    return proposals;
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
