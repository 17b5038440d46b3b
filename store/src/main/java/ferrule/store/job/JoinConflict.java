package ferrule.store.job;

import ferrule.core.Problem;
import ferrule.core.job.Conflict;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Something that the two files of a join say differently.
 *
 * @param kind of the entries
 * @param name what both are entered under; of a reading its fibre, direction, wavelength and time
 * @param columns that differ, ", " between them
 * @param one values of the entry with the lesser id, in the order of the columns
 * @param other values of the entry with the greater id; under a name these stand
 * @param oneFrom where the one came from
 * @param otherFrom where the other came from
 */
record JoinConflict(
    EntryKind kind,
    String name,
    String columns,
    String one,
    String other,
    From oneFrom,
    From otherFrom) {

  /** Where and when an entry was made. */
  record From(String file, long row, String enteredAt) {
    static From of(Entry entry) {
      return new From(entry.file(), entry.row(), entry.enteredAt());
    }
  }

  private static final int MINUTES = "2026-10-06T07:00".length();

  /** Columns that nothing hangs on. */
  private static final Set<String> IDLE =
      Set.of(
          "matings",
          "in_service_since",
          "operator",
          "owner",
          "contractor",
          "applications",
          "other_rulebooks",
          "method_as_written",
          "traces");

  private static final String SETTLE = "both are kept; settle it with ferrule add --supersede WHY";

  /** The line for the user. */
  Problem problem() {
    return new Problem(
        otherFrom.file(),
        otherFrom.row(),
        columns,
        one
            + ", as entered for "
            + subject()
            + " at "
            + time(oneFrom)
            + " ("
            + place(oneFrom)
            + ")",
        other + ", entered at " + time(otherFrom),
        kind == EntryKind.READING
            ? "both are kept; read the fibre again"
            : kind == EntryKind.FACE || kind == EntryKind.GRADE
                ? "both are kept; give one picture another name and add it"
                : SETTLE);
  }

  private static String place(From from) {
    return from.file() + (from.row() > 0 ? ", row " + from.row() : "");
  }

  /** "2026-10-06 07:00"; UTC. */
  private static String time(From from) {
    String at = from.enteredAt();
    return at.length() < MINUTES ? at : at.substring(0, MINUTES).replace('T', ' ');
  }

  private String subject() {
    return switch (kind) {
      case JOB -> "the job";
      case REFERENCE -> "zero " + name;
      case FACE, GRADE -> "picture " + name;
      case READING -> name;
      case LINK, INSTRUMENT, CORD, PART, POLARITY, INTAKE, JOIN -> kind.word() + " " + name;
    };
  }

  /** What the judge must know of it; empty if no limit and no loss hangs on it. */
  Optional<Conflict> bearing() {
    List<String> differing = Arrays.asList(columns.split(", "));
    if (IDLE.containsAll(differing)) {
      return Optional.empty();
    }
    return switch (kind) {
      case JOB -> Optional.of(new Conflict(Conflict.Matter.PAPER, "", what()));
      case LINK -> Optional.of(new Conflict(Conflict.Matter.LINK, name, what()));
      case CORD -> Optional.of(new Conflict(Conflict.Matter.CORD, name, what()));
      case REFERENCE ->
          Optional.of(new Conflict(Conflict.Matter.ZERO, OpenMatters.zero(name), what()));
      case INSTRUMENT, READING, FACE, GRADE, PART, POLARITY, INTAKE, JOIN -> Optional.empty();
    };
  }

  private String what() {
    return "two crews entered "
        + subject()
        + " differently: "
        + columns
        + " "
        + one
        + " and "
        + other;
  }
}
