package ferrule.trial;

import ferrule.core.optics.FibreKind;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Subject;
import ferrule.trial.Planted.Named;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** Troubles that measured lengths tell. */
final class LengthTroubles {

  private LengthTroubles() {}

  /** What an honest measured length may differ from its schedule by, metres, with some room. */
  private static double honestM(double scheduledM) {
    return 3 + 0.025 * scheduledM;
  }

  private static boolean schedulesSpread(Campaign campaign) {
    double shortest = Double.MAX_VALUE;
    double longest = 0;
    for (TrueLink link : campaign.site.links) {
      shortest = Math.min(shortest, link.schedule().lengthM());
      longest = Math.max(longest, link.schedule().lengthM());
    }
    return longest > 1.5 * shortest && longest - shortest > 40;
  }

  /**
   * Every measured length is off by one ratio: a wrong index, feet for metres.
   *
   * @param size the ratio
   */
  record LengthScale(double size) implements Trouble {
    @Override
    public String kind() {
      return "length-scale";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      if (!campaign.lengths) {
        return Optional.empty();
      }
      campaign.readings().forEach(r -> r.lengthM *= size);
      Planted planted =
          Planted.of(
              DoubtKind.LENGTH_SCALE,
              Subject.JOB,
              Fibres.of(campaign.readings()),
              size > 2 || size < 0.5 ? "feet and metres" : "index");
      return Optional.of(schedulesSpread(campaign) ? planted : planted.asConfounded());
    }
  }

  /**
   * Every measured length is off by one constant: cords not taken off.
   *
   * @param size metres
   */
  record LengthOffset(double size) implements Trouble {
    @Override
    public String kind() {
      return "length-offset";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      if (!campaign.lengths) {
        return Optional.empty();
      }
      campaign.readings().forEach(r -> r.lengthM += size);
      Planted planted =
          Planted.of(DoubtKind.LENGTH_OFFSET, Subject.JOB, Fibres.of(campaign.readings()), "cords");
      return Optional.of(schedulesSpread(campaign) ? planted : planted.asConfounded());
    }
  }

  /**
   * One fibre is longer or shorter than its schedule.
   *
   * @param size share of the scheduled length, at least
   */
  record LengthGap(double size) implements Trouble {
    @Override
    public String kind() {
      return "length-gap";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      if (!campaign.lengths) {
        return Optional.empty();
      }
      FibreId fibre = FibreTroubles.any(campaign, dice);
      boolean shorter = dice.chance(0.6);
      List<RawReading> own = FibreTroubles.of(campaign, fibre);
      double scheduled = own.get(0).link.schedule().lengthM();
      double gap = honestM(scheduled) + size * scheduled;
      if (shorter && gap > 0.9 * scheduled) {
        return Optional.empty();
      }
      own.forEach(r -> r.lengthM += shorter ? -gap : gap);
      return Optional.of(
          Planted.of(
              DoubtKind.LENGTH_GAP,
              Subject.fibre(fibre),
              Set.of(fibre),
              shorter ? "shorter" : "longer"));
    }
  }

  /** Two fibres, or the fibres of two duplex links, are filed under each other's names. */
  record Crossed(double size) implements Trouble {
    @Override
    public String kind() {
      return "crossed";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      if (!campaign.lengths) {
        return Optional.empty();
      }
      TrueLink one = dice.oneOf(campaign.site.links);
      List<TrueLink> partners =
          campaign.site.links.stream()
              .filter(
                  l -> l.kind() == one.kind() && l.schedule().fibres() == one.schedule().fibres())
              .filter(l -> l.schedule().a().place().equals(one.schedule().a().place()))
              .filter(l -> apart(l, one))
              .toList();
      if (partners.isEmpty()) {
        return Optional.empty();
      }
      TrueLink other = dice.oneOf(partners);
      boolean whole = one.schedule().fibres() == 2 && dice.chance(0.5);
      int fibre = dice.whole(1, one.schedule().fibres());
      Set<FibreId> reach = new HashSet<>();
      for (RawReading reading : campaign.readings()) {
        boolean own = reading.link == one;
        if ((own || reading.link == other) && (whole || reading.fibre == fibre)) {
          reading.name = own ? other.id() : one.id();
          reach.add(reading.id());
        }
      }
      List<Named> right = new ArrayList<>();
      reach.forEach(f -> right.add(new Named(DoubtKind.CROSSED, Subject.fibre(f))));
      return Optional.of(
          new Planted(
              right, List.of(reach), whole ? "two links" : "two fibres", false, reach.toString()));
    }
  }

