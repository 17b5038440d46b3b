package ferrule.trial;

import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Subject;
import ferrule.trial.Planted.Named;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Troubles of copies and clocks. */
final class TimeTroubles {

  private TimeTroubles() {}

  /** A run of links read one after the other. */
  private record Run(Session session, List<TrueLink> before, List<TrueLink> links) {

    static Optional<Run> draw(Campaign campaign, Dice dice, int length, int leastBefore) {
      List<Session> sessions =
          campaign.sessions.stream()
              .filter(s -> s.links.size() >= length + leastBefore + 1)
              .toList();
      if (sessions.isEmpty()) {
        return Optional.empty();
      }
      Session session = dice.oneOf(sessions);
      int start = dice.whole(leastBefore, session.links.size() - length - 1);
      return Optional.of(
          new Run(
              session,
              session.links.subList(0, start),
              session.links.subList(start, start + length)));
    }

    List<RawReading> readings() {
      return of(links);
    }

    List<RawReading> of(List<TrueLink> some) {
      return Fibres.where(session.readings, r -> some.contains(r.link));
    }
  }

  private static List<Named> fibresOrInstruments(
      DoubtKind kind, Set<FibreId> fibres, Session session) {
    List<Named> right = new ArrayList<>();
    fibres.forEach(f -> right.add(new Named(kind, Subject.fibre(f))));
    for (Direction direction : Direction.values()) {
      right.add(
          new Named(
              kind,
              new Subject(Subject.Type.INSTRUMENT, Campaign.source(session.crew, direction))));
    }
    return right;
  }

  /**
   * The readings of a link are copied to the links after it, length and all.
   *
   * @param size links copied to
   */
  record RepeatedValues(double size) implements Trouble {
    @Override
    public String kind() {
      return "repeated-values";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      int copies = (int) size;
      if (!campaign.lengths && campaign.directions.size() < 2) {
        return Optional.empty();
      }
      Optional<Run> drawn = Run.draw(campaign, dice, copies + 1, 0);
      if (drawn.isEmpty()) {
        return Optional.empty();
      }
      Run run = drawn.get();
      TrueLink source = run.links().get(0);
      Map<String, RawReading> original = new HashMap<>();
      run.of(List.of(source)).forEach(r -> original.put(key(r), r));
      List<RawReading> copied = run.of(run.links().subList(1, copies + 1));
      for (RawReading reading : copied) {
        RawReading from = original.get(key(reading));
        if (from == null) {
          return Optional.empty();
        }
        reading.powerDbm = from.powerDbm;
        reading.lengthM = from.lengthM;
      }
      Set<FibreId> reach = Fibres.of(copied);
      Set<FibreId> withSource = new HashSet<>(reach);
      withSource.addAll(Fibres.of(source));
      List<Named> right = new ArrayList<>();
      withSource.forEach(f -> right.add(new Named(DoubtKind.REPEATED_VALUES, Subject.fibre(f))));
      return Optional.of(
          new Planted(
              right,
              List.of(withSource, reach),
              (copies == 1 ? "one copy" : "more copies") + (campaign.lengths ? "" : ", no lengths"),
              false,
              source.id()));
    }

    private static String key(RawReading reading) {
      return reading.fibre + " " + reading.direction + " " + reading.band;
    }
  }

  /**
   * A run of links read faster than hands can be.
   *
   * @param size links
   */
  record TooQuick(double size) implements Trouble {
    @Override
    public String kind() {
      return "too-quick";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      Optional<Run> drawn = Run.draw(campaign, dice, (int) size, 2);
      if (drawn.isEmpty()) {
        return Optional.empty();
      }
      Run run = drawn.get();
      List<RawReading> readings = new ArrayList<>(run.readings());
      boolean array = campaign.site.handling == Site.Handling.ARRAY;
      readings.sort(Comparator.comparing(r -> r.at));
      Instant now = readings.get(0).at;
      Instant lastAt = now;
      RawReading last = readings.get(0);
      for (RawReading reading : readings) {
        boolean next = reading.link != last.link || (!array && reading.fibre != last.fibre);
        // What was read at one instant stays at one instant: an array is read all at once.
        now = now.plusSeconds(next ? dice.whole(2, 5) : reading.at.equals(lastAt) ? 0 : 1);
        lastAt = reading.at;
        reading.at = now;
        last = reading;
      }
      Set<FibreId> all = Fibres.of(readings);
      Set<FibreId> withoutFirstLink = new HashSet<>(all);
      withoutFirstLink.removeAll(Fibres.of(run.links().get(0)));
      Set<FibreId> withoutFirstFibre = new HashSet<>(all);
      withoutFirstFibre.remove(new FibreId(run.links().get(0).id(), 1));
      return Optional.of(
          new Planted(
              fibresOrInstruments(DoubtKind.TOO_QUICK, all, run.session()),
              List.of(all, withoutFirstLink, withoutFirstFibre),
              array ? "array" : "one by one",
              false,
              run.links().get(0).id() + " on"));
    }
  }

  /**
   * A clock jumped back for a while: links overlap in time with those before them.
   *
   * @param size links
   */
  record Clock(double size) implements Trouble {
    @Override
    public String kind() {
      return "clock";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      int length = (int) size;
      Optional<Run> drawn = Run.draw(campaign, dice, length, length);
      if (drawn.isEmpty()) {
        return Optional.empty();
      }
      Run run = drawn.get();
      List<TrueLink> overlapped =
          run.before().subList(run.before().size() - length, run.before().size());
      Instant start = run.readings().get(0).at;
      Duration back = Duration.between(run.of(overlapped).get(0).at, start);
      Duration jitter = Duration.ofSeconds(dice.whole(3, 15));
      run.readings().forEach(r -> r.at = r.at.minus(back).plus(jitter));
      Set<FibreId> own = Fibres.of(run.readings());
      Set<FibreId> both = new HashSet<>(own);
      both.addAll(Fibres.of(run.of(overlapped)));
      return Optional.of(
          new Planted(
              fibresOrInstruments(DoubtKind.CLOCK, both, run.session()),
              List.of(own, both, Fibres.of(run.session().readings)),
              "overlap",
              false,
              run.links().get(0).id() + " on, back " + back.toSeconds() + " s"));
    }
  }
}
