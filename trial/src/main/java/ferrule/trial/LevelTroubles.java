package ferrule.trial;

import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Subject;
import ferrule.trial.Planted.Named;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/** Troubles of zeros and cords: many readings move together. */
final class LevelTroubles {

  private LevelTroubles() {}

  /**
   * The level in the launch cord changed right after the zero was verified: stored power and
   * verification stay clean, all readings of the touched levels move by one amount.
   *
   * @param size dB that the readings are too high; negative if too low
   */
  record ZeroShift(double size) implements Trouble {
    @Override
    public String kind() {
      return "zero-shift";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      List<Session> sessions = Fibres.sessions(campaign, 12, 2);
      if (sessions.isEmpty()) {
        return Optional.empty();
      }
      Session session = dice.oneOf(sessions);
      double scope = dice.uniform(0, 1);
      Predicate<RawReading> touched = r -> true;
      String variant = "all levels";
      boolean both = campaign.directions.size() == 2;
      if (scope < 0.25 && both) {
        Direction direction = dice.oneOf(campaign.directions);
        touched = r -> r.direction == direction;
        variant = "one direction";
      } else if (scope >= 0.75) {
        Band band = dice.oneOf(Band.of(session.kind()));
        touched = r -> r.band == band;
        variant = "one wavelength";
      }
      List<RawReading> hit = Fibres.where(session.readings, touched);
      hit.forEach(r -> r.addLoss(size));
      Set<FibreId> reach = Fibres.of(hit);
      List<Named> right = new ArrayList<>();
      right.add(new Named(DoubtKind.ZERO_SHIFT, Subject.reference(session.zero)));
      if (variant.equals("one direction")) {
        right.add(new Named(DoubtKind.DIRECTION_BIAS, Subject.reference(session.zero)));
      }
      boolean confounded =
          variant.equals("all levels")
              && Fibres.madeOf(
                  reach, Fibres.byPlace(campaign).values(), Fibres.of(campaign, session.kind()));
      long zeros = campaign.sessions.stream().filter(s -> s.kind() == session.kind()).count();
      List<RawReading> alike =
          Fibres.where(campaign.readings(), touched.and(r -> r.session.kind() == session.kind()));
      return Optional.of(
          new Planted(
                  right,
                  List.of(reach),
                  variant + (zeros == 2 ? ", 2 zeros" : ", more zeros"),
                  confounded,
                  session.zero)
              .scored(() -> Yardstick.level(alike, reach)));
    }
  }

  /**
   * One direction reads off by one amount, over the whole job or under one zero.
   *
   * @param size dB, either sign
   */
  record DirectionBias(double size) implements Trouble {
    @Override
    public String kind() {
      return "direction-bias";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      if (campaign.directions.size() < 2) {
        return Optional.empty();
      }
      Direction direction = dice.oneOf(campaign.directions);
      List<Session> sessions = Fibres.sessions(campaign, 12, 2);
      boolean wholeJob = sessions.isEmpty() || dice.chance(0.6);
      if (wholeJob) {
        Fibres.where(campaign.readings(), r -> r.direction == direction)
            .forEach(r -> r.addLoss(size));
        List<Named> right = new ArrayList<>();
        right.add(new Named(DoubtKind.DIRECTION_BIAS, Subject.JOB));
        if (campaign.sessions.size() == 1) {
          Subject zero = Subject.reference(campaign.sessions.get(0).zero);
          right.add(new Named(DoubtKind.DIRECTION_BIAS, zero));
          right.add(new Named(DoubtKind.ZERO_SHIFT, zero));
        }
        return Optional.of(
            new Planted(
                    right,
                    List.of(Fibres.of(campaign.readings())),
                    "job",
                    false,
                    Fibres.word(direction))
                .scored(() -> Yardstick.direction(campaign.readings())));
      }
      Session session = dice.oneOf(sessions);
      Fibres.where(session.readings, r -> r.direction == direction).forEach(r -> r.addLoss(size));
      Subject zero = Subject.reference(session.zero);
      return Optional.of(
          new Planted(
                  List.of(
                      new Named(DoubtKind.DIRECTION_BIAS, zero),
                      new Named(DoubtKind.ZERO_SHIFT, zero)),
                  List.of(Fibres.of(session.readings)),
                  "one zero",
                  false,
                  session.zero + " " + Fibres.word(direction))
              .scored(() -> Yardstick.direction(session.readings)));
    }
  }

