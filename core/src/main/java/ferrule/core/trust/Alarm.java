package ferrule.core.trust;

import java.util.List;
import java.util.stream.Collectors;

/**
 * How often this job's doubts would be false if nothing were wrong: the alarm levels of all finders
 * that control the number of looks, added up (Bonferroni: at most this). Doubts that rest on a fact
 * or on a fixed bound of the trade have no share in it.
 *
 * @param shares of the finders that looked at anything in this job
 */
public record Alarm(List<AlarmShare> shares) {

  /** Copies the list. */
  public Alarm {
    shares = List.copyOf(shares);
  }

  /** Number of looks. */
  public long looks() {
    return shares.stream().mapToLong(AlarmShare::looks).sum();
  }

  /** Chance that a perfect job of this size shows any doubt of these kinds. */
  public double chance() {
    return shares.stream().mapToDouble(AlarmShare::chance).sum();
  }

  /** Chance that it shows one that holds readings back. */
  public double blockingChance() {
    return shares.stream().filter(AlarmShare::blocking).mapToDouble(AlarmShare::chance).sum();
  }

  /** The kinds covered, each once: "zero-shift, level-step". */
  public String kindsShown() {
    return shares.stream()
        .flatMap(s -> s.kinds().stream())
        .distinct()
        .map(DoubtKind::id)
        .collect(Collectors.joining(", "));
  }

  /** One sentence; empty if nothing was looked at. */
  public String shown() {
    if (shares.isEmpty()) {
      return "";
    }
    String any = "one of any kind about once in " + onceIn(chance());
    String blocking =
        blockingChance() > 0
            ? "one that holds readings back about once in " + onceIn(blockingChance()) + ", "
            : "";
    return "By the alarm levels in use, a perfect job of this size ("
        + looks()
        + (looks() == 1 ? " look" : " looks")
        + ") would show a false statistical doubt only so often: "
        + blocking
        + any;
  }

  private static String onceIn(double chance) {
    return Long.toString(Math.round(1 / chance));
  }
}
