package ferrule.core.rulebook;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A planar splitter with equal legs and what it usually loses from its input to one leg.
 *
 * @param legs how many
 * @param leastUsualDb lower end of the planning range, dB
 * @param mostUsualDb upper end of it, dB
 */
public record Splitter(int legs, double leastUsualDb, double mostUsualDb) {

  /** Where the planning ranges come from. */
  public static final Provenance SOURCE =
      new Provenance(
          "Planning ranges of planar splitters",
          "",
          "",
          Confidence.ONE_SOURCE,
          "JJSATS, optical link loss in GPON/XGS-PON; ideal value 10 log10(legs)");

  private static final Pattern NAME = Pattern.compile("(?i)splitter-1x(\\d{1,3})");

  /** The loss of sharing light evenly and nothing else, dB. */
  public static double idealDb(int legs) {
    return 10 * Math.log10(legs);
  }

  /** The same for this one. */
  public double idealDb() {
    return idealDb(legs);
  }

  /** The middle of the planning range, dB. */
  public double usualDb() {
    return (leastUsualDb + mostUsualDb) / 2;
  }

  /** The splitter of this name, "splitter-1x8"; empty if no figure of it is held. */
  public static Optional<Splitter> ofDevice(String device) {
    Matcher matcher = NAME.matcher(device);
    return matcher.matches() ? ofLegs(Integer.parseInt(matcher.group(1))) : Optional.empty();
  }

  private static Optional<Splitter> ofLegs(int legs) {
    return switch (legs) {
      case 2 -> Optional.of(new Splitter(legs, 3.3, 3.8));
      case 4 -> Optional.of(new Splitter(legs, 6.5, 7.2));
      case 8 -> Optional.of(new Splitter(legs, 10.2, 10.8));
      case 16 -> Optional.of(new Splitter(legs, 13.5, 14.5));
      case 32 -> Optional.of(new Splitter(legs, 16.5, 17.5));
      case 64 -> Optional.of(new Splitter(legs, 19.5, 21.0));
      case 128 -> Optional.of(new Splitter(legs, 22.5, 24.5));
      default -> Optional.empty();
    };
  }
}
