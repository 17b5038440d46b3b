package ferrule.vision;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.face.Cladding;
import ferrule.core.face.Examined;
import ferrule.vision.scene.RowScene;
import ferrule.vision.scene.Scene;
import ferrule.vision.scene.Scenes;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

class RowTest {

  private static RowScene row(int columns, int rows) {
    Scene look = new Scene();
    look.seed = 11;
    look.umPerPx = 0.8;
    RowScene row = new RowScene(look);
    row.columns = columns;
    row.rows = rows;
    return row;
  }

  private static Examined examined(RowScene row, OptionalInt expected) {
    return FerruleExaminer.examine(row.grey(), 2, OptionalDouble.empty(), expected);
  }

  private static void isWhole(RowScene row) {
    Examined examined = examined(row, OptionalInt.empty());
    assertThat(examined).isInstanceOf(Examined.Row.class);
    Examined.Row found = (Examined.Row) examined;
    assertThat(found.fibres()).hasSize(row.places());
    for (int place = 0; place < row.places(); place++) {
      assertThat(found.fibres().get(place)).isInstanceOf(Examined.Seen.class);
      Cladding edge = ((Examined.Seen) found.fibres().get(place)).cladding();
      Cladding truth = row.truth(place);
      assertThat(Math.hypot(edge.cx() - truth.cx(), edge.cy() - truth.cy())).isLessThan(0.5);
      assertThat(Math.abs(edge.rPx() - truth.rPx())).isLessThan(0.5);
    }
  }

  private static void isUnreadable(RowScene row, OptionalInt expected, String why) {
    assertThat(examined(row, expected))
        .isInstanceOfSatisfying(
            Examined.Unreadable.class, u -> assertThat(u.reason()).contains(why));
  }

  @Test
  void everyFibreOfAnOrdinaryRowIsFoundInOrder() {
    RowScene tilted = row(8, 1);
    tilted.turn = 0.03;
    isWhole(tilted);
  }

  @Test
  void twoRowsAreNumberedTheUpperFirst() {
    RowScene two = row(4, 2);
    two.rowPitchUm = 500;
    two.turn = -0.02;
    isWhole(two);
  }

  @Test
  void aRowSmallAgainstItsPictureIsFound() {
    RowScene small = row(4, 1);
    small.marginY = 900;
    small.look.umPerPx = 0.9;
    isWhole(small);
  }

  @Test
  void aMissingFibreIsUnreadableAtItsPlace() {
    RowScene gap = row(4, 1);
    gap.missing.add(1);
    Examined.Row found = (Examined.Row) examined(gap, OptionalInt.empty());
    assertThat(found.fibres()).hasSize(4);
    assertThat(found.fibres().get(1)).isInstanceOf(Examined.Unreadable.class);
    assertThat(found.fibres().get(2)).isInstanceOf(Examined.Seen.class);
    RowScene end = row(4, 1);
    end.missing.add(3);
    isUnreadable(end, OptionalInt.empty(), "no usual ferrule has");
    isUnreadable(end, OptionalInt.of(4), "3 fibres were found, 4 were expected");
  }

  @Test
  void aRowThatTheEdgeCutsIsUnreadable() {
    RowScene cut = row(4, 1);
    cut.cutUm = cut.marginX;
    isUnreadable(cut, OptionalInt.empty(), "cuts it off");
    RowScene alone = row(2, 1);
    alone.cutUm = alone.marginX;
    isUnreadable(alone, OptionalInt.of(1), "cuts it off");
  }

  @Test
  void anotherNumberThanExpectedIsUnreadable() {
    isUnreadable(row(4, 1), OptionalInt.of(12), "4 fibres were found, 12 were expected");
    isUnreadable(row(4, 1), OptionalInt.of(1), "which one is meant cannot be told");
    Scene one = new Scene();
    assertThat(FerruleExaminer.examine(one.grey(), 2, OptionalDouble.empty(), OptionalInt.of(2)))
        .isInstanceOfSatisfying(
            Examined.Unreadable.class, u -> assertThat(u.reason()).contains("one fibre was found"));
  }

  @Test
  void oneFibreInAWideViewIsNoRow() {
    Scene scene = new Scene();
    scene.width = 980;
    scene.height = 600;
    scene.umPerPx = 0.68;
    assertThat(
            FerruleExaminer.examine(scene.grey(), 2, OptionalDouble.empty(), OptionalInt.empty()))
        .isInstanceOf(Examined.Seen.class);
  }

  /** A small part of what {@link RowMeasure} measures, with room for one miss. */
  @Test
  void gradesOfRenderedRowsAreThoseOfTheFlawsPlanted() {
    RowMeasure.Tally tally = RowMeasure.measure(5, 70_000, false);
    assertThat(tally.right).isGreaterThanOrEqualTo(tally.rows - 1);
    assertThat(tally.placed).isGreaterThanOrEqualTo(tally.fibres - 1);
    assertThat(tally.sameOutcome).isGreaterThanOrEqualTo(tally.fibres - 2);
  }

  @Test
  void dirtBetweenFibresIsNoFibre() {
    RowScene dirty = row(8, 1);
    Scenes.dirtBetween(dirty);
    isWhole(dirty);
  }
}
