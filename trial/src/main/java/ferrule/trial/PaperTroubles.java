package ferrule.trial;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Subject;
import ferrule.core.zero.Method;
import ferrule.trial.Planted.Named;
import ferrule.trial.Session.Level;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/** Troubles that papers and times alone tell. */
final class PaperTroubles {

  private PaperTroubles() {}

  private static Named zero(DoubtKind kind, Session session) {
    return new Named(kind, Subject.reference(session.zero));
  }

  /**
   * The source gives less than it should when the zero is set: outside its window, or within it and
   * unlike its other zeros. Losses stay right.
   *
   * @param size NaN: it follows from the window
   */
  record ZeroPower(double size) implements Trouble {
    @Override
    public String kind() {
      return "zero-power";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      Session session = dice.oneOf(campaign.sessions);
      boolean singleMode = session.kind() == FibreKind.SINGLE_MODE;
      long history =
          campaign.sessions.stream()
              .filter(s -> s.crew == session.crew && s.kind() == session.kind())
              .count();
      boolean inWindow = history >= 4 && dice.chance(0.5);
      double drop = inWindow ? dice.uniform(0.8, 1.5) : singleMode ? dice.uniform(4, 8) : 8;
      Direction direction = dice.oneOf(campaign.directions);
      boolean oneWay = dice.chance(0.4);
      Predicate<Direction> touched = d -> !oneWay || d == direction;
      for (Level level : session.levels) {
        level.storedDbm -= touched.test(level.direction) ? drop : 0;
      }
      List<RawReading> hit = Fibres.where(session.readings, r -> touched.test(r.direction));
      for (RawReading reading : hit) {
        reading.storedDbm -= drop;
        reading.powerDbm -= drop;
      }
      return Optional.of(
          Planted.of(
              DoubtKind.ZERO_POWER,
              Subject.reference(session.zero),
              Fibres.of(hit),
              inWindow ? "unlike its history" : "out of window"));
    }
  }

  /** The verification is not on record, or reads nothing at all everywhere. */
  record ZeroUnverified(double size) implements Trouble {
    @Override
    public String kind() {
      return "zero-unverified";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      Session session = dice.oneOf(campaign.sessions);
      double how = dice.uniform(0, 1);
      Direction direction = dice.oneOf(campaign.directions);
      Set<FibreId> reach = Fibres.of(session.readings);
      String variant = how < 0.4 ? "none" : how < 0.7 ? "one direction without" : "0.00 everywhere";
      for (Level level : session.levels) {
        if (how < 0.4 || (how < 0.7 && level.direction == direction)) {
          level.verificationDb = Optional.empty();
        } else if (how >= 0.7) {
          level.verificationDb = Optional.of(0.0);
        }
      }
      return Optional.of(
          Planted.of(DoubtKind.ZERO_UNVERIFIED, Subject.reference(session.zero), reach, variant));
    }
  }

  /**
   * The verification lies outside its window.
   *
   * @param size by how much, dB
   */
  record ZeroVerification(double size) implements Trouble {
    @Override
    public String kind() {
      return "zero-verification";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      Session session = dice.oneOf(campaign.sessions);
      double[] window = CordSet.window(session.method, session.kind());
      boolean low = dice.chance(0.4);
      boolean oneWay = dice.chance(0.5);
      Direction direction = dice.oneOf(campaign.directions);
      for (Level level : session.levels) {
        if (!oneWay || level.direction == direction) {
          level.verificationDb = Optional.of(low ? window[0] - size : window[1] + size);
        }
      }
      return Optional.of(
          Planted.of(
              DoubtKind.ZERO_VERIFICATION,
              Subject.reference(session.zero),
              Fibres.of(session.readings),
              low ? "low" : "high"));
    }
  }

  /** The zero was set with another method than required, or with cords of another core. */
  record ZeroMismatch(double size) implements Trouble {
    @Override
    public String kind() {
      return "zero-mismatch";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      Session session = dice.oneOf(campaign.sessions);
      if (dice.chance(0.3)) {
        session.cords.paperCategory =
            session.kind() == FibreKind.SINGLE_MODE ? FibreCategory.OM3 : FibreCategory.OM1;
        List<Named> right = new ArrayList<>();
        Set<FibreId> reach = new HashSet<>();
        for (Session other : campaign.sessions) {
          if (other.cords == session.cords) {
            right.add(zero(DoubtKind.ZERO_MISMATCH, other));
            reach.addAll(Fibres.of(other.readings));
          }
        }
        return Optional.of(
            new Planted(right, List.of(reach), "core", false, session.cords.category.label()));
      }
      List<Method> others = new ArrayList<>(List.of(Method.values()));
      others.remove(session.method);
      return setWith(dice.oneOf(others), session, campaign.world, dice);
    }

