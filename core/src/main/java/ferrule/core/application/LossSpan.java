package ferrule.core.application;

import ferrule.core.optics.Decibels;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The loss of a link as far as an application asks for it.
 *
 * @param leastDb least over fibres, directions and windows, dB
 * @param mostDb greatest of them, dB
 * @param origin measured or expected
 * @param windowsNm windows at which it is known, nm, which may lie beside those of the application
 * @param fibres how many fibres were measured; 0 if the loss is expected
 */
public record LossSpan(
    double leastDb, double mostDb, Origin origin, List<Integer> windowsNm, int fibres) {

  /** Where a loss comes from. */
  public enum Origin {
    /** Believed readings. */
    MEASURED("measured"),
    /** Typical figures for what the schedule lists: no reading is believed. */
    EXPECTED("expected");

    private final String word;

    Origin(String word) {
      this.word = word;
    }

    /** For tables and files. */
    public String word() {
      return word;
    }
  }

  /** Copies the list. */
  public LossSpan {
    windowsNm = List.copyOf(windowsNm);
  }

  /**
   * "measured 0.31 to 0.52 dB at 1310 nm, 2 of 2 fibres".
   *
   * @param of fibres of the link
   */
  public String shown(int of) {
    String at = windowsNm.stream().map(String::valueOf).collect(Collectors.joining(", ")) + " nm";
    return origin == Origin.EXPECTED
        ? "expected " + Decibels.shown(mostDb) + " dB at " + at + "; not measured"
        : "measured "
            + Decibels.shown(leastDb)
            + " to "
            + Decibels.shown(mostDb)
            + " dB at "
            + at
            + ", "
            + fibres
            + " of "
            + of
            + (of == 1 ? " fibre" : " fibres");
  }

  /** Both together; where either is only expected, so is the whole. */
  LossSpan and(LossSpan other) {
    return new LossSpan(
        Math.min(leastDb, other.leastDb),
        Math.max(mostDb, other.mostDb),
        origin == Origin.EXPECTED ? origin : other.origin,
        Stream.concat(windowsNm.stream(), other.windowsNm.stream()).distinct().sorted().toList(),
        Math.min(fibres, other.fibres));
  }

  /** Both together, where there are both. */
  static Optional<LossSpan> join(Optional<LossSpan> one, Optional<LossSpan> other) {
    return one.flatMap(a -> other.map(a::and));
  }
}
