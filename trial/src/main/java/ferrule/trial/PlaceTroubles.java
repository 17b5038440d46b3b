package ferrule.trial;

import ferrule.core.optics.FibreKind;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Subject;
import ferrule.trial.Planted.Named;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Troubles of what was built that many fibres share. */
final class PlaceTroubles {

  /** Scatter of such a trouble from fibre to fibre, dB. */
  private static final double SCATTER_DB = 0.03;

  private PlaceTroubles() {}

  /**
   * Every termination of one panel is worse.
   *
   * @param size dB, above 0
   */
  record PanelHigh(double size) implements Trouble {
    @Override
    public String kind() {
      return "panel-high";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      Map<String, Set<FibreId>> places = Fibres.byPlace(campaign);
      int all = campaign.fibreCount();
      List<Map.Entry<String, Set<FibreId>>> fit =
          places.entrySet().stream()
              .filter(p -> p.getValue().size() >= 12 && p.getValue().size() <= 0.6 * all)
              .filter(p -> othersOfItsKinds(campaign, p.getValue()))
              .toList();
      if (fit.isEmpty()) {
        return Optional.empty();
      }
      Map.Entry<String, Set<FibreId>> chosen = dice.oneOf(fit);
      String place = chosen.getKey();
      Set<FibreId> reach = chosen.getValue();
      worsen(campaign, reach, size, dice);
      List<Named> right = new ArrayList<>();
      // Two panels with the same fibres cannot be told apart: either will do.
      places.forEach(
          (other, fibres) -> {
            if (fibres.equals(reach)) {
              right.add(new Named(DoubtKind.PANEL_HIGH, new Subject(Subject.Type.PLACE, other)));
            }
          });
      List<Set<FibreId>> zeros =
          campaign.sessions.stream().map(s -> Fibres.of(s.readings)).toList();
      boolean confounded =
          campaign.sessions.size() > 1 && Fibres.madeOf(reach, zeros, new HashSet<>(reach(zeros)));
      return Optional.of(
          new Planted(
                  right,
                  List.of(reach),
                  right.size() > 1 ? "twin panel" : "panel",
                  confounded,
                  place)
              .scored(() -> Yardstick.level(likeMost(campaign, reach), reach)));
    }

    /** All readings of the kind of fibre that most of these are. */
    private static List<RawReading> likeMost(Campaign campaign, Set<FibreId> fibres) {
      Set<FibreId> single = new HashSet<>(Fibres.of(campaign, FibreKind.SINGLE_MODE));
      single.retainAll(fibres);
      FibreKind most =
          2 * single.size() >= fibres.size() ? FibreKind.SINGLE_MODE : FibreKind.MULTIMODE;
      return Fibres.where(campaign.readings(), r -> r.session.kind() == most);
    }

    private static Set<FibreId> reach(List<Set<FibreId>> sets) {
      Set<FibreId> all = new HashSet<>();
      sets.forEach(all::addAll);
      return all;
    }

    /** At least 20 fibres of each of its kinds lie elsewhere, to compare with. */
    private static boolean othersOfItsKinds(Campaign campaign, Set<FibreId> own) {
      for (FibreKind kind : FibreKind.values()) {
        Set<FibreId> fibres = new HashSet<>(Fibres.of(campaign, kind));
        int all = fibres.size();
        fibres.removeAll(own);
        if (fibres.size() < all && fibres.size() < 20) {
          return false;
        }
      }
      return true;
    }
  }

  /**
   * One position of every 12- or 24-fibre link is worse: a fault of assembly.
   *
   * @param size dB, above 0
   */
  record PositionHigh(double size) implements Trouble {
    @Override
    public String kind() {
      return "position-high";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      if (campaign.site.handling == Site.Handling.DUPLEX) {
        return Optional.empty();
      }
      int position = dice.whole(1, 12);
      Set<FibreId> reach = new HashSet<>();
      for (TrueLink link : campaign.site.links) {
        if (link.schedule().fibres() >= position) {
          reach.add(new FibreId(link.id(), position));
        }
      }
      if (reach.size() < 8) {
        return Optional.empty();
      }
      worsen(campaign, reach, size, dice);
      return Optional.of(
          Planted.of(
                  DoubtKind.POSITION_HIGH,
                  Subject.JOB,
                  reach,
                  campaign.site.handling == Site.Handling.ARRAY ? "array" : "one by one")
              .scored(() -> Yardstick.level(campaign.readings(), reach)));
    }
  }

  /** Adds some loss to each of these fibres, the same in both directions. */
  private static void worsen(Campaign campaign, Set<FibreId> fibres, double size, Dice dice) {
    double longer = dice.uniform(0.8, 1);
    Map<FibreId, Double> each =
        new java.util.TreeMap<>(java.util.Comparator.comparing(FibreId::toString));
    for (RawReading reading : campaign.readings()) {
      if (fibres.contains(reading.id())) {
        double db =
            each.computeIfAbsent(reading.id(), k -> Math.max(0, size + dice.normal(0, SCATTER_DB)));
        reading.addLoss(db * (reading.band.longer() ? longer : 1));
      }
    }
  }
}
