package ferrule.vision;

import ferrule.core.face.Flaw;
import ferrule.core.face.FlawKind;
import java.util.ArrayList;
import java.util.List;

/**
 * Finds flaws about a known cladding. What differs from the face without flaws, over the noise that
 * the picture itself shows at that distance from the centre, is a flaw: regions at several scales,
 * then lines, then pieces of one scratch made one.
 */
final class FlawFinder {
  /** A line that crosses the core may be lost there, µm. */
  private static final double BRIDGE_UM = 30;

  private static final double SLIVER_GAP_UM = 5;

  /** A piece of a scratch over the core is no longer than this and lies no further aside, µm. */
  private static final double MOST_ON_UM = 8;

  private static final double ASIDE_UM = 1.5;

  /** A scratch is so many times as long as wide; a short piece of one so many. */
  private static final double THIN = 3;

  private static final double SLIVER = 1.8;

  private final FaceFrame frame;

  FlawFinder(FaceFrame frame) {
    this.frame = frame;
  }

  List<Flaw> find() {
    float[] rest = FlawlessFace.rest(frame);
    int[] owner = new int[rest.length];
    List<Flaw> flaws = new ArrayList<>();
    new RegionFinder(frame, rest, owner, flaws).find();
    new LineFinder(frame, rest, owner, flaws).find();
    return joinedScratches(owner, flaws);
  }

  /** Scratches found as two pieces on either side of the core, or of dirt, made one. */
  private List<Flaw> joinedScratches(int[] owner, List<Flaw> flaws) {
    List<Patch> patches = patches(owner, flaws);
    List<Flaw> joined = new ArrayList<>(flaws);
    for (int i = 0; i < joined.size(); i++) {
      for (int j = i + 1; j < joined.size(); j++) {
        if (isOneScratch(joined.get(i), patches.get(i), joined.get(j), patches.get(j))) {
          patches.set(i, patches.get(i).with(patches.remove(j)));
          joined.set(i, bridged(joined.get(i), joined.remove(j), patches.get(i)));
          j = i;
        }
      }
    }
    List<Flaw> whole = new ArrayList<>(joined);
    for (int i = 0; i < joined.size(); i++) {
      Flaw scratch = joined.get(i);
      Patch patch = patches.get(i);
      List<Flaw> on = joined.stream().filter(f -> isOnScratch(scratch, patch, f)).toList();
      if (!on.isEmpty()) {
        double nearest = on.stream().mapToDouble(Flaw::nearestUm).min().orElseThrow();
        whole.set(whole.indexOf(scratch), scratch.reaching(nearest));
        whole.removeAll(on);
      }
    }
    return whole;
  }

  private static List<Patch> patches(int[] owner, List<Flaw> flaws) {
    int[] count = new int[flaws.size()];
    for (int o : owner) {
      if (o != 0) {
        count[o - 1]++;
      }
    }
    List<Patch> patches = new ArrayList<>();
    for (int k = 0; k < count.length; k++) {
      patches.add(new Patch(new int[count[k]], flaws.get(k).contrast() > 0 ? 1 : -1));
    }
    for (int p = owner.length - 1; p >= 0; p--) {
      if (owner[p] != 0) {
        patches.get(owner[p] - 1).pixels()[--count[owner[p] - 1]] = p;
      }
    }
    return patches;
  }

  private boolean isOneScratch(Flaw one, Patch onePatch, Flaw other, Patch otherPatch) {
    boolean scratch = one.kind() == FlawKind.SCRATCH;
    boolean both = scratch && other.kind() == FlawKind.SCRATCH;
    if (!scratch && other.kind() != FlawKind.SCRATCH || one.contrast() * other.contrast() <= 0) {
      return false;
    }
    // A short piece of a scratch may pass for a defect: thin, and right at the scratch's end.
    Patch.Axis a = onePatch.axis(frame);
    Patch.Axis b = otherPatch.axis(frame);
    return isInLine(a, b, both ? BRIDGE_UM : SLIVER_GAP_UM)
        && isThin(a, scratch ? THIN : SLIVER)
        && isThin(b, both || !scratch ? THIN : SLIVER);
  }

  /** Where a scratch runs over the core its middle may pass for a defect of its own. */
  private boolean isOnScratch(Flaw scratch, Patch patch, Flaw defect) {
    if (scratch.kind() != FlawKind.SCRATCH
        || defect.kind() != FlawKind.DEFECT
        || scratch.contrast() * defect.contrast() <= 0
        || defect.lengthUm() > MOST_ON_UM) {
      return false;
    }
    Patch.Axis axis = patch.axis(frame);
    double dx = defect.xUm() - axis.x();
    double dy = defect.yUm() - axis.y();
    return Math.abs(dx * axis.cos() + dy * axis.sin()) < axis.length() / 2
        && Math.abs(dx * axis.sin() - dy * axis.cos()) < ASIDE_UM;
  }

  private static boolean isThin(Patch.Axis axis, double times) {
    return axis.length() > times * axis.across();
  }

  /** They point the same way, and each lies on the other's line, no further apart than this. */
  private static boolean isInLine(Patch.Axis a, Patch.Axis b, double most) {
    double dx = b.x() - a.x();
    double dy = b.y() - a.y();
    double apart = Math.hypot(dx, dy);
    double gap = apart - (a.length() + b.length()) / 2;
    return gap < most
        && Math.abs(a.cos() * b.cos() + a.sin() * b.sin()) > Math.cos(Math.toRadians(12))
        && Math.abs(dx * a.sin() - dy * a.cos()) < 2 + 0.1 * apart
        && Math.abs(dx * b.sin() - dy * b.cos()) < 2 + 0.1 * apart;
  }

  /** One scratch of two pieces; it is taken to run from one to the other. */
  private Flaw bridged(Flaw one, Flaw other, Patch both) {
    Patch.Axis axis = both.axis(frame);
    double dx = other.xUm() - one.xUm();
    double dy = other.yUm() - one.yUm();
    double square = dx * dx + dy * dy;
    double along = square == 0 ? 0 : -(one.xUm() * dx + one.yUm() * dy) / square;
    double at = Math.max(0, Math.min(1, along));
    double between = Math.hypot(one.xUm() + at * dx, one.yUm() + at * dy);
    boolean first = one.kind() == FlawKind.SCRATCH;
    boolean second = other.kind() == FlawKind.SCRATCH;
    boolean own = first == second ? one.widthUm() >= other.widthUm() : first;
    Flaw wider = own ? one : other;
    return new Flaw(
        FlawKind.SCRATCH,
        axis.x(),
        axis.y(),
        Math.max(wider.widthUm(), axis.length()),
        wider.widthUm(),
        wider.sizeUncertaintyUm(),
        wider.contrast(),
        Math.min(between, Math.min(one.nearestUm(), other.nearestUm())),
        Math.max(one.farthestUm(), other.farthestUm()));
  }
}