    private static Optional<Planted> setWith(
        Method method, Session session, World world, Dice dice) {
      double[] window = CordSet.window(method, session.kind());
      double[] matings = {dice.normal(0, world.matingDb), dice.normal(0, world.matingDb)};
      double[] none = new double[2];
      session.method = method;
      for (Level level : session.levels) {
        boolean longer = level.band.longer();
        double straight = session.cords.straightDb(world, level.direction, matings[0], longer);
        double through = session.cords.throughDb(world, level.direction, matings, longer);
        double before = level.takenOutDb;
        level.takenOutDb =
            switch (method) {
              case ONE_CORD -> 0;
              case TWO_CORD -> straight;
              case THREE_CORD -> through;
            };
        level.storedDbm += before - level.takenOutDb;
        double line =
            method == Method.TWO_CORD
                ? session.cords.throughDb(world, level.direction, none, longer)
                : session.cords.straightDb(world, level.direction, 0, longer);
        double verification = line - level.takenOutDb;
        if (verification < window[0] + 0.01 || verification > window[1] - 0.01) {
          return Optional.empty();
        }
        level.verificationDb = Optional.of(verification);
        for (RawReading reading : session.readings) {
          if (reading.direction == level.direction && reading.band == level.band) {
            reading.storedDbm = level.storedDbm;
          }
        }
      }
      return Optional.of(
          Planted.of(
              DoubtKind.ZERO_MISMATCH,
              Subject.reference(session.zero),
              Fibres.of(session.readings),
              "method"));
    }
  }

  /** Readings taken while the zero they name did not hold. */
  record ZeroLapsed(double size) implements Trouble {
    @Override
    public String kind() {
      return "zero-lapsed";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      Session session = dice.oneOf(campaign.sessions);
      int count = session.readings.size();
      double how = dice.uniform(0, 1);
      if (how < 0.4) {
        return before(session, session.readings.get(dice.whole(1, count - 1)).at);
      }
      if (how < 0.7) {
        boolean first =
            campaign.sessions.stream()
                .filter(s -> s.crew == session.crew && s.kind() == session.kind())
                .findFirst()
                .filter(s -> s == session)
                .isPresent();
        return first
            ? after(session, session.readings.get(dice.whole(0, count - 1)).at)
            : Optional.empty();
      }
      List<RawReading> some =
          List.copyOf(session.readings.subList(dice.whole(0, count / 2), count));
      some.forEach(r -> r.reference = "Z99");
      return Optional.of(
          Planted.of(
              DoubtKind.ZERO_LAPSED, Subject.reference("Z99"), Fibres.of(some), "not on record"));
    }

    private static Optional<Planted> before(Session session, Instant moment) {
      Duration later = Duration.between(session.levels.get(0).setAt, moment);
      session.levels.forEach(l -> l.setAt = l.setAt.plus(later));
      Set<FibreId> reach = new HashSet<>();
      for (RawReading reading : session.readings) {
        if (reading.at.isBefore(session.level(reading.direction, reading.band).setAt)) {
          reach.add(reading.id());
        }
      }
      return Optional.of(
          Planted.of(
              DoubtKind.ZERO_LAPSED, Subject.reference(session.zero), reach, "before it was set"));
    }

    private static Optional<Planted> after(Session session, Instant moment) {
      Instant last = session.levels.get(session.levels.size() - 1).setAt;
      Duration earlier = Duration.between(moment.minus(Duration.ofHours(12)), last).plusSeconds(1);
      session.levels.forEach(l -> l.setAt = l.setAt.minus(earlier));
      Set<FibreId> reach = new HashSet<>();
      for (RawReading reading : session.readings) {
        Instant set = session.level(reading.direction, reading.band).setAt;
        if (Duration.between(set, reading.at).compareTo(Duration.ofHours(12)) > 0) {
          reach.add(reading.id());
        }
      }
      return Optional.of(
          Planted.of(
              DoubtKind.ZERO_LAPSED, Subject.reference(session.zero), reach, "more than 12 hours"));
    }
  }

  /** An instrument was used after its calibration was due. */
  record CalibrationLapsed(double size) implements Trouble {
    @Override
    public String kind() {
      return "calibration-lapsed";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      Session some = dice.oneOf(campaign.sessions);
      String instrument = Campaign.instrument(some.crew, dice.chance(0.5));
      List<RawReading> used =
          Fibres.where(
              campaign.readings(),
              r ->
                  instrument.equals(Campaign.source(r.session.crew, r.direction))
                      || instrument.equals(Campaign.meter(r.session.crew, r.direction)));
      LocalDate day = dice.oneOf(used).at.atZone(ZoneOffset.UTC).toLocalDate();
      campaign.calibrationDue.put(instrument, day.minusDays(1));
      Instant from = day.atStartOfDay(ZoneOffset.UTC).toInstant();
      return Optional.of(
          Planted.of(
              DoubtKind.CALIBRATION_LAPSED,
              new Subject(Subject.Type.INSTRUMENT, instrument),
              Fibres.of(Fibres.where(used, r -> !r.at.isBefore(from))),
              "instrument"));
    }
  }

