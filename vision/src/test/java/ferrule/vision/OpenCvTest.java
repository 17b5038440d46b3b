package ferrule.vision;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import nu.pattern.OpenCV;
import org.junit.jupiter.api.Test;
import org.opencv.core.MatOfPoint2f;
import org.opencv.core.Point;
import org.opencv.core.RotatedRect;
import org.opencv.imgproc.Imgproc;

/** The ellipse against an independent library's, on the same points. */
class OpenCvTest {
  @Test
  void ellipseAgreesWithOpenCv() {
    OpenCV.loadLocally();
    Random random = new Random(3);
    int n = 360;
    double[] x = new double[n];
    double[] y = new double[n];
    double[] weight = new double[n];
    Point[] points = new Point[n];
    Arrays.fill(weight, 1);
    for (int i = 0; i < n; i++) {
      double t = 2 * Math.PI * i / n;
      x[i] = 320.3 + 105 * Math.cos(t) + 0.1 * random.nextGaussian();
      y[i] = 239.6 + 100 * Math.sin(t) + 0.1 * random.nextGaussian();
      points[i] = new Point(x[i], y[i]);
    }
    CircleFit fit = CircleFit.taubin(x, y).refined(x, y, weight, true);
    RotatedRect theirs = Imgproc.fitEllipse(new MatOfPoint2f(points));
    assertThat(fit.cx()).isCloseTo(theirs.center.x, within(0.02));
    assertThat(fit.cy()).isCloseTo(theirs.center.y, within(0.02));
    assertThat(2 * fit.rx())
        .isCloseTo(Math.max(theirs.size.width, theirs.size.height), within(0.06));
    assertThat(2 * fit.ry())
        .isCloseTo(Math.min(theirs.size.width, theirs.size.height), within(0.06));
  }
}
