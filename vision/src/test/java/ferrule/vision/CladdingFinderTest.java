package ferrule.vision;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.face.Cladding;
import ferrule.vision.scene.Scene;
import ferrule.vision.scene.Scenes;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

class CladdingFinderTest {

  /** A small part of what {@code FaceMeasure} measures; the aim of 99 % is not reached yet. */
  @Test
  void circleWithinHalfAPixelOnNineScenesOfTen() {
    List<String> bad = new ArrayList<>();
    int all = 30;
    for (int i = 0; i < all; i++) {
      Scene s = Scenes.clean(i);
      if (i % 3 == 2) {
        Scenes.dirtOnTheEdge(s);
      }
      String said = complaint(s);
      if (!said.isEmpty()) {
        bad.add(i + " " + said);
      }
    }
    assertThat(bad).hasSizeLessThanOrEqualTo(all / 10);
  }

  static String complaint(Scene s) {
    CladdingFinder.Result result = new CladdingFinder(s.grey()).find();
    Cladding t = s.truth();
    if (result instanceof CladdingFinder.Found f) {
      Cladding c = f.edge();
      double away = Math.hypot(c.cx() - t.cx(), c.cy() - t.cy());
      double r = Math.max(Math.abs(c.rxPx() - t.rxPx()), Math.abs(c.ryPx() - t.ryPx()));
      double sigma = s.blurUm / s.umPerPx;
      return away < 0.5 && r < 0.5
          ? ""
          : String.format(
              Locale.ROOT,
              "away %.2f radius %.2f (%.1f for %.1f) blur %.2f for %.2f ring %.1f core %.0f",
              away,
              r,
              c.rPx(),
              t.rPx(),
              f.blurPx(),
              sigma,
              s.ringUm / s.umPerPx,
              s.coreUm);
    }
    return ((CladdingFinder.Missing) result).reason() + " core " + s.coreUm;
  }

  @Test
  void noiseGradientsAndBareDisksAreNoFibre() {
    Random random = new Random(4);
    for (int kind = 0; kind < 4; kind++) {
      float[] p = new float[320 * 240];
      for (int y = 0; y < 240; y++) {
        for (int x = 0; x < 320; x++) {
          double v =
              switch (kind) {
                case 0 -> 0.5 + 0.1 * random.nextGaussian();
                case 1 -> x / 320.0 + 0.003 * random.nextGaussian();
                case 2 ->
                    (Math.hypot(x - 160, y - 120) < 60 ? 0.8 : 0.3) + 0.005 * random.nextGaussian();
                default -> 0.5;
              };
          p[y * 320 + x] = (float) v;
        }
      }
      assertThat(new CladdingFinder(new Grey(320, 240, p)).find())
          .as("kind %d", kind)
          .isInstanceOf(CladdingFinder.Missing.class);
    }
  }
}
