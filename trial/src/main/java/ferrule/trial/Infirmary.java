package ferrule.trial;

import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.trial.TrueLink.TrueFibre;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Gives fibres of a campaign what makes them lose more, by this module's own physics: geometry of
 * ends, cavities, glass. Where an end changes, every reading changes by what its own cord plug
 * loses against the new end less what it lost against the old.
 *
 * <p>Sizes are assumed: offsets 0.8 to 2.6 µm, tilts 0.6 to 2 degrees, gaps 1 to 60 µm, dirt 0.1 dB
 * and exponential beyond.
 */
final class Infirmary {

  private static final double DIRT_LEAST_DB = 0.1;
  private static final double DIRT_MEAN_DB = 0.35;

  /** Where the light leaves an 8° end: refracted by the glass, {@code 8 (n - 1)} degrees in air. */
  private static final double ANGLED_RAD = Math.toRadians(8 * (1.4468 - 1));

  private final Campaign campaign;
  private final Dice dice;
  private final Map<FibreId, List<RawReading>> byFibre = new LinkedHashMap<>();

  private Infirmary(Campaign campaign, Dice dice) {
    this.campaign = campaign;
    this.dice = dice;
    for (RawReading reading : campaign.readings()) {
      byFibre.computeIfAbsent(reading.id(), k -> new ArrayList<>()).add(reading);
    }
  }

  /**
   * Draws for every fibre what is wrong with it.
   *
   * @return what is, by fibre; those with nothing left out
   */
  static Map<FibreId, Ailment> fill(Campaign campaign, Dice dice) {
    Infirmary infirmary = new Infirmary(campaign, dice);
    // Crews and sites differ: some jobs have several times as many bad fibres as others.
    double times = dice.logUniform(0.4, 2.2);
    Map<FibreId, Ailment> ill = new LinkedHashMap<>();
    infirmary.byFibre.forEach(
        (fibre, readings) -> {
          Ailment ailment = Ailment.draw(readings.get(0).link.kind(), times, dice);
          if (ailment != Ailment.NOTHING && infirmary.give(ailment, fibre, readings)) {
            ill.put(fibre, ailment);
          }
        });
    return ill;
  }

  private boolean give(Ailment ailment, FibreId fibre, List<RawReading> own) {
    FibreKind kind = own.get(0).link.kind();
    boolean single = kind == FibreKind.SINGLE_MODE;
    TrueFibre truth = own.get(0).link.fibres().get(fibre.fibre() - 1);
    switch (ailment) {
      case FILM -> {
        double film = dirt();
        own.forEach(r -> r.addLoss(film));
      }
      case CORD_DIRT -> {
        double size = dirt();
        double longer = !single || dice.chance(0.6) ? 1 : dice.uniform(1 / 1.278, 1);
        oneWay(own).forEach(r -> r.addLoss(r.band.longer() ? size * longer : size));
      }
      case OFFSET -> {
        if (single) {
          double um = dice.uniform(0.8, 2.6);
          out(own, truth, new Plug(um, 0, 0, 0, 0), 0.6);
        } else {
          double size = dirt();
          double longer = dice.normal(0.97, 0.03);
          own.forEach(r -> r.addLoss(r.band.longer() ? size * longer : size));
        }
      }
      case TILT -> out(own, truth, new Plug(0, 0, Math.toRadians(dice.uniform(0.6, 2)), 0, 0), 0.7);
      case GAP -> gap(own, single);
      case BEND -> {
        double size = 0.15 + dice.exponential(0.5);
        double shorter =
            !single
                ? dice.uniform(0.6, 0.95)
                : dice.chance(0.75) ? dice.logUniform(0.002, 0.05) : dice.uniform(0.15, 0.75);
        (dice.chance(0.85) ? own : oneWay(own))
            .forEach(r -> r.addLoss(r.band.longer() ? size : size * shorter));
      }
      case LONGER -> {
        double more = dice.uniform(0.3, 2);
        double metres = truth.lengthM() * more;
        double[] perKm = single ? new double[] {0.34, 0.20} : new double[] {2.35, 0.55};
        for (RawReading reading : own) {
          reading.addLoss(metres / 1000 * perKm[reading.band.index()]);
          reading.lengthM += metres;
        }
      }
      case OTHER_FIBRE -> {
        return another(own, truth, kind);
      }
      case CORES -> {
        double size = dice.uniform(1.8, 4.5);
        double longer = dice.uniform(0.88, 1);
        double back = dice.uniform(0, 0.12);
        Direction lossy = dice.chance(0.5) ? Direction.A_TO_B : Direction.B_TO_A;
        own.forEach(
            r -> r.addLoss((r.direction == lossy ? size : back) * (r.band.longer() ? longer : 1)));
      }
      case POLISH -> polish(own, single);
      case EXCHANGED -> exchange(own);
      case ONE_READING ->
          dice.oneOf(own).addLoss((dice.chance(0.8) ? 1 : -1) * dice.uniform(0.3, 3));
      case ODD -> own.forEach(r -> r.addLoss(Math.abs(dice.normal(0, 1))));
      case NOTHING -> {
        return false;
      }
    }
    return true;
  }

  private double dirt() {
    return DIRT_LEAST_DB + dice.exponential(DIRT_MEAN_DB);
  }

  /** Readings of one direction; none where that one was not read. */
  private List<RawReading> oneWay(List<RawReading> own) {
    Direction way = dice.chance(0.5) ? Direction.A_TO_B : Direction.B_TO_A;
    return Fibres.where(own, r -> r.direction == way);
  }

