package ferrule.core.trust;

import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.optics.Decibels;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The same readings judged by another requirement, beside what was agreed: what would change under
 * another rulebook or decision rule. Nothing in the job changes by it.
 *
 * @param agreed as the job's own requirement has it
 * @param supposed as if the other had been agreed
 * @param changes fibres that stand elsewhere or have a reading decided otherwise, in the order of
 *     the schedule
 */
public record Rejudged(Judgement agreed, Judgement supposed, List<Change> changes) {

  /** Limits are sums of decimal fractions; what differs by less does not differ. */
  private static final double HAIR_DB = 1e-9;

  /**
   * A fibre of which something changes.
   *
   * @param agreed as it stands
   * @param supposed as it would stand
   * @param readings those decided otherwise, in the order handed in; only those that count
   */
  public record Change(
      FibreJudgement agreed, FibreJudgement supposed, List<ReadingChange> readings) {

    /** Copies the list. */
    public Change {
      readings = List.copyOf(readings);
    }

    /** Whether it would stand elsewhere. */
    public boolean ofStanding() {
      return agreed.standing() != supposed.standing();
    }
  }

  /** A reading under both. */
  public record ReadingChange(AssessedReading agreed, AssessedReading supposed) {

    /** "1550 nm A-B: 2.01 dB; limit 2.35 dB, would be 1.65 dB; accept, would be reject". */
    public String shown() {
      String before = limit(agreed);
      String after = limit(supposed);
      return agreed.caseShown()
          + ": "
          + Decibels.shown(agreed.lossDb())
          + " dB; limit "
          + (before.equals(after) ? before : before + ", would be " + after)
          + "; "
          + agreed.decision().word()
          + ", would be "
          + supposed.decision().word();
    }

    private static String limit(AssessedReading reading) {
      return Double.isNaN(reading.limitDb()) ? "none" : Decibels.shown(reading.limitDb()) + " dB";
    }
  }

  /** Copies the list. */
  public Rejudged {
    changes = List.copyOf(changes);
  }

  /** Judges the job of a judgement again. */
  public static Rejudged of(Judgement agreed, Requirement supposed) {
    Job job = agreed.ledger().job();
    Judgement other = Judge.judge(job.under(supposed));
    List<Change> changes = new ArrayList<>();
    for (int slot = 0; slot < agreed.fibres().size(); slot++) {
      FibreJudgement before = agreed.fibres().get(slot);
      FibreJudgement after = other.fibres().get(slot);
      List<ReadingChange> readings = readings(before, after);
      if (before.standing() != after.standing() || !readings.isEmpty()) {
        changes.add(new Change(before, after, readings));
      }
    }
    return new Rejudged(agreed, other, changes);
  }

  private static List<ReadingChange> readings(FibreJudgement before, FibreJudgement after) {
    List<ReadingChange> changes = new ArrayList<>();
    for (int i = 0; i < before.readings().size(); i++) {
      AssessedReading one = before.readings().get(i);
      AssessedReading other = after.readings().get(i);
      if (one.current() && one.decision() != other.decision()) {
        changes.add(new ReadingChange(one, other));
      }
    }
    return changes;
  }

  /**
   * How far limits would move, supposed less agreed, dB: one value for each reading that counts and
   * whose limit would be another, ascending. A limit that only one of the two has is left out.
   */
  public double[] limitMovesDb() {
    List<AssessedReading> before = agreed.ledger().readings();
    List<AssessedReading> after = supposed.ledger().readings();
    return IntStream.range(0, before.size())
        .filter(i -> before.get(i).current())
        .mapToDouble(i -> after.get(i).limitDb() - before.get(i).limitDb())
        .filter(move -> Math.abs(move) > HAIR_DB)
        .sorted()
        .toArray();
  }

  /** How far limits would move, in a sentence; empty if none would. */
  public String limitMovesShown() {
    double[] moves = limitMovesDb();
    return moves.length == 0
        ? ""
        : (moves.length == 1 ? "1 reading would have" : moves.length + " readings would have")
            + " another limit, by "
            + signed(moves[0])
            + " to "
            + signed(moves[moves.length - 1])
            + " dB.";
  }

  private static String signed(double db) {
    return (db > 0 ? "+" : "") + Decibels.shown(db);
  }

  /** How many fibres would stand elsewhere. */
  public int standingsChanged() {
    return (int) changes.stream().filter(Change::ofStanding).count();
  }
}
