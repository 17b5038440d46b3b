package ferrule.trial;

import ferrule.core.optics.FibreKind;

/**
 * The physics of one job: which law its connections follow, and how large its scatters are. Drawn
 * once a job, so that a judge meets many worlds.
 */
final class World {

  /** How single-mode connections come about. */
  enum Law {
    /** From the geometry of two plugs, grade B in the link against reference plugs. */
    GEOMETRY,
    /** End connections log-normal, mean 0.12 dB, standard deviation 0.078 dB. */
    LOG_NORMAL
  }

  final Law law;

  /** Repeatability of one mating of one end, dB. */
  final double matingDb;

  /** Noise of the meter, dB. */
  final double meterDb;

  /** Most that a source wanders within a zero, dB. */
  final double wanderDb;

  /** Share of ends that carry a film of dirt. */
  private final double filmShare;

  /** How much the terminations of one panel differ from another's, standard deviation, dB. */
  final double panelDb;

  /** Mean of a multimode end connection, dB: differs with the launch and the plugs of a job. */
  private final double multimodeMeanDb;

  World(Dice dice) {
    law = dice.chance(0.5) ? Law.GEOMETRY : Law.LOG_NORMAL;
    matingDb = dice.uniform(0.02, 0.04);
    meterDb = dice.uniform(0.005, 0.02);
    wanderDb = dice.uniform(0, 0.03);
    filmShare = dice.uniform(0, 0.03);
    panelDb = dice.uniform(0, 0.015);
    multimodeMeanDb = dice.uniform(0.06, 0.14);
  }

  /** The end of an installed fibre in a panel whose terminations lose so much more than others. */
  Tip linkTip(FibreKind kind, double panel, Dice dice) {
    Tip tip = linkTip(kind, dice);
    double longer = panel * matingShare(kind, true);
    return new Tip(tip.plug(), tip.ownShortDb() + panel, tip.ownLongDb() + longer, tip.filmDb());
  }

  /** The end of an installed fibre. */
  Tip linkTip(FibreKind kind, Dice dice) {
    double film = dice.chance(filmShare) ? Math.min(dice.exponential(0.03), 0.12) : 0;
    if (kind == FibreKind.MULTIMODE) {
      double loss = dice.gamma(3, multimodeMeanDb);
      return new Tip(Plug.IDEAL, loss, loss * dice.normal(0.97, 0.03), film);
    }
    if (law == Law.GEOMETRY) {
      return new Tip(Plug.Grade.B.draw(dice), 0, 0, film);
    }
    double loss = dice.logNormal(0.12, 0.078);
    return new Tip(Plug.IDEAL, loss, loss / dice.uniform(1.10, 1.278), film);
  }

  /** The link-side end of a reference-grade test cord, clean. */
  Tip cordTip(FibreKind kind, Dice dice) {
    if (kind == FibreKind.MULTIMODE) {
      double loss = dice.exponential(0.02);
      return new Tip(Plug.IDEAL, loss, loss * dice.normal(0.97, 0.03), 0);
    }
    return new Tip(Plug.Grade.R1.draw(dice), 0, 0, 0);
  }

  /** Loss of two ends mated, dB, as the same mating always gives it. */
  double matedDb(FibreKind kind, Tip one, Tip other, boolean longer) {
    double own =
        longer ? one.ownLongDb() + other.ownLongDb() : one.ownShortDb() + other.ownShortDb();
    double geometry =
        kind == FibreKind.SINGLE_MODE ? Physics.matedDb(one.plug(), other.plug(), longer) : 0;
    return own + geometry + one.filmDb() + other.filmDb();
  }

  /** A connection inside a link: two installed plugs. */
  double[] innerDb(FibreKind kind, Dice dice) {
    Tip one = linkTip(kind, dice);
    Tip other = linkTip(kind, dice);
    if (kind == FibreKind.SINGLE_MODE && law == Law.LOG_NORMAL) {
      other = new Tip(Plug.Grade.B.draw(dice), 0, 0, other.filmDb());
    }
    return new double[] {matedDb(kind, one, other, false), matedDb(kind, one, other, true)};
  }

  /** A fusion splice: nearly the same at both wavelengths. */
  double[] spliceDb(Dice dice) {
    double loss = dice.logNormal(0.035, 0.025);
    return new double[] {loss, loss * dice.normal(0.95, 0.05)};
  }

  /** How much of a mating's repeatability is seen at the longer wavelength: mostly offset. */
  double matingShare(FibreKind kind, boolean longer) {
    return !longer ? 1 : kind == FibreKind.SINGLE_MODE ? 1 / 1.2 : 0.97;
  }
}