  private int leg(RawReading reading) {
    return campaign.site.handling == Site.Handling.ARRAY ? reading.fibre - 1 : 0;
  }

  /** Mates the fibre's end at A or B anew, further out; or spoils a joint inside the link. */
  private void out(List<RawReading> own, TrueFibre truth, Plug by, double atEnd) {
    double turn = dice.uniform(0, 2 * Math.PI);
    Plug turned =
        new Plug(
            by.xUm() * Math.cos(turn),
            by.xUm() * Math.sin(turn),
            by.tiltXRad() * Math.cos(turn),
            by.tiltXRad() * Math.sin(turn),
            0);
    if (!dice.chance(atEnd)) {
      Plug inside =
          new Plug(
              turned.xUm(),
              turned.yUm(),
              turned.tiltXRad(),
              turned.tiltYRad(),
              Physics.MFD_1310_UM);
      own.forEach(r -> r.addLoss(Physics.matedDb(Plug.IDEAL, inside, r.band.longer())));
      return;
    }
    boolean atA = dice.chance(0.5);
    Tip good = atA ? truth.a() : truth.b();
    Plug was = good.plug();
    Tip bad =
        new Tip(
            new Plug(
                was.xUm() + turned.xUm(),
                was.yUm() + turned.yUm(),
                was.tiltXRad() + turned.tiltXRad(),
                was.tiltYRad() + turned.tiltYRad(),
                was.mfd1310Um()),
            good.ownShortDb(),
            good.ownLongDb(),
            good.filmDb());
    for (RawReading reading : own) {
      Tip cord = cord(reading, atA);
      FibreKind kind = reading.link.kind();
      boolean longer = reading.band.longer();
      reading.addLoss(
          campaign.world.matedDb(kind, cord, bad, longer)
              - campaign.world.matedDb(kind, cord, good, longer));
    }
  }

  /** The cord plug that met the fibre's end at A or B. */
  private Tip cord(RawReading reading, boolean atA) {
    boolean launch = (reading.direction == Direction.A_TO_B) == atA;
    return (launch
            ? reading.session.cords.launch(reading.direction)
            : reading.session.cords.receive(reading.direction))
        .tips.get(leg(reading));
  }

  /** Each mating leaves another gap; a cord's plug not home leaves it in one direction only. */
  private void gap(List<RawReading> own, boolean single) {
    Map<Direction, Double> um = new EnumMap<>(Direction.class);
    for (Direction direction : Direction.values()) {
      um.put(direction, dice.logUniform(1, 60));
    }
    for (RawReading reading : dice.chance(0.6) ? own : oneWay(own)) {
      double gap = um.getOrDefault(reading.direction, 0.0);
      double nm = reading.band.wavelength().nm();
      if (single) {
        double w = (reading.band.longer() ? Physics.MFD_1550_UM : Physics.MFD_1310_UM) / 2;
        reading.addLoss(
            Physics.couplingDb(w, w, nm / 1000, 1, 0, 0, gap)
                + Physics.cavityDb(gap, nm / 1000, 0));
      } else {
        // Spreading over the gap by the aperture: 0.43 dB at 50 µm (first order, uniform launch).
        reading.addLoss(0.0086 * gap + Physics.cavityDb(gap, nm / 1000, nm < 1000 ? 0.045 : 0.06));
      }
    }
  }

  private boolean another(List<RawReading> own, TrueFibre truth, FibreKind kind) {
    TrueLink link = dice.oneOf(campaign.site.of(kind));
    if (link == own.get(0).link) {
      return false;
    }
    TrueFibre other = link.fibres().get(Math.min(own.get(0).fibre, link.fibres().size()) - 1);
    for (RawReading reading : own) {
      boolean longer = reading.band.longer();
      double more =
          other.throughDb()[reading.band.index()] - truth.throughDb()[reading.band.index()];
      for (boolean atA : new boolean[] {true, false}) {
        Tip cord = cord(reading, atA);
        more +=
            campaign.world.matedDb(kind, cord, atA ? other.a() : other.b(), longer)
                - campaign.world.matedDb(kind, cord, atA ? truth.a() : truth.b(), longer);
      }
      reading.addLoss(more);
      reading.lengthM += other.lengthM() - truth.lengthM();
    }
    return true;
  }

  /** A wedge of air between the two, two glass faces, a tilted beam; or an attenuator. */
  private void polish(List<RawReading> own, boolean single) {
    if (!single || dice.chance(0.2)) {
      double db = dice.oneOf(List.of(3.0, 5.0, 10.0)) + dice.normal(0, 0.15);
      own.forEach(r -> r.addLoss(db));
      return;
    }
    double um = dice.uniform(15, 60);
    for (Direction direction : campaign.directions) {
      double gap = um + dice.normal(0, 2);
      Fibres.where(own, r -> r.direction == direction)
          .forEach(
              r -> {
                double w = (r.band.longer() ? Physics.MFD_1550_UM : Physics.MFD_1310_UM) / 2;
                double lambda = r.band.wavelength().nm() / 1000.0;
                r.addLoss(0.29 + Physics.couplingDb(w, w, lambda, 1, 0, ANGLED_RAD, gap));
              });
    }
  }

  private static void exchange(List<RawReading> own) {
    for (RawReading shorter : Fibres.where(own, r -> !r.band.longer())) {
      for (RawReading longer : own) {
        if (longer.band.longer() && longer.direction == shorter.direction) {
          double gap = shorter.lossDb() - longer.lossDb();
          shorter.addLoss(-gap);
          longer.addLoss(gap);
        }
      }
    }
  }
}
