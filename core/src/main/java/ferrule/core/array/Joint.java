package ferrule.core.array;

import ferrule.core.array.PartEnd.Pins;
import ferrule.core.array.PartEnd.Polish;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Where two parts of a link meet.
 *
 * @param before the part towards A
 * @param after the part towards B
 */
public record Joint(ArrayPart before, ArrayPart after) {

  /** Whether array plugs meet here. */
  public boolean ofArrays() {
    return before.b().array() && after.a().array();
  }

  /** How the keys stand to each other; empty between single ports or if not on record. */
  public Optional<Keys> keys() {
    if (!ofArrays() || before.b().key().isEmpty() || after.a().key().isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(before.b().key().equals(after.a().key()) ? Keys.ALIGNED : Keys.OPPOSED);
  }

  /** Which position faces which; empty if that cannot be told. */
  public Optional<PositionMap> map() {
    if (before.positions() != after.positions() || before.b().array() != after.a().array()) {
      return Optional.empty();
    }
    return ofArrays()
        ? keys().map(keys -> keys.map(before.positions()))
        : Optional.of(PositionMap.straight(before.positions()));
  }

  /** "the joint of cassette C1 and trunk T1". */
  public String named() {
    return "the joint of " + before.named() + " and " + after.named();
  }

  /** Why the two ends cannot be mated as they are written down, each a clause for a reader. */
  public List<String> misfits() {
    List<String> misfits = new ArrayList<>();
    if (before.b().array() != after.a().array()) {
      misfits.add("an array plug meets single ports");
      return misfits;
    }
    if (before.positions() != after.positions()) {
      misfits.add(before.positions() + " positions meet " + after.positions());
    }
    pins(misfits);
    polish(misfits);
    return misfits;
  }

  private void pins(List<String> misfits) {
    Optional<Pins> one = before.b().pins();
    if (one.isPresent() && one.equals(after.a().pins())) {
      misfits.add(
          one.get() == Pins.PINNED
              ? "two pinned ends meet: pins strike pins, and forcing them damages both"
              : "two unpinned ends meet: nothing aligns the fibres");
    }
  }

  private void polish(List<String> misfits) {
    Optional<Polish> one = before.b().polish();
    Optional<Polish> other = after.a().polish();
    if (one.isEmpty() || other.isEmpty()) {
      return;
    }
    if (one.get().angled() != other.get().angled()) {
      misfits.add("an angled face meets a flat one: a wedge of air stays between them");
    } else if (one.get().angled() && keys().isPresent()) {
      boolean sameLean = one.get() == other.get();
      if (sameLean != (keys().get() == Keys.OPPOSED)) {
        misfits.add(
            "two angled faces lean against each other with keys "
                + keys().get().shown()
                + ": a wedge of air stays between them");
      }
    }
  }
}
