package ferrule.trial;

import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.Figure;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Subject;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Troubles of one fibre. */
final class FibreTroubles {

  private FibreTroubles() {}

  /** One fibre of the campaign, drawn by link. */
  static FibreId any(Campaign campaign, Dice dice) {
    TrueLink link = dice.oneOf(campaign.site.links);
    return new FibreId(link.id(), dice.whole(1, link.schedule().fibres()));
  }

  static List<RawReading> of(Campaign campaign, FibreId fibre) {
    return Fibres.where(campaign.readings(), r -> r.id().equals(fibre));
  }

  /** Most loss that the rulebook permits, dB. */
  static double limitDb(Campaign campaign, Link link, Band band) {
    FibreKind kind = link.category().kind();
    return value(campaign.rulebook.fibreLimit(link.category(), band.wavelength())) * link.lengthKm()
        + value(campaign.rulebook.endLimit(kind, CordGrade.REFERENCE))
            * campaign.method.endConnections()
        + value(campaign.rulebook.innerLimit(kind)) * link.connections()
        + value(campaign.rulebook.spliceLimit(kind)) * link.splices();
  }

  private static double value(Optional<Figure> figure) {
    return figure.map(Figure::value).orElseThrow();
  }

  /**
   * A bad end: far above its like, yet inside the limit.
   *
   * @param size dB at the shorter wavelength, above 0
   */
  record Outlier(double size) implements Trouble {
    @Override
    public String kind() {
      return "outlier";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      FibreId fibre = any(campaign, dice);
      List<RawReading> own = of(campaign, fibre);
      for (RawReading reading : own) {
        reading.addLoss(size * (reading.band.longer() ? 1 / 1.2 : 1));
        if (reading.lossDb() > limitDb(campaign, reading.link.schedule(), reading.band) - 0.03) {
          return Optional.empty();
        }
      }
      return Optional.of(
          Planted.of(DoubtKind.OUTLIER, Subject.fibre(fibre), Set.of(fibre), "fibre"));
    }
  }

  /** Lowest credible attenuation, dB/km: 850, 1300, 1310, 1550 nm (scattering floor). */
  private static double floorDbPerKm(Band band) {
    return switch (band) {
      case MM_SHORT -> 2.0;
      case MM_LONG -> 0.4;
      case SM_SHORT -> 0.30;
      case SM_LONG -> 0.17;
    };
  }

  /**
   * One fibre reads less than its glass alone must lose, whatever the zero took out.
   *
   * @param size how much less, dB, above 0
   */
  record BelowFloor(double size) implements Trouble {
    @Override
    public String kind() {
      return "below-floor";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      FibreId fibre = any(campaign, dice);
      List<RawReading> own = of(campaign, fibre);
      for (RawReading reading : own) {
        double pair = reading.link.kind() == FibreKind.SINGLE_MODE ? 0.20 : 0.10;
        double target =
            floorDbPerKm(reading.band) * reading.link.schedule().lengthKm()
                - campaign.method.cordPairs() * pair
                - size
                + dice.normal(0, 0.02);
        reading.addLoss(target - reading.lossDb());
      }
      return Optional.of(
          Planted.of(DoubtKind.BELOW_FLOOR, Subject.fibre(fibre), Set.of(fibre), "fibre"));
    }
  }

  /**
   * A bend: the longer wavelength loses more than the shorter.
   *
   * @param size how much more, dB, above 0
   */
  record WavelengthOrder(double size) implements Trouble {
    @Override
    public String kind() {
      return "wavelength-order";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      FibreId fibre = any(campaign, dice);
      List<RawReading> own = of(campaign, fibre);
      // The same bend in both directions, as large as its own glass and joints ask for.
      double bend = 0;
      for (RawReading longer : Fibres.where(own, r -> r.band.longer())) {
        for (RawReading shorter : Fibres.where(own, r -> !r.band.longer())) {
          if (shorter.direction == longer.direction) {
            bend = Math.max(bend, shorter.lossDb() - longer.lossDb());
          }
        }
      }
      for (RawReading reading : own) {
        reading.addLoss((bend + size) * (reading.band.longer() ? 1 : 0.01));
      }
      return Optional.of(
          Planted.of(DoubtKind.WAVELENGTH_ORDER, Subject.fibre(fibre), Set.of(fibre), "fibre"));
    }
  }

  /**
   * Dirt at the matings of one direction only.
   *
   * @param size dB, above 0
   */
  record DirectionGap(double size) implements Trouble {
    @Override
    public String kind() {
      return "direction-gap";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      if (campaign.directions.size() < 2) {
        return Optional.empty();
      }
      FibreId fibre = any(campaign, dice);
      Direction direction = dice.oneOf(campaign.directions);
      Fibres.where(of(campaign, fibre), r -> r.direction == direction)
          .forEach(r -> r.addLoss(size));
      return Optional.of(
          Planted.of(
              DoubtKind.DIRECTION_GAP,
              Subject.fibre(fibre),
              Set.of(fibre),
              kindOf(campaign, fibre) == FibreKind.SINGLE_MODE ? "single-mode" : "multimode"));
    }

    private static FibreKind kindOf(Campaign campaign, FibreId fibre) {
      return of(campaign, fibre).get(0).link.kind();
    }
  }
}
