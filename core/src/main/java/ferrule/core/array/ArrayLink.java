package ferrule.core.array;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * A link made of parts, from end A to end B.
 *
 * <p>Light passes parts and joints in turn: stage 0 is the first part, stage 1 the joint behind it,
 * stage 2 the second part, and so on.
 */
public final class ArrayLink {

  private final String id;
  private final List<ArrayPart> parts;
  private final List<Joint> joints = new ArrayList<>();
  private final List<Optional<PositionMap>> stages = new ArrayList<>();

  /**
   * Puts a link together.
   *
   * @param id the link
   * @param parts at least one, in any order
   */
  public ArrayLink(String id, List<ArrayPart> parts) {
    this.id = id;
    this.parts = parts.stream().sorted(Comparator.comparingInt(ArrayPart::order)).toList();
    for (int i = 0; i < this.parts.size(); i++) {
      if (i > 0) {
        Joint joint = new Joint(this.parts.get(i - 1), this.parts.get(i));
        joints.add(joint);
        stages.add(joint.map());
      }
      stages.add(Optional.of(this.parts.get(i).map()));
    }
  }

  /** The link. */
  public String id() {
    return id;
  }

  /** From end A to end B. */
  public List<ArrayPart> parts() {
    return parts;
  }

  /** From end A to end B, one fewer than parts. */
  public List<Joint> joints() {
    return List.copyOf(joints);
  }

  /** Positions at end A. */
  public int positions() {
    return parts.get(0).positions();
  }

  /** The part of this order; -1 if there is none. */
  int indexOf(int order) {
    for (int i = 0; i < parts.size(); i++) {
      if (parts.get(i).order() == order) {
        return i;
      }
    }
    return -1;
  }

  /** The stage's map; empty if it cannot be told. */
  Optional<PositionMap> stage(int stage) {
    return stages.get(stage);
  }

  int stages() {
    return stages.size();
  }

  /** Through stages from the first to the last, both included; empty if one cannot be told. */
  Optional<PositionMap> through(int first, int last) {
    Optional<PositionMap> map = Optional.of(PositionMap.straight(positions()));
    for (int i = first; i <= last && map.isPresent(); i++) {
      PositionMap so = map.get();
      map = stages.get(i).map(so::then);
    }
    return map;
  }

  /** Where each position of end A arrives at end B; empty if that cannot be told. */
  public Optional<PositionMap> map() {
    return through(0, stages.size() - 1);
  }

  /** Why the map cannot be told, for a reader; empty if it can. */
  public String unknown() {
    for (Joint joint : joints) {
      if (joint.map().isEmpty()) {
        return joint.ofArrays() && joint.before().positions() == joint.after().positions()
            ? "how the keys stand at " + joint.named() + " is not on record"
            : joint.named() + ": " + String.join("; ", joint.misfits());
      }
    }
    return "";
  }

  /** What a stage is called: a part or a joint. */
  public String named(int stage) {
    return stage % 2 == 0 ? parts.get(stage / 2).named() : joints.get(stage / 2).named();
  }

  /**
   * The connectivity method that the parts make up: "A", "B", "C", or "U1", "U2" from memory; empty
   * if they make up none of these.
   */
  public String method() {
    Set<MapType> cables = new TreeSet<>();
    Set<MapType> boxes = new TreeSet<>();
    for (ArrayPart part : parts) {
      if (part.kind().arrayAtBothEnds()) {
        cables.add(part.type());
      } else if (part.kind().arrayAtOneEnd()) {
        boxes.add(part.type());
      }
    }
    Set<Keys> keys = new TreeSet<>();
    for (Joint joint : joints) {
      if (joint.ofArrays()) {
        if (joint.keys().isEmpty()) {
          return "";
        }
        keys.add(joint.keys().get());
      }
    }
    if (cables.size() != 1 || keys.size() > 1 || boxes.size() > 1) {
      return "";
    }
    boolean opposed = !keys.contains(Keys.ALIGNED);
    boolean aligned = !keys.contains(Keys.OPPOSED);
    boolean straightBoxes = !boxes.contains(MapType.UNIVERSAL) && !boxes.contains(MapType.LISTED);
    MapType cable = cables.iterator().next();
    if (boxes.equals(Set.of(MapType.UNIVERSAL))) {
      return cable != MapType.REVERSED ? "" : opposed ? "U1" : "U2";
    }
    if (!straightBoxes || boxes.contains(MapType.REVERSED)) {
      return "";
    }
    return switch (cable) {
      case STRAIGHT -> opposed ? "A" : "";
      case REVERSED -> aligned ? "B" : "";
      case PAIR_FLIPPED -> opposed ? "C" : "";
      default -> "";
    };
  }
}
