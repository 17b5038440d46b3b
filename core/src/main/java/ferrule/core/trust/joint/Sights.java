package ferrule.core.trust.joint;

import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Sight;
import ferrule.core.trust.Subject;
import ferrule.core.uncertainty.Significance;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;

/**
 * What a fit without any trouble in it could see: for every zero a shift of all its levels, a step
 * at whatever moment and an even drift; for every place a high panel; for the job a high position
 * and a bias of direction. Standard deviations and bounds are those of the {@link Search}.
 */
final class Sights {

  /** A standard deviation like this says that there is no information at all, dB. */
  private static final double NOTHING_DB = 1000;

  private final JointFit fit;
  private final Frame frame;
  private final Search search;
  private final Map<DoubtKind, Integer> looks;
  private final List<Sight> sights = new ArrayList<>();

  private Sights(JointFit fit, Map<DoubtKind, Integer> looks) {
    this.fit = fit;
    this.frame = fit.frame;
    this.search = new Search(fit);
    this.looks = looks;
  }

  /**
   * In the order of the zeros, then of the places; what the job has too little of to be looked at
   * is left out.
   *
   * @param looks of each kind that the search took
   */
  static List<Sight> of(JointFit fit, Map<DoubtKind, Integer> looks) {
    Sights sights = new Sights(fit, looks);
    for (int z = 0; z < fit.frame.zeros.size(); z++) {
      sights.zero(z);
    }
    sights.places();
    sights.positions();
    sights.bias();
    return List.copyOf(sights.sights);
  }

  private void zero(int zero) {
    Subject subject = Subject.reference(frame.zeros.get(zero).id());
    if (looks.containsKey(DoubtKind.ZERO_SHIFT) && search.isEnough(zero)) {
      add(DoubtKind.ZERO_SHIFT, subject, search.shift(zero, Part.ALL));
    }
    if (!search.isLongEnough(zero)) {
      return;
    }
    ZeroScan scan = new ZeroScan(fit, zero, frame.fibresOfZero[zero]);
    if (scan.moments() < 2) {
      return;
    }
    if (looks.containsKey(DoubtKind.LEVEL_STEP)) {
      ZeroScan.Cuts cuts = scan.cuts(Part.ALL, Search.FEWEST);
      double chance = Looks.STEP / looks.get(DoubtKind.LEVEL_STEP);
      double bound = Looks.largestCut(chance, cuts.fibres(), Search.FEWEST);
      Effect step = new Effect.Step(zero, Part.ALL, 0);
      add(DoubtKind.LEVEL_STEP, subject, step, cuts.widestSdDb(), bound);
    }
    if (looks.containsKey(DoubtKind.LEVEL_DRIFT)) {
      add(DoubtKind.LEVEL_DRIFT, subject, scan.new Drifts(Effect.Course.EVEN).of(Part.ALL));
    }
  }

  private void places() {
    if (!looks.containsKey(DoubtKind.PANEL_HIGH)) {
      return;
    }
    double bound = Significance.normalExceededBy(Looks.PLACE / looks.get(DoubtKind.PANEL_HIGH));
    for (Suspect panel : search.panels()) {
      int place = ((Effect.HighPlace) panel.effect()).place();
      Subject subject = new Subject(Subject.Type.PLACE, frame.places.get(place));
      add(DoubtKind.PANEL_HIGH, subject, panel.effect(), panel.sdDb(), bound);
    }
  }

  /** All positions have one subject, the job: the one read least often is told. */
  private void positions() {
    if (!looks.containsKey(DoubtKind.POSITION_HIGH)) {
      return;
    }
    double chance = Looks.POSITION / looks.get(DoubtKind.POSITION_HIGH);
    search.highPositions().stream()
        .max(Comparator.comparingDouble(Suspect::sdDb))
        .ifPresent(
            s ->
                add(
                    DoubtKind.POSITION_HIGH,
                    Subject.JOB,
                    s.effect(),
                    s.sdDb(),
                    Significance.normalExceededBy(chance)));
  }

  private void bias() {
    if (looks.containsKey(DoubtKind.DIRECTION_BIAS)) {
      add(DoubtKind.DIRECTION_BIAS, Subject.JOB, search.bias(0));
    }
  }

  /** One that rings on either side, with a normal law. */
  private void add(DoubtKind kind, Subject subject, Suspect suspect) {
    double chance = Looks.shareOf(kind) / (2.0 * looks.getOrDefault(kind, 1));
    double bound = Significance.normalExceededBy(chance);
    add(kind, subject, suspect.effect(), suspect.sdDb(), bound);
  }

  private void add(DoubtKind kind, Subject subject, Effect effect, double sdDb, double bound) {
    if (Double.isFinite(sdDb) && sdDb < NOTHING_DB) {
      sights.add(new Sight(kind, subject, Math.max(effect.leastSizeDb(), bound * sdDb), sdDb));
    }
  }
}