  /**
   * A cord end picks up debris, or loses it, at a moment: readings step.
   *
   * @param size dB, either sign
   */
  record LevelStep(double size) implements Trouble {
    /** Ten duplex links on either side of the moment. */
    private static final int LEAST_FIBRES = 20;

    @Override
    public String kind() {
      return "level-step";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      List<Session> sessions = Fibres.sessions(campaign, 2 * LEAST_FIBRES + 4, 1);
      if (sessions.isEmpty()) {
        return Optional.empty();
      }
      Session session = dice.oneOf(sessions);
      Map<String, Instant> starts = starts(campaign, session);
      List<Instant> moments = new ArrayList<>();
      for (Instant start : starts.values()) {
        int after = Fibres.of(Fibres.where(session.readings, r -> !r.at.isBefore(start))).size();
        int before = Fibres.of(Fibres.where(session.readings, r -> r.at.isBefore(start))).size();
        if (before >= LEAST_FIBRES && after >= LEAST_FIBRES) {
          moments.add(start);
        }
      }
      if (moments.isEmpty()) {
        return Optional.empty();
      }
      Instant moment = dice.oneOf(moments);
      boolean oneWay = campaign.directions.size() == 2 && dice.chance(0.4);
      Direction direction = dice.oneOf(campaign.directions);
      List<RawReading> hit =
          Fibres.where(
              session.readings,
              r -> !r.at.isBefore(moment) && (!oneWay || r.direction == direction));
      hit.forEach(r -> r.addLoss(size));
      Set<FibreId> reach = Fibres.of(hit);
      boolean confounded =
          !oneWay
              && Fibres.madeOf(
                  reach, Fibres.byPlace(campaign).values(), Fibres.of(campaign, session.kind()));
      List<RawReading> alike =
          Fibres.where(session.readings, r -> !oneWay || r.direction == direction);
      return Optional.of(
          new Planted(
                  List.of(new Named(DoubtKind.LEVEL_STEP, Subject.reference(session.zero))),
                  List.of(reach),
                  oneWay ? "one direction" : "both directions",
                  confounded,
                  session.zero + " at " + moment)
              .scored(() -> Yardstick.level(alike, reach)));
    }

    /** When each link, or each fibre where they are read one by one, was begun. */
    private static Map<String, Instant> starts(Campaign campaign, Session session) {
      Map<String, Instant> starts = new LinkedHashMap<>();
      List<RawReading> inTime = new ArrayList<>(session.readings);
      inTime.sort(Comparator.comparing((RawReading r) -> r.at));
      for (RawReading reading : inTime) {
        String key =
            campaign.site.handling == Site.Handling.SINGLE_OF_MANY
                ? reading.id().toString()
                : reading.name;
        starts.putIfAbsent(key, reading.at);
      }
      return starts;
    }
  }

  /**
   * The level drifts away from the zero: evenly, or fast at first as a source that warms up.
   *
   * @param size dB at the last reading, either sign
   */
  record LevelDrift(double size) implements Trouble {
    private static final int LEAST_FIBRES = 40;

    @Override
    public String kind() {
      return "level-drift";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      List<Session> sessions = Fibres.sessions(campaign, LEAST_FIBRES, 1);
      if (sessions.isEmpty()) {
        return Optional.empty();
      }
      Session session = dice.oneOf(sessions);
      boolean oneWay = campaign.directions.size() == 2 && dice.chance(0.4);
      Direction direction = dice.oneOf(campaign.directions);
      boolean saturating = dice.chance(0.3);
      List<RawReading> hit =
          Fibres.where(session.readings, r -> !oneWay || r.direction == direction);
      Instant first = session.readings.get(0).at;
      Instant last = session.readings.get(session.readings.size() - 1).at;
      double span = Math.max(1, last.getEpochSecond() - first.getEpochSecond());
      for (RawReading reading : hit) {
        double share = (reading.at.getEpochSecond() - first.getEpochSecond()) / span;
        reading.addLoss(
            size * (saturating ? (1 - Math.exp(-4 * share)) / (1 - Math.exp(-4)) : share));
      }
      return Optional.of(
          Planted.of(
                  DoubtKind.LEVEL_DRIFT,
                  Subject.reference(session.zero),
                  new HashSet<>(Fibres.of(hit)),
                  (saturating ? "warm-up" : "even") + (oneWay ? ", one direction" : ""))
              .scored(() -> Yardstick.drift(hit)));
    }
  }
}
