package ferrule.vision;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.face.Examined;
import ferrule.vision.scene.Scene;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class NeighbourCheckTest {

  private static Grey fibre(long seed) {
    Scene scene = new Scene();
    scene.seed = seed;
    scene.width = 400;
    scene.height = 400;
    scene.umPerPx = 250.0 / 400;
    return scene.grey();
  }

  private static boolean row(Grey grey) {
    Examined.Face face = FaceExaminer.examine(grey, 99, OptionalDouble.empty());
    assertThat(face).isInstanceOf(Examined.Seen.class);
    return NeighbourCheck.showsRow(grey, (Examined.Seen) face);
  }

  /** Several pictures side by side, across or down. */
  private static Grey beside(int count, boolean down) {
    int width = down ? 400 : 400 * count;
    float[] pixels = new float[160_000 * count];
    for (int i = 0; i < count; i++) {
      Grey one = fibre(i + 1);
      for (int y = 0; y < 400; y++) {
        for (int x = 0; x < 400; x++) {
          int at = down ? (y + 400 * i) * width + x : y * width + x + 400 * i;
          pixels[at] = one.at(x, y);
        }
      }
    }
    return new Grey(width, down ? 400 * count : 400, pixels);
  }

  @Test
  void aRowAcrossOrDownIsTold() {
    assertThat(row(beside(3, false))).isTrue();
    assertThat(row(beside(2, true))).isTrue();
  }

  @Test
  void oneFibreInAWideViewIsNone() {
    Scene scene = new Scene();
    scene.width = 980;
    scene.height = 600;
    scene.umPerPx = 0.68;
    assertThat(row(scene.grey())).isFalse();
    assertThat(row(fibre(5))).isFalse();
  }
}
