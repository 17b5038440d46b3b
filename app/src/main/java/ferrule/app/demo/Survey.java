package ferrule.app.demo;

import ferrule.app.demo.Session.Slip;
import ferrule.app.demo.Session.Stint;
import ferrule.app.demo.Trouble.Extra;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Tests the built fibres session by session, as a crew does: sets a zero, verifies it, mates both
 * cords, reads both wavelengths in that mating, turns the direction, goes on to the next fibre.
 *
 * <p>An end connection loses by the offset between the two cores, that of the link's plug and that
 * of the cord's, each mating moving it a little (about 0.04 dB between two readings of one fibre),
 * and 0.01 dB besides. The source drifts by some hundredths over a day.
 */
final class Survey {

  /** Spread of either coordinate of a reference-grade plug: a mean loss of 0.008 dB. */
  private static final double CORD_SD = 0.063;

  /** Most that a reference-grade plug may lose against a perfect one, dB. */
  private static final double WORST_CORD_DB = 0.012;

  /** How far a mating moves either coordinate. */
  private static final double MATING_SD = 0.045;

  /** What every mating loses besides its offset, dB. */
  private static final double FACE_DB = 0.01;

  /** A verification above this is cleaned and mated again, dB; well inside what rulebooks allow. */
  private static final double MATE_AGAIN_DB = 0.085;

  /** Directions further apart than this are mated again before anything is stored, dB. */
  private static final double READ_AGAIN_DB = 0.14;

  private static final int MOST_MATINGS = 50;

  /** What the dirt on the launch ends took from the stored powers of the dirty zero, dB. */
  private static final double DIRT_DB = 0.23;

  /** Light that is on half of the time: 10 lg 2, dB. */
  private static final double MODULATION_DB = 3.01;

  /** The longer wavelength comes out a little weaker, dB. */
  private static final double LONGER_DB = 0.25;

  private static final double SPARE_M = 95;

  private final Dice dice;
  private final Map<FibreId, BuiltFibre> fibres;
  private final Map<String, Offset> cordPlugs = new HashMap<>();
  private final List<Zero> zeros = new ArrayList<>();
  private final List<Reading> readings = new ArrayList<>();

  Survey(Map<FibreId, BuiltFibre> fibres, Dice dice) {
    this.fibres = fibres;
    this.dice = dice;
    for (Cord cord : Kit.cords()) {
      Offset offset = dice.offset(CORD_SD);
      while (offset.db() > WORST_CORD_DB) {
        offset = dice.offset(CORD_SD);
      }
      cordPlugs.put(cord.id(), offset);
    }
  }

  List<Zero> zeros() {
    return zeros;
  }

  List<Reading> readings() {
    return readings;
  }

  void run(Session session) {
    Setup setup = new Setup(session);
    zeros.add(setup.zero);
    OffsetDateTime at = session.setAt();
    for (Stint stint : session.stints()) {
      at = at.isAfter(stint.start()) ? at.plusMinutes(dice.whole(8, 14)) : stint.start();
      for (Link link : stint.block().links()) {
        for (int fibre = 1; fibre <= link.fibres(); fibre++) {
          at = setup.test(new FibreId(link.id(), fibre), at);
        }
        at = at.plusSeconds(dice.whole(45, 100));
      }
    }
  }

  private static List<Wavelength> wavelengths(FibreKind kind) {
    return kind == FibreKind.SINGLE_MODE
        ? List.of(Kit.NM_1310, Kit.NM_1550)
        : List.of(Kit.NM_850, Kit.NM_1300);
  }

  private Offset plug(String cord) {
    Offset plug = cordPlugs.get(cord);
    if (plug == null) {
      throw new IllegalStateException("Cord " + cord + " is not in the kit");
    }
    return plug;
  }

  private BuiltFibre fibre(FibreId id) {
    BuiltFibre fibre = fibres.get(id);
    if (fibre == null) {
      throw new IllegalStateException("Fibre " + id + " was not built");
    }
    return id.equals(Trouble.READ_SPARE) ? fibre.spare(SPARE_M) : fibre;
  }

  /** Loss of one mating of two plugs, dB at the shorter wavelength. */
  private double mate(Offset one, Offset other) {
    return FACE_DB + one.minus(other).plus(dice.offset(MATING_SD)).db();
  }

  /** Two decimals, as instruments show. */
  private static double shown(double value) {
    return hundredths(value) / 100.0;
  }

  private static long hundredths(double value) {
    return Math.round(value * 100);
  }

  /** A session under way: its zero, and how its sources drift. */
  private final class Setup {
    final Session session;
    final Zero zero;

    /** Loss of the pair of cords that a two-cord zero takes out, dB at the shorter wavelength. */
    private final double takenOutDb;

    private final double driftPerHour;

    Setup(Session session) {
      this.session = session;
      this.driftPerHour = 0.003 * dice.bell();
      this.takenOutDb = session.slip() == Slip.TWO_CORD ? matePair() : 0;
      this.zero = zero();
    }

    private double matePair() {
      Kit.Pair cords = session.cords();
      double loss = mate(plug(cords.near()), plug(cords.far()));
      while (loss > MATE_AGAIN_DB) {
        loss = mate(plug(cords.near()), plug(cords.far()));
      }
      return loss;
    }

