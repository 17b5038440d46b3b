package ferrule.vision;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.face.Examined;
import ferrule.core.face.Flaw;
import ferrule.vision.scene.Mark;
import ferrule.vision.scene.Scene;
import ferrule.vision.scene.Scenes;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class FaceExaminerTest {
  private static Scene flat() {
    Scene s = new Scene();
    s.seed = 5;
    s.ferrule = 0.82;
    s.cladding = 0.72;
    s.core = 0.63;
    return s;
  }

  private static Examined.Face examined(Scene s) {
    return FaceExaminer.examine(s.grey(), 2, OptionalDouble.empty());
  }

  @Test
  void flatBrightFaceWithoutAFlawShowsNone() {
    assertThat(((Examined.Seen) examined(flat())).flaws()).isEmpty();
  }

  @Test
  void plantedDefectsAreFoundWithPlaceAndSize() {
    Scene s = flat();
    Scenes.defects(s, 8, 3, 9, new double[] {-0.1, -0.2, 0.15});
    assertThat(s.marks).hasSizeGreaterThan(5);
    Examined.Seen seen = (Examined.Seen) examined(s);
    for (Mark mark : s.marks) {
      Mark.Spot spot = (Mark.Spot) mark;
      assertThat(seen.flaws())
          .as(spot.toString())
          .anySatisfy(
              f -> {
                assertThat(Math.hypot(f.xUm() - spot.x(), f.yUm() - spot.y())).isLessThan(1);
                assertThat(Math.abs(f.sizeUm() - spot.size()))
                    .isLessThan(Math.max(0.5, 0.15 * spot.size()));
                assertThat(Math.signum(f.contrast())).isEqualTo(Math.signum(spot.contrast()));
              });
    }
    assertThat(seen.flaws()).extracting(Flaw::kind).hasSize(s.marks.size());
  }

  @Test
  void blurTooWideForTheSmallestSizeIsUnreadableWithTheReason() {
    Scene s = flat();
    s.blurUm = 2.5;
    assertThat(examined(s))
        .isInstanceOfSatisfying(
            Examined.Unreadable.class, u -> assertThat(u.reason()).contains("2.0 µm must be seen"));
  }

  @Test
  void aScaleThatMakesTheDiskNoCladdingIsUnreadable() {
    assertThat(FaceExaminer.examine(flat().grey(), 2, OptionalDouble.of(0.3)))
        .isInstanceOf(Examined.Unreadable.class);
  }
}
