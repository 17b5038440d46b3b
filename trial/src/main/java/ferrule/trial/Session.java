package ferrule.trial;

import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Direction;
import ferrule.core.zero.Method;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** One zero and the links read under it, by one crew with one set of cords. */
final class Session {

  /** The zero of one direction and wavelength. */
  static final class Level {
    final Direction direction;
    final Band band;
    Instant setAt;

    /** Level in the launch cord when the zero was set, dBm. */
    double sourceDbm;

    /** Cord pairs that stood in line when the zero was set, as they were mated then, dB. */
    double takenOutDb;

    /** What the instrument stored, dBm, unrounded. */
    double storedDbm;

    Optional<Double> verificationDb;
    private final double swingDb;
    private final double phase;
    private final double cycles;

    Level(Direction direction, Band band, Instant setAt, double wanderDb, Dice dice) {
      this.direction = direction;
      this.band = band;
      this.setAt = setAt;
      this.verificationDb = Optional.empty();
      swingDb = dice.uniform(0, wanderDb / 2);
      phase = dice.uniform(0, 2 * Math.PI);
      cycles = dice.uniform(0.3, 1.5);
    }

    /** How far the source has wandered since the zero, dB; never more than the job's most. */
    double wanderDb(Instant at) {
      double hours = (at.getEpochSecond() - setAt.getEpochSecond()) / 3600.0;
      return swingDb * (Math.sin(phase + 2 * Math.PI * cycles * hours / 8) - Math.sin(phase));
    }
  }

  final String zero;
  final int crew;
  final CordSet cords;
  final List<TrueLink> links;
  Method method;
  final List<Level> levels = new ArrayList<>();

  /** Readings under this zero, in the order taken. */
  final List<RawReading> readings = new ArrayList<>();

  Session(String zero, int crew, CordSet cords, Method method, List<TrueLink> links) {
    this.zero = zero;
    this.crew = crew;
    this.cords = cords;
    this.method = method;
    this.links = List.copyOf(links);
  }

  FibreKind kind() {
    return cords.kind;
  }

  Level level(Direction direction, Band band) {
    for (Level level : levels) {
      if (level.direction == direction && level.band == band) {
        return level;
      }
    }
    throw new IllegalStateException("Zero " + zero + " has no level " + direction + " " + band);
  }
}