  private static boolean apart(TrueLink one, TrueLink other) {
    double a = one.schedule().lengthM();
    double b = other.schedule().lengthM();
    return Math.abs(a - b) > honestM(a) + 1 && Math.abs(a - b) > honestM(b) + 1;
  }

  /** A crew began one port too far: each name of a panel holds its neighbour's readings. */
  record PortShift(double size) implements Trouble {
    @Override
    public String kind() {
      return "port-shift";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      if (!campaign.lengths) {
        return Optional.empty();
      }
      Map<String, Set<FibreId>> places = Fibres.byPlace(campaign);
      List<String> names = dice.shuffled(new ArrayList<>(places.keySet()));
      for (String place : names) {
        List<TrueLink> links = atPlace(campaign, place);
        if (links.size() >= 6 && links.size() < campaign.site.links.size() && tells(links)) {
          return Optional.of(shift(campaign, place, links, dice.sign(), places));
        }
      }
      return Optional.empty();
    }

    /** Links of one kind with an end at this place, by port. */
    private static List<TrueLink> atPlace(Campaign campaign, String place) {
      FibreKind first =
          campaign.site.links.stream()
              .filter(l -> port(l, place).isPresent())
              .map(TrueLink::kind)
              .findFirst()
              .orElseThrow();
      return campaign.site.links.stream()
          .filter(l -> l.kind() == first && port(l, place).isPresent())
          .sorted(Comparator.comparingInt(l -> port(l, place).orElseThrow()))
          .toList();
    }

    private static OptionalInt port(TrueLink link, String place) {
      if (link.schedule().a().place().equals(place)) {
        return OptionalInt.of(Integer.parseInt(link.schedule().a().port()));
      }
      return link.schedule().b().place().equals(place)
          ? OptionalInt.of(Integer.parseInt(link.schedule().b().port()))
          : OptionalInt.empty();
    }

    /** Most neighbours differ in length by more than honest work does. */
    private static boolean tells(List<TrueLink> links) {
      int telling = 0;
      for (int i = 1; i < links.size(); i++) {
        telling += apart(links.get(i - 1), links.get(i)) ? 1 : 0;
      }
      return telling >= 0.6 * (links.size() - 1);
    }

    private static Planted shift(
        Campaign campaign,
        String place,
        List<TrueLink> links,
        int by,
        Map<String, Set<FibreId>> places) {
      Map<String, String> newName = new HashMap<>();
      for (int i = 0; i < links.size(); i++) {
        int to = i + by;
        newName.put(links.get(i).id(), to >= 0 && to < links.size() ? links.get(to).id() : "");
      }
      Set<FibreId> reach = new HashSet<>();
      for (Session session : campaign.sessions) {
        for (RawReading reading : session.readings) {
          String name = newName.get(reading.name);
          if (name != null) {
            reading.name = name;
            if (!name.isEmpty()) {
              reach.add(reading.id());
            }
          }
        }
        session.readings.removeIf(r -> r.name.isEmpty());
      }
      Set<FibreId> withLast = new HashSet<>();
      links.forEach(l -> withLast.addAll(Fibres.of(l)));
      List<Named> right = new ArrayList<>();
      places.forEach(
          (name, fibres) -> {
            if (name.equals(place) || fibres.equals(places.get(place))) {
              right.add(new Named(DoubtKind.PORT_SHIFT, new Subject(Subject.Type.PLACE, name)));
            }
          });
      return new Planted(
          right,
          List.of(reach, withLast),
          links.size() < 15 ? "6 to 14 links" : "15 links or more",
          false,
          place + (by > 0 ? " +1" : " -1"));
    }
  }
}
