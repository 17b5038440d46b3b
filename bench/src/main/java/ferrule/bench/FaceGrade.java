package ferrule.bench;

import boofcv.alg.filter.binary.BinaryImageOps;
import boofcv.alg.filter.binary.GThresholdImageOps;
import boofcv.alg.filter.blur.GBlurImageOps;
import boofcv.concurrency.BoofConcurrency;
import boofcv.io.image.ConvertBufferedImage;
import boofcv.struct.ConfigLength;
import boofcv.struct.ConnectRule;
import boofcv.struct.image.GrayU8;
import ferrule.core.face.Criteria;
import ferrule.core.face.FaceClass;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.Grade;
import ferrule.core.face.Grading;
import ferrule.core.face.ShippedCriteria;
import ferrule.vision.FaceExaminer;
import ferrule.vision.PictureException;
import ferrule.vision.PictureReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import javax.imageio.ImageIO;
import nu.pattern.OpenCV;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfByte;
import org.opencv.core.Size;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A face of 1280 by 960 pixels from the bytes of its PNG to its grade, on one thread, against usual
 * steps of image processing of two libraries on the same bytes. The steps grade nothing: they are a
 * measure of the machine.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 8, time = 2)
@Fork(2)
public class FaceGrade {

  private static final int WIDTH = 1280;
  private static final int HEIGHT = 960;
  private static final double UM_PER_PX = 0.25;

  @SuppressWarnings("NullAway.Init") // rendered before anything is measured
  private byte[] png;

  @SuppressWarnings("NullAway.Init") // found before anything is measured
  private Criteria criteria;

  /** Renders the face: a core, a cladding, a ferrule, three flaws, noise. */
  @Setup(Level.Trial)
  public void render() throws IOException {
    OpenCV.loadLocally();
    Core.setNumThreads(1);
    BoofConcurrency.USE_CONCURRENT = false;
    criteria = ShippedCriteria.find("2015").orElseThrow();
    double[][] flaws = {{20, 10, 2}, {-30, 25, 3}, {5, -40, 1.5}};
    Random random = new Random(5);
    BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_BYTE_GRAY);
    for (int y = 0; y < HEIGHT; y++) {
      for (int x = 0; x < WIDTH; x++) {
        double dx = (x - 655.3) * UM_PER_PX;
        double dy = (y - 470.8) * UM_PER_PX;
        double r = Math.hypot(dx, dy);
        double level = soft(r - 62.5, 0.45, 0.75);
        level += soft(r - 4.5, -0.12, 0);
        for (double[] flaw : flaws) {
          level *= 1 + soft(Math.hypot(dx - flaw[0], dy - flaw[1]) - flaw[2], -0.3, 0);
        }
        double noisy = level + 0.006 * random.nextGaussian();
        image.getRaster().setSample(x, y, 0, (int) Math.round(255 * noisy));
      }
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(image, "png", out);
    png = out.toByteArray();
  }

  private static double soft(double beyondUm, double inside, double outside) {
    return inside + (outside - inside) / (1 + Math.exp(-3 * beyondUm));
  }

  /** From the file's bytes to the grade. */
  @Benchmark
  public Grade grade() throws PictureException {
    Grade grade =
        Grading.grade(
            criteria,
            FaceClass.SM_PC,
            FaceExaminer.examine(
                PictureReader.read(png).grey(),
                criteria.smallest().value(),
                OptionalDouble.empty()));
    if (grade.outcome() == FaceOutcome.UNREADABLE || grade.flaws().size() < 3) {
      throw new IllegalStateException(grade.reasonTexts().toString());
    }
    return grade;
  }

  /** Baseline: decoding, Gaussian blur, local threshold, connected components by BoofCV. */
  @Benchmark
  public int boofSteps() throws IOException {
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(png));
    GrayU8 grey = ConvertBufferedImage.convertFrom(image, (GrayU8) null);
    GrayU8 blurred = new GrayU8(WIDTH, HEIGHT);
    GBlurImageOps.gaussian(grey, blurred, 2, -1, null);
    GrayU8 binary = new GrayU8(WIDTH, HEIGHT);
    GThresholdImageOps.localMean(
        blurred, binary, ConfigLength.fixed(51), 0.98, true, null, null, null);
    return BinaryImageOps.contour(binary, ConnectRule.EIGHT, null).size();
  }

  /** Baseline: the usual chain of OpenCV, circles included. */
  @Benchmark
  public int openCvChain() {
    Mat grey = Imgcodecs.imdecode(new MatOfByte(png), Imgcodecs.IMREAD_GRAYSCALE);
    Mat blurred = new Mat();
    Imgproc.GaussianBlur(grey, blurred, new Size(0, 0), 2);
    Mat circles = new Mat();
    Imgproc.HoughCircles(
        blurred, circles, Imgproc.HOUGH_GRADIENT, 1, HEIGHT / 2.0, 60, 30, 100, 400);
    Mat binary = new Mat();
    Imgproc.adaptiveThreshold(
        blurred, binary, 255, Imgproc.ADAPTIVE_THRESH_MEAN_C, Imgproc.THRESH_BINARY_INV, 51, 4);
    Mat labels = new Mat();
    Mat stats = new Mat();
    Mat centres = new Mat();
    int found =
        Imgproc.connectedComponentsWithStats(binary, labels, stats, centres, 8, CvType.CV_32S);
    for (Mat mat : new Mat[] {grey, blurred, circles, binary, labels, stats, centres}) {
      mat.release();
    }
    return found;
  }
}