    private double scale(Wavelength wavelength) {
      return BuiltFibre.scale(session.kind(), wavelength);
    }

    private double missedDb() {
      return session.slip() == Slip.DIRTY ? DIRT_DB : 0;
    }

    private Zero zero() {
      List<ZeroLevel> levels = new ArrayList<>(4);
      OffsetDateTime at = session.setAt();
      for (Direction direction : Direction.values()) {
        boolean forward = direction == Direction.A_TO_B;
        Kit.Set sends = forward ? session.near() : session.far();
        Kit.Set measures = forward ? session.far() : session.near();
        double warm = 0.035 * dice.bell();
        double pair = matePair();
        for (Wavelength wavelength : wavelengths(session.kind())) {
          double level =
              sends.levelDbm()
                  + warm
                  - (BuiltFibre.isShorter(wavelength) ? 0 : LONGER_DB)
                  - missedDb()
                  - takenOutDb * scale(wavelength)
                  - (forward && session.slip() == Slip.MODULATED ? MODULATION_DB : 0);
          double verification = pair * scale(wavelength) - missedDb() + 0.004 * dice.bell();
          levels.add(
              new ZeroLevel(
                  at.toInstant(),
                  direction,
                  wavelength,
                  new LevelDbm(shown(level)),
                  session.slip() == Slip.UNVERIFIED
                      ? Optional.empty()
                      : Optional.of(new LossDb(shown(verification))),
                  sends.source(),
                  measures.meter(),
                  forward ? session.cords().near() : session.cords().far(),
                  forward ? session.cords().far() : session.cords().near(),
                  "",
                  Optional.of(session.cords().category()),
                  session.crew().operator()));
          at = at.plusSeconds(dice.whole(20, 40));
        }
        at = at.plusSeconds(dice.whole(150, 260));
      }
      Method method = session.slip() == Slip.TWO_CORD ? Method.TWO_CORD : Method.ONE_CORD;
      return new Zero(session.zero(), method, levels);
    }

    /**
     * Tests one fibre.
     *
     * @return when the crew turns to the next one
     */
    OffsetDateTime test(FibreId port, OffsetDateTime start) {
      Extra extra = Trouble.extra(port);
      OffsetDateTime at = readBothWays(port, extra, start);
      if (extra.cleaned()) {
        at = readBothWays(port, Extra.NONE, at.plusSeconds(dice.whole(240, 420)));
      }
      return at;
    }

    private OffsetDateTime readBothWays(FibreId port, Extra extra, OffsetDateTime start) {
      BuiltFibre fibre = fibre(Trouble.behindPort(port));
      double forward = ends(fibre, Direction.A_TO_B);
      double back = ends(fibre, Direction.B_TO_A);
      for (int i = 0; Math.abs(forward - back) > READ_AGAIN_DB && i < MOST_MATINGS; i++) {
        forward = ends(fibre, Direction.A_TO_B);
        back = ends(fibre, Direction.B_TO_A);
      }
      OffsetDateTime at = start.plusSeconds(dice.whole(55, 110));
      at = read(port, fibre, extra, Direction.A_TO_B, forward, at);
      if (!Trouble.isOneWay(port)) {
        at = at.plusSeconds(dice.whole(35, 70));
        at = read(port, fibre, extra, Direction.B_TO_A, back, at);
      }
      return at;
    }

    /** Loss of both end connections, each mated once, dB at the shorter wavelength. */
    private double ends(BuiltFibre fibre, Direction direction) {
      boolean forward = direction == Direction.A_TO_B;
      Kit.Pair cords = session.cords();
      return mate(fibre.entry(direction), plug(forward ? cords.near() : cords.far()))
          + mate(fibre.exit(direction), plug(forward ? cords.far() : cords.near()));
    }

    private OffsetDateTime read(
        FibreId port,
        BuiltFibre fibre,
        Extra extra,
        Direction direction,
        double ends,
        OffsetDateTime start) {
      boolean troubled = extra.only().map(only -> only == direction).orElse(true);
      double length = Math.round((fibre.lengthM() + 0.03 * dice.bell()) * 10) / 10.0;
      FibreId name = Trouble.writtenName(port);
      OffsetDateTime at = start;
      for (Wavelength wavelength : wavelengths(session.kind())) {
        boolean shorter = BuiltFibre.isShorter(wavelength);
        double loss =
            (ends - takenOutDb) * scale(wavelength)
                + fibre.insideDb(wavelength)
                + (troubled ? (shorter ? extra.shorterDb() : extra.longerDb()) : 0)
                - missedDb()
                + driftPerHour * hoursSinceZero(at)
                + 0.004 * dice.bell();
        ZeroLevel level = zero.level(direction, wavelength).orElseThrow();
        readings.add(
            new Reading(
                name.link(),
                name.fibre(),
                direction,
                wavelength,
                (hundredths(level.power().value()) - hundredths(loss)) / 100.0,
                shown(loss),
                length,
                zero.id(),
                at.toInstant(),
                session.crew().operator()));
        at = at.plusSeconds(dice.whole(6, 9));
      }
      return at;
    }

    private double hoursSinceZero(OffsetDateTime at) {
      return Duration.between(session.setAt(), at).toSeconds() / 3600.0;
    }
  }
}
