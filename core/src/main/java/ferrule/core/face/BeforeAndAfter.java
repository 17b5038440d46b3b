package ferrule.core.face;

import ferrule.core.face.FaceComparison.Told;
import ferrule.core.face.FaceComparison.Turn;
import ferrule.core.face.FaceComparison.Untold;
import ferrule.core.face.Registration.Pair;
import ferrule.core.face.Registration.Placing;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Names what became of each flaw between two pictures of one face, found and cleaned, whichever way
 * round the face lay in each; or says that it cannot be told.
 */
@SuppressWarnings("IdentityHashMapUsage") // two flaws of one face may have the same numbers
public final class BeforeAndAfter {

  private final List<Flaw> before;
  private final List<Flaw> after;

  /** Each flaw seen before that has been found again, with what became of it. */
  private final Map<Flaw, FlawChange> found = new IdentityHashMap<>();

  private final Map<Flaw, Flaw> taken = new IdentityHashMap<>();

  private BeforeAndAfter(List<Flaw> before, List<Flaw> after) {
    this.before = before;
    this.after = after;
  }

  /**
   * Compares two pictures of one face.
   *
   * @param before the earlier
   * @param after the later
   */
  public static FaceComparison compare(Examined.Seen before, Examined.Seen after) {
    Registration.Result result = Registration.of(before.flaws(), after.flaws());
    if (!result.nothingAlike() && result.placing().isEmpty()) {
      return new Untold(result.why());
    }
    return new BeforeAndAfter(before.flaws(), after.flaws()).told(result.placing(), result.turn());
  }

  private FaceComparison told(Optional<Placing> placing, Optional<Turn> turn) {
    placing.ifPresent(this::stayed);
    moved();
    List<FlawChange> changes = new ArrayList<>();
    for (Flaw flaw : before) {
      FlawChange change = found.get(flaw);
      changes.add(
          change != null
              ? change
              : new FlawChange(FlawChange.Kind.CLEANED_AWAY, Optional.of(flaw), Optional.empty()));
    }
    for (Flaw flaw : after) {
      if (!taken.containsKey(flaw)) {
        changes.add(new FlawChange(FlawChange.Kind.NEW, Optional.empty(), Optional.of(flaw)));
      }
    }
    return new Told(turn, changes);
  }

  /** Flaws at the same place; first those alike in size, then those that shrank or grew. */
  private void stayed(Placing placing) {
    List<Pair> alike = new ArrayList<>();
    List<Pair> ofOneKind = new ArrayList<>();
    for (Flaw one : before) {
      for (Flaw other : after) {
        if (one.kind() == other.kind() && placing.miss(one, other) <= Registration.FINE_UM) {
          (Registration.alike(one, other) ? alike : ofOneKind).add(new Pair(one, other));
        }
      }
    }
    for (List<Pair> pairs : List.of(alike, ofOneKind)) {
      pairs.sort(Comparator.comparingDouble(p -> placing.miss(p.before(), p.after())));
      pairs.forEach(pair -> enter(FlawChange.Kind.STAYED, pair));
    }
  }

  /** Defects found again elsewhere, the most alike first; a scratch does not move. */
  private void moved() {
    List<Pair> pairs = new ArrayList<>();
    for (Flaw one : before) {
      for (Flaw other : after) {
        if (one.kind() == FlawKind.DEFECT
            && !found.containsKey(one)
            && !taken.containsKey(other)
            && Registration.alike(one, other)) {
          pairs.add(new Pair(one, other));
        }
      }
    }
    pairs.sort(
        Comparator.comparingDouble(
            p ->
                Math.abs(p.before().sizeUm() - p.after().sizeUm())
                    + Math.abs(p.before().widthUm() - p.after().widthUm())));
    pairs.forEach(pair -> enter(FlawChange.Kind.MOVED, pair));
  }

  private void enter(FlawChange.Kind kind, Pair pair) {
    if (!found.containsKey(pair.before()) && !taken.containsKey(pair.after())) {
      found.put(
          pair.before(),
          new FlawChange(kind, Optional.of(pair.before()), Optional.of(pair.after())));
      taken.put(pair.after(), pair.before());
    }
  }
}
