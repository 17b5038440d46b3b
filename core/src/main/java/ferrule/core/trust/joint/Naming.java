package ferrule.core.trust.joint;

/** Effects in words, as causes that a reader could look into. */
final class Naming {

  private Naming() {}

  /** "a shift of zero Z2 A-B", "a high panel Rack 1". */
  static String of(Frame frame, Effect effect) {
    if (effect instanceof Effect.Shift shift) {
      return "a shift of zero " + frame.zeros.get(shift.zero()).id() + shift.part().shown();
    }
    if (effect instanceof Effect.Step step) {
      return "a step under zero " + frame.zeros.get(step.zero()).id() + step.part().shown();
    }
    if (effect instanceof Effect.Drift drift) {
      return "a drift under zero " + frame.zeros.get(drift.zero()).id() + drift.part().shown();
    }
    if (effect instanceof Effect.HighPlace) {
      return "a high " + plain(frame, effect);
    }
    if (effect instanceof Effect.HighPosition position) {
      return "a high position " + frame.positions.get(position.position());
    }
    if (effect instanceof Effect.CostlyInside) {
      return plain(frame, effect) + " that lose other than usual";
    }
    return effect instanceof Effect.Bias ? "a bias of direction" : plain(frame, effect);
  }

  /** What it is about: "panel Rack 1", "the glass and the connections of the job". */
  static String plain(Frame frame, Effect effect) {
    int zero = JointEstimate.zeroOf(effect);
    if (zero >= 0) {
      return "zero " + frame.zeros.get(zero).id();
    }
    if (effect instanceof Effect.HighPlace place) {
      return "panel " + frame.places.get(place.place());
    }
    if (effect instanceof Effect.HighPosition position) {
      return "position " + frame.positions.get(position.position());
    }
    if (effect instanceof Effect.CostlyInside inside) {
      return (inside.splices() ? "splices" : "connections inside links")
          + " of "
          + frame.families.get(inside.family()).category();
    }
    return effect instanceof Effect.Bias
        ? "the directions of the job"
        : "the glass and the connections of the job";
  }
}
