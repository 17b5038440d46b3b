package ferrule.core.trust;

import java.util.List;
import java.util.OptionalDouble;

/**
 * A reason not to believe readings, or to look at them again.
 *
 * @param kind what sort
 * @param subject what it is about
 * @param blocking whether readings in its reach prove nothing until it is settled
 * @param reach exactly what it covers
 * @param evidence the numbers it rests on
 * @param causes possible causes, likeliest first
 * @param next the cheapest next action
 */
public record Doubt(
    DoubtKind kind,
    Subject subject,
    boolean blocking,
    Reach reach,
    List<Evidence> evidence,
    List<Cause> causes,
    NextStep next) {

  /** Copies the lists. */
  public Doubt {
    evidence = List.copyOf(evidence);
    causes = List.copyOf(causes);
  }

  /** A piece of evidence that is a number, by its name; empty if there is none of this name. */
  public OptionalDouble measure(String name) {
    for (Evidence item : evidence) {
      if (item instanceof Evidence.Measure measure && measure.name().equals(name)) {
        return OptionalDouble.of(measure.value());
      }
    }
    return OptionalDouble.empty();
  }

  /** One line: what it says, of what, and the first piece of evidence in words if there is one. */
  public String line() {
    StringBuilder line = new StringBuilder(kind.headline()).append(": ").append(subject.shown());
    for (Evidence item : evidence) {
      if (item.name().equals("what")) {
        line.append(" (").append(item.shown()).append(')');
        break;
      }
    }
    return line.toString();
  }
}
