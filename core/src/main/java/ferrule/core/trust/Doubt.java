package ferrule.core.trust;

import java.util.ArrayList;
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
 * @param separations other causes that the readings cannot tell it from, and what would
 */
public record Doubt(
    DoubtKind kind,
    Subject subject,
    boolean blocking,
    Reach reach,
    List<Evidence> evidence,
    List<Cause> causes,
    NextStep next,
    List<Separation> separations) {

  /** Copies the lists. */
  public Doubt {
    evidence = List.copyOf(evidence);
    causes = List.copyOf(causes);
    separations = List.copyOf(separations);
  }

  /** A doubt that is confounded with nothing. */
  public Doubt(
      DoubtKind kind,
      Subject subject,
      boolean blocking,
      Reach reach,
      List<Evidence> evidence,
      List<Cause> causes,
      NextStep next) {
    this(kind, subject, blocking, reach, evidence, causes, next, List.of());
  }

  /** The same doubt, told without holding readings back. */
  public Doubt withoutBlocking() {
    return new Doubt(kind, subject, false, reach, evidence, causes, next, separations);
  }

  /**
   * The same doubt, saying what it cannot be told from; to tell them apart is the next step then,
   * if readings are known that would.
   */
  public Doubt confoundedWith(List<Separation> others) {
    if (others.isEmpty()) {
      return this;
    }
    List<Evidence> more = new ArrayList<>(evidence);
    others.forEach(o -> more.add(Evidence.of("confounded", o.confounded())));
    NextStep step =
        others.stream()
            .filter(o -> !o.readings().isEmpty())
            .findFirst()
            .map(o -> Steps.separate(o, next))
            .orElse(next);
    return new Doubt(kind, subject, blocking, reach, more, causes, step, others);
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