  /**
   * A cord has been mated far more often than its plugs last.
   *
   * @param size matings
   */
  record CordWorn(double size) implements Trouble {
    @Override
    public String kind() {
      return "cord-worn";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      Session some = dice.oneOf(campaign.sessions);
      CordSet.TestCord cord =
          dice.chance(0.5)
              ? some.cords.launch(Direction.A_TO_B)
              : some.cords.receive(Direction.A_TO_B);
      cord.matings = (int) size;
      List<RawReading> used =
          Fibres.where(
              campaign.readings(),
              r ->
                  r.session.cords.launch(r.direction) == cord
                      || r.session.cords.receive(r.direction) == cord);
      return Optional.of(
          Planted.of(
              DoubtKind.CORD_WORN,
              new Subject(Subject.Type.CORD, cord.id),
              Fibres.of(used),
              "matings"));
    }
  }

  /**
   * Fibres without all their readings.
   *
   * @param size fibres
   */
  record Missing(double size) implements Trouble {
    @Override
    public String kind() {
      return "missing";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      Set<FibreId> reach = new HashSet<>();
      while (reach.size() < size) {
        reach.add(FibreTroubles.any(campaign, dice));
      }
      int how = dice.whole(0, campaign.directions.size() == 2 ? 2 : 1);
      Direction direction = dice.oneOf(campaign.directions);
      boolean longer = dice.chance(0.5);
      for (Session session : campaign.sessions) {
        session.readings.removeIf(
            r ->
                reach.contains(r.id())
                    && (how == 0
                        || (how == 1 && r.band.longer() == longer)
                        || (how == 2 && r.direction == direction)));
      }
      List<Named> right = new ArrayList<>();
      reach.forEach(f -> right.add(new Named(DoubtKind.MISSING, Subject.fibre(f))));
      return Optional.of(
          new Planted(
              right,
              List.of(reach),
              List.of("every reading", "one wavelength", "one direction").get(how),
              false,
              reach.toString()));
    }
  }

  /** A slip in the name: readings of a fibre that is not in the schedule. */
  record Unscheduled(double size) implements Trouble {
    @Override
    public String kind() {
      return "unscheduled";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      TrueLink link = dice.oneOf(campaign.site.links);
      Set<FibreId> reach = new HashSet<>();
      List<Named> right = new ArrayList<>();
      for (RawReading reading : campaign.readings()) {
        if (reading.link == link) {
          reading.name = "K9" + link.id().substring(2);
          if (reach.add(reading.id())) {
            right.add(new Named(DoubtKind.UNSCHEDULED, Subject.fibre(reading.id())));
          }
        }
      }
      return Optional.of(new Planted(right, List.of(reach), "link", false, link.id()));
    }
  }

  /** A fibre read again: a retest, or another fibre under its name. */
  record ReadTwice(double size) implements Trouble {
    @Override
    public String kind() {
      return "double";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      FibreId fibre = FibreTroubles.any(campaign, dice);
      List<RawReading> own = FibreTroubles.of(campaign, fibre);
      Session session = own.get(0).session;
      boolean other = campaign.lengths && dice.chance(0.5);
      Instant end = session.readings.get(session.readings.size() - 1).at.plusSeconds(90);
      for (RawReading reading : own) {
        RawReading again =
            new RawReading(
                reading.link,
                reading.fibre,
                session,
                session.level(reading.direction, reading.band),
                reading.powerDbm + dice.normal(0, 0.05),
                other ? reading.lengthM * 1.2 + 5 : reading.lengthM,
                end);
        session.readings.add(again);
        end = end.plusSeconds(dice.whole(3, 30));
      }
      return Optional.of(
          Planted.of(
              DoubtKind.DOUBLE,
              Subject.fibre(fibre),
              Set.of(fibre),
              other ? "another length" : "retest"));
    }
  }

  /** A wavelength is required at which nothing of the job can be judged. */
  record PaperConflict(double size) implements Trouble {
    @Override
    public String kind() {
      return "paper-conflict";
    }

    @Override
    public Optional<Planted> plant(Campaign campaign, Dice dice) {
      campaign.extraWavelengths.add(1625);
      return Optional.of(Planted.of(DoubtKind.PAPER_CONFLICT, Subject.JOB, Set.of(), "wavelength"));
    }
  }
}
