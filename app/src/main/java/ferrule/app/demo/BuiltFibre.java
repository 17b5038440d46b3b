package ferrule.app.demo;

import ferrule.core.optics.FibreKind;
import ferrule.core.optics.SingleModeCoupling;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * A fibre as it was truly built, which no instrument ever shows.
 *
 * @param kind of fibre
 * @param lengthM true length of the glass, metres
 * @param shorterDbPerKm attenuation at the shorter wavelength
 * @param longerDbPerKm attenuation at the longer wavelength
 * @param a offset of the core in its plug at end A
 * @param b the same at end B
 * @param innerDb loss of the connections inside, dB at the shorter wavelength
 * @param spliceDb loss of the splices, dB, alike at both
 */
record BuiltFibre(
    FibreKind kind,
    double lengthM,
    double shorterDbPerKm,
    double longerDbPerKm,
    Offset a,
    Offset b,
    double innerDb,
    double spliceDb) {

  /** Two coordinates of this spread: a mean loss of 0.11 dB, exponential but for its cut tail. */
  private static final double PLUG_SD = 0.235;

  private static final double INNER_SD = 0.30;

  /** A plug that loses more is made again before anyone tests it, dB. */
  private static final double WORST_PLUG_DB = 0.40;

  /**
   * What the two plugs of a fibre under the dirty zero lose at least, dB, unless it is one of the
   * well joined: so for every seed the same fibres fall below what their glass must lose.
   */
  private static final double PLAINLY_JOINED_DB = 0.26;

  /** Schedules tell the length of glass within this share of it. */
  private static final double LENGTH_SHARE = 0.003;

  private static BuiltFibre of(Link link, double[] dbPerKm, boolean plain, Dice dice) {
    Offset a = plug(PLUG_SD, dice);
    Offset b = plug(PLUG_SD, dice);
    while (plain && a.db() + b.db() < PLAINLY_JOINED_DB) {
      a = plug(PLUG_SD, dice);
      b = plug(PLUG_SD, dice);
    }
    double inner = 0;
    for (int i = 0; i < link.connections(); i++) {
      inner += 0.03 + plug(INNER_SD, dice).db();
    }
    double splices = 0;
    for (int i = 0; i < link.splices(); i++) {
      splices += 0.05 + 0.015 * dice.bell();
    }
    return new BuiltFibre(
        link.category().kind(),
        link.lengthM() * (1 + dice.between(-LENGTH_SHARE, LENGTH_SHARE)),
        dbPerKm[0],
        dbPerKm[1],
        a,
        b,
        inner,
        splices);
  }

  private static Offset plug(double sd, Dice dice) {
    Offset offset = dice.offset(sd);
    while (offset.db() > WORST_PLUG_DB) {
      offset = dice.offset(sd);
    }
    return offset;
  }

  /** Every fibre of the schedule, as built. */
  static Map<FibreId, BuiltFibre> all(List<Link> links, Dice dice) {
    Map<FibreId, BuiltFibre> all = new HashMap<>();
    for (Link link : links) {
      double[] dbPerKm = glass(link.category().kind(), dice);
      for (int fibre = 1; fibre <= link.fibres(); fibre++) {
        FibreId id = new FibreId(link.id(), fibre);
        BuiltFibre built = of(link, dbPerKm, Trouble.isUnderTheDirtyZero(id), dice);
        all.put(id, Trouble.WELL_JOINED.contains(id) ? built.wellJoined() : built);
      }
    }
    return all;
  }

  /** Attenuation of one cable at the shorter and the longer wavelength, dB/km. */
  private static double[] glass(FibreKind kind, Dice dice) {
    return kind == FibreKind.SINGLE_MODE
        ? new double[] {0.335 + 0.006 * dice.bell(), 0.197 + 0.005 * dice.bell()}
        : new double[] {2.33 + 0.05 * dice.bell(), 0.55 + 0.02 * dice.bell()};
  }

  /** The same with cores in the middle of their plugs. */
  private BuiltFibre wellJoined() {
    return new BuiltFibre(
        kind, lengthM, shorterDbPerKm, longerDbPerKm, Offset.NONE, Offset.NONE, innerDb, spliceDb);
  }

  /** A short piece of such glass, well joined, with nothing inside. */
  BuiltFibre spare(double shortM) {
    return new BuiltFibre(
        kind, shortM, shorterDbPerKm, longerDbPerKm, Offset.NONE, Offset.NONE, 0, 0);
  }

  /** The plug where light enters. */
  Offset entry(Direction direction) {
    return direction == Direction.A_TO_B ? a : b;
  }

  /** The plug where light leaves. */
  Offset exit(Direction direction) {
    return direction == Direction.A_TO_B ? b : a;
  }

  /** Loss of all that lies between the two end connections, dB. */
  double insideDb(Wavelength wavelength) {
    double dbPerKm = isShorter(wavelength) ? shorterDbPerKm : longerDbPerKm;
    return dbPerKm * lengthM / 1000 + innerDb * scale(kind, wavelength) + spliceDb;
  }

  static boolean isShorter(Wavelength wavelength) {
    return wavelength.equals(Kit.NM_850) || wavelength.equals(Kit.NM_1310);
  }

  /** Loss by offset at a wavelength over that at the shorter one: 1/1.278 at 1550 nm. */
  static double scale(FibreKind kind, Wavelength wavelength) {
    return kind == FibreKind.SINGLE_MODE ? SingleModeCoupling.offsetFactorFrom1310(wavelength) : 1;
  }
}
