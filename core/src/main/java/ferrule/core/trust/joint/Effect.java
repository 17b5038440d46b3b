package ferrule.core.trust.joint;

/** A trouble that many readings share, with the size still to be estimated. */
sealed interface Effect {

  /** What it adds to a reading, for each dB of its size. */
  double at(Frame frame, int fibre, int reading);

  /** Chance that a perfect job may ring by effects of this kind. */
  double share();

  /**
   * Sizes below this are not worth a doubt, dB, however sure: an honest zero, source or panel may
   * be off by as much.
   */
  double leastSizeDb();

  /** All readings under a zero, or a part of it. */
  record Shift(int zero, Part part) implements Effect {
    @Override
    public double at(Frame frame, int fibre, int reading) {
      Frame.Level level = frame.levels.get(frame.levelOf[reading]);
      return level.zero() == zero && part.holds(level) ? 1 : 0;
    }

    @Override
    public double share() {
      return Looks.SHIFT;
    }

    @Override
    public double leastSizeDb() {
      return JointEstimate.HONEST_DB;
    }
  }

  /** Readings under a zero from a moment on. */
  record Step(int zero, Part part, double fromSeconds) implements Effect {
    @Override
    public double at(Frame frame, int fibre, int reading) {
      Frame.Level level = frame.levels.get(frame.levelOf[reading]);
      return level.zero() == zero && part.holds(level) && frame.seconds[reading] >= fromSeconds
          ? 1
          : 0;
    }

    @Override
    public double share() {
      return Looks.STEP;
    }

    @Override
    public double leastSizeDb() {
      return 0.08;
    }
  }

  /** Readings under a zero grow with time, by the size from first to last. */
  record Drift(int zero, Part part, double fromSeconds, double toSeconds, Course course)
      implements Effect {
    @Override
    public double at(Frame frame, int fibre, int reading) {
      Frame.Level level = frame.levels.get(frame.levelOf[reading]);
      return level.zero() == zero && part.holds(level)
          ? course.at((frame.seconds[reading] - fromSeconds) / (toSeconds - fromSeconds))
          : 0;
    }

    @Override
    public double share() {
      return Looks.DRIFT;
    }

    @Override
    public double leastSizeDb() {
      return 0.08;
    }
  }

  /** How a drift goes. */
  enum Course {
    /** Evenly with time. */
    EVEN {
      @Override
      double at(double share) {
        return share;
      }
    },
    /** Fast at first, then flat: 95 % done after the first third. */
    SETTLING {
      @Override
      double at(double share) {
        return (1 - Math.exp(-9 * share)) / (1 - Math.exp(-9));
      }
    };

    abstract double at(double share);
  }

  /** All fibres that end at a place. */
  record HighPlace(int place) implements Effect {
    @Override
    public double at(Frame frame, int fibre, int reading) {
      return frame.placeA[fibre] == place || frame.placeB[fibre] == place
          ? frame.pattern(fibre, reading)
          : 0;
    }

    @Override
    public double share() {
      return Looks.PLACE;
    }

    @Override
    public double leastSizeDb() {
      return 0.06;
    }
  }

  /** All fibres of one number. */
  record HighPosition(int position) implements Effect {
    @Override
    public double at(Frame frame, int fibre, int reading) {
      return frame.position[fibre] == position ? frame.pattern(fibre, reading) : 0;
    }

    @Override
    public double share() {
      return Looks.POSITION;
    }

    @Override
    public double leastSizeDb() {
      return 0.06;
    }
  }

  /** A-B against B-A, in all zeros. */
  record Bias() implements Effect {
    @Override
    public double at(Frame frame, int fibre, int reading) {
      return frame.levels.get(frame.levelOf[reading]).forward() ? 0.5 : -0.5;
    }

    @Override
    public double share() {
      return Looks.BIAS;
    }

    @Override
    public double leastSizeDb() {
      return 0.07;
    }
  }

  /**
   * Every connection inside the links of a family, or every splice, loses more than is usual. Never
   * searched for, since it is estimated anyway; it is what other troubles may hide behind where few
   * cables differ in how many they have.
   */
  record CostlyInside(int family, boolean splices) implements Effect {
    @Override
    public double at(Frame frame, int fibre, int reading) {
      int count = splices ? frame.splices[fibre] : frame.connections[fibre];
      return frame.family[fibre] == family ? count * frame.pattern(fibre, reading) : 0;
    }

    @Override
    public double share() {
      return 1;
    }

    @Override
    public double leastSizeDb() {
      return 0;
    }
  }

  /**
   * All readings alike: glass and connections of the job lie elsewhere than was expected. Never
   * searched for, since it is estimated anyway; it is what a zero alone cannot be told from.
   */
  record Usual() implements Effect {
    @Override
    public double at(Frame frame, int fibre, int reading) {
      return frame.pattern(fibre, reading);
    }

    @Override
    public double share() {
      return 1;
    }

    @Override
    public double leastSizeDb() {
      return JointEstimate.HONEST_DB;
    }
  }
}
