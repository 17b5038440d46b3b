package ferrule.trial;

import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import java.time.Instant;

/** One reading before it is rounded and written down. Troubles change it here. */
final class RawReading {

  final TrueLink link;
  final Session session;
  final Direction direction;
  final Band band;

  /** Name it is filed under. */
  String name;

  int fibre;

  /** Level read, dBm, unrounded. */
  double powerDbm;

  /** What the instrument compares it with, dBm. */
  double storedDbm;

  /** Length measured, metres, unrounded; NaN if none. */
  double lengthM;

  Instant at;
  String reference;

  RawReading(
      TrueLink link,
      int fibre,
      Session session,
      Session.Level level,
      double powerDbm,
      double lengthM,
      Instant at) {
    this.link = link;
    this.name = link.id();
    this.fibre = fibre;
    this.session = session;
    this.direction = level.direction;
    this.band = level.band;
    this.storedDbm = level.storedDbm;
    this.powerDbm = powerDbm;
    this.lengthM = lengthM;
    this.at = at;
    this.reference = session.zero;
  }

  double lossDb() {
    return storedDbm - powerDbm;
  }

  /** Makes the reading higher by some dB. */
  void addLoss(double db) {
    powerDbm -= db;
  }

  FibreId id() {
    return new FibreId(name, fibre);
  }

  boolean hasLength() {
    return !Double.isNaN(lengthM);
  }
}
