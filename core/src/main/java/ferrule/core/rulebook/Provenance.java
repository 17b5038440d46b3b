package ferrule.core.rulebook;

/**
 * Where a figure comes from.
 *
 * @param standard the standard or other document, as it names itself
 * @param edition its edition or year; empty if the source named none
 * @param clause clause or table; empty if not known
 * @param confidence how well the figure is known
 * @param seenIn where it was seen; "memory" if nowhere
 */
public record Provenance(
    String standard, String edition, String clause, Confidence confidence, String seenIn) {

  /** One line for a reader: standard, edition, clause, and the confidence in words. */
  public String line() {
    StringBuilder line = new StringBuilder(standard);
    if (!edition.isEmpty()) {
      line.append(", ").append(edition);
    }
    if (!clause.isEmpty()) {
      line.append(", ").append(clause);
    }
    return line.append(" (").append(confidence.shown()).append(')').toString();
  }

  /** Whether the figure must be confirmed against the standard before it is relied on. */
  public boolean fromMemory() {
    return confidence == Confidence.MEMORY;
  }
}
