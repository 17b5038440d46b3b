package ferrule.vision;

import ferrule.core.face.Cladding;
import ferrule.core.face.Examined;
import ferrule.core.face.Flaw;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;

/**
 * From a picture of a ferrule's end face to what is seen on it: one fibre, or a row of them, or
 * several rows.
 *
 * <p>A row is graded only if it is whole: no gap, no fibre cut by the picture's edge, and as many
 * as are expected or, where nobody says, as many as ferrules usually have.
 */
public final class FerruleExaminer {
  /** Fibres that a row usually has (common practice, no source). */
  private static final Set<Integer> USUAL = Set.of(2, 4, 8, 12, 16);

  /** Of these it is believed that the row ends where the picture does not show it. */
  private static final Set<Integer> USUAL_UNSEEN = Set.of(4, 8, 12, 16);

  private final Grey grey;
  private final double smallestUm;
  private final OptionalDouble umPerPx;

  private FerruleExaminer(Grey grey, double smallestUm, OptionalDouble umPerPx) {
    this.grey = grey;
    this.smallestUm = smallestUm;
    this.umPerPx = umPerPx;
  }

  /**
   * Examines a picture.
   *
   * @param grey the picture
   * @param smallestUm the smallest flaw that must be seen, µm
   * @param umPerPx calibrated scale, if there is one; else each cladding gives it
   * @param expected how many fibres the ferrule has, 1 or more, if that is known
   */
  public static Examined examine(
      Grey grey, double smallestUm, OptionalDouble umPerPx, OptionalInt expected) {
    return new FerruleExaminer(grey, smallestUm, umPerPx).examine(expected);
  }

  private Examined examine(OptionalInt expected) {
    CladdingFinder.Result result = new CladdingFinder(grey).find();
    Optional<FibreRow> row = Optional.empty();
    if (result instanceof CladdingFinder.Found found && RowFinder.hasRoom(grey, found)) {
      row = new RowFinder(grey, found).find();
    }
    boolean several = expected.isPresent() && expected.getAsInt() > 1;
    if (row.isEmpty() && (several || result instanceof CladdingFinder.Missing)) {
      row = RowSeeds.row(grey);
    }
    if (row.isPresent()) {
      return examined(row.get(), expected);
    }
    if (result instanceof CladdingFinder.Missing missing) {
      return new Examined.Unreadable(missing.reason());
    }
    if (several) {
      return new Examined.Unreadable(
          "one fibre was found, " + expected.getAsInt() + " were expected");
    }
    return FaceExaminer.seen(grey, (CladdingFinder.Found) result, smallestUm, umPerPx);
  }

  private Examined examined(FibreRow row, OptionalInt expected) {
    int found = row.found();
    String fibres = found == 1 ? "1 fibre is" : found + " fibres are";
    if (row.cut()) {
      return new Examined.Unreadable(
          "the picture shows a row of fibres and cuts it off at its edge, "
              + fibres
              + " wholly shown: take a picture of the whole row, or of each fibre alone");
    }
    if (expected.isPresent()) {
      int wanted = expected.getAsInt();
      if (wanted == 1) {
        return new Examined.Unreadable(
            fibres + " shown where one was expected: which one is meant cannot be told");
      }
      if (found == wanted && row.isMirrored()) {
        return new Examined.Row(faces(row, false));
      }
      if (row.places().size() != wanted) {
        return new Examined.Unreadable(
            (found == 1 ? "1 fibre was" : found + " fibres were")
                + " found, "
                + wanted
                + " were expected");
      }
      return new Examined.Row(faces(row, true));
    }
    if (found == row.places().size() && !isUsual(row)) {
      return new Examined.Unreadable(
          found
              + (row.rows() > 1
                  ? " fibres were found in " + row.rows() + " rows"
                  : " fibres were found in a row")
              + (row.endsSeen() || !USUAL.contains(row.columns())
                  ? ", a number that no usual ferrule has, so that one may be missing"
                  : " and the picture does not show whether it goes on")
              + ": say how many there are");
    }
    return new Examined.Row(faces(row, true));
  }

  private static boolean isUsual(FibreRow row) {
    return (row.endsSeen() ? USUAL : USUAL_UNSEEN).contains(row.columns());
  }

  /** The face at each place; a place without a fibre is unreadable, or left out. */
  private List<Examined.Face> faces(FibreRow row, boolean gaps) {
    List<Examined.Face> faces = new ArrayList<>();
    for (Optional<CladdingFinder.Found> place : row.places()) {
      if (place.isPresent()) {
        Examined.Face face = FaceExaminer.seen(grey, place.get(), smallestUm, umPerPx);
        faces.add(face instanceof Examined.Seen seen ? ownFlaws(seen, row) : face);
      } else if (gaps) {
        faces.add(new Examined.Unreadable("no cladding was found at its place in the row"));
      }
    }
    return faces;
  }

  /** Without the flaws that lie nearer to another fibre: they are told there. */
  private static Examined.Seen ownFlaws(Examined.Seen seen, FibreRow row) {
    List<Flaw> own =
        seen.flaws().stream()
            .filter(
                flaw ->
                    row.places().stream()
                        .flatMap(Optional::stream)
                        .map(CladdingFinder.Found::edge)
                        .allMatch(other -> isOwn(flaw, seen, other)))
            .toList();
    return new Examined.Seen(
        seen.cladding(),
        seen.umPerPxX(),
        seen.umPerPxY(),
        seen.resolvableUm(),
        seen.shownUm(),
        own);
  }

  private static boolean isOwn(Flaw flaw, Examined.Seen seen, Cladding other) {
    double dx = (other.cx() - seen.cladding().cx()) * seen.umPerPxX();
    double dy = (other.cy() - seen.cladding().cy()) * seen.umPerPxY();
    return Math.hypot(flaw.xUm() - dx, flaw.yUm() - dy) >= Math.hypot(flaw.xUm(), flaw.yUm());
  }
}
