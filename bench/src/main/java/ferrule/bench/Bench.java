package ferrule.bench;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.ChainedOptionsBuilder;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/** Runs benchmarks and prints each as a ratio against its baseline, with the ratio aimed at. */
public final class Bench {

  /** What is compared with what, and the ratio that must not be passed. */
  private record Aim(String measured, String baseline, double most, String says) {}

  /** Heap and collector as the script of the command has them. */
  private static final String[] AS_THE_COMMAND = {
    "-Xmx1500m",
    "-Xmn900m",
    "-XX:SurvivorRatio=3",
    "-XX:-UseAdaptiveSizePolicy",
    "-XX:+UseParallelGC",
    "-XX:+UseTransparentHugePages"
  };

  private static final List<Aim> AIMS =
      List.of(
          new Aim(
              "JudgeFolder.judgePapers",
              "JudgeFolder.parseOnly",
              3,
              "what follows from the papers of a folder of 100,000 fibres against parsing it"),
          new Aim(
              "JudgeFolder.judge",
              "JudgeFolder.parseOnly",
              // 3 for all that follows from the papers, 5 for the joint estimate: decision 7.
              8,
              "judging a folder of 100,000 fibres against parsing its CSV files"),
          ofMany("repeatedValues", 15, "looking for repeated values"),
          ofMany("tooQuick", 12, "looking for readings that came too quickly, clocks included"),
          ofMany("clock", 12, "looking for clocks that cannot be right"),
          ofMany("cordWorn", 15, "looking for worn cords"),
          ofMany("lengths", 15, "looking at lengths"),
          ofMany("together", 45, "all of these finders, times worked out once"),
          new Aim(
              "JointShifts.estimate",
              "JointShifts.parseReadings",
              5,
              "joint estimate of 400,000 readings under 2,000 zeros against parsing them"),
          new Aim(
              "JointShifts.estimate",
              "JointShifts.estimateQuarter",
              5,
              "joint estimate of four times the readings"),
          new Aim(
              "FaceGrade.grade",
              "FaceGrade.boofSteps",
              1.5,
              "grading a face of 1280 by 960 against decoding it and BoofCV's blur, local threshold"
                  + " and connected components"),
          new Aim(
              "FaceGrade.grade",
              "FaceGrade.openCvChain",
              1,
              "grading a face of 1280 by 960 against OpenCV's decoding, blur, circles, adaptive"
                  + " threshold and connected components"),
          new Aim(
              "DeskStart.desk",
              "DeskStart.barePage",
              1.5,
              "start to first desk page against a bare page of the same web server"));

  private static Aim ofMany(String measured, double most, String what) {
    return new Aim(
        "ManyFinders." + measured,
        "ManyFinders.ledgerPass",
        most,
        what + " in 400,000 readings against one plain pass over them");
  }

  private Bench() {}

  /** Runs the benchmarks whose names contain an argument; all without arguments. */
  public static void main(String[] arguments) throws RunnerException {
    ChainedOptionsBuilder options = new OptionsBuilder().jvmArgs(AS_THE_COMMAND);
    for (String argument : arguments) {
      options = options.include(".*" + argument + ".*");
    }
    if (arguments.length == 0) {
      options = options.include("ferrule\\.bench\\..*");
    }
    Collection<RunResult> results = new Runner(options.build()).run();
    Map<String, double[]> scores = new LinkedHashMap<>();
    for (RunResult result : results) {
      String name = result.getParams().getBenchmark().replace("ferrule.bench.", "");
      scores.put(
          name,
          new double[] {
            result.getPrimaryResult().getScore(), result.getPrimaryResult().getScoreError()
          });
    }
    System.out.println();
    for (Aim aim : AIMS) {
      double[] measured = scores.get(aim.measured());
      double[] baseline = scores.get(aim.baseline());
      if (measured != null && baseline != null) {
        System.out.println(
            String.format(
                Locale.ROOT,
                "%s: %.2f times (aim: at most %.1f); %.0f ms against %.0f ms",
                aim.says(),
                measured[0] / baseline[0],
                aim.most(),
                measured[0],
                baseline[0]));
      }
    }
  }
}
