package ferrule.trial;

import ferrule.core.optics.FibreKind;
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
}
