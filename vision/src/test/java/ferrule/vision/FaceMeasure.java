package ferrule.vision;

import ferrule.core.face.Criteria;
import ferrule.core.face.Examined;
import ferrule.core.face.FaceClass;
import ferrule.core.face.Flaw;
import ferrule.core.face.FlawKind;
import ferrule.core.face.GradedFlaw;
import ferrule.core.face.Grading;
import ferrule.core.face.ShippedCriteria;
import ferrule.vision.scene.Mark;
import ferrule.vision.scene.Scene;
import ferrule.vision.scene.Scenes;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.TreeMap;

/**
 * Measures circle, flaws and sizes on rendered scenes and prints a table. The same count from the
 * same seed gives the same table. What is planted on a scene does not hang on how it looks.
 */
final class FaceMeasure {
  private FaceMeasure() {}

  private static final class Tally {
    int planted;
    int found;
    int sized;
  }

  /** A scratch about the middle of the planted one, and at least half as long. */
  private static boolean isOn(Mark.Line line, Flaw flaw) {
    return flaw.kind() == FlawKind.SCRATCH
        && line.distance(flaw.xUm(), flaw.yUm()) < 4
        && flaw.lengthUm() > line.length() / 2;
  }

  /**
   * Prints the table for so many scenes, from a seed on; a third word lists what went wrong, and if
   * it is {@code clean} only faces without a flaw are looked at.
   */
  public static void main(String[] args) {
    int n = Integer.parseInt(args[0]);
    int from = args.length > 1 ? Integer.parseInt(args[1]) : 0;
    boolean tell = args.length > 2;
    boolean cleanOnly = tell && args[2].equals("clean");
    Criteria criteria = ShippedCriteria.find("2015").orElseThrow();
    int scenes = 0;
    int clean = 0;
    int falseFaces = 0;
    int falseCounted = 0;
    int circleBad = 0;
    int unreadable = 0;
    int lines = 0;
    int linesFound = 0;
    Map<String, Tally> bySize = new TreeMap<>();
    for (int i = from; i < from + n; i++) {
      Scene s = Scenes.clean(i);
      SplittableRandom dice = new SplittableRandom(31L * i + 7);
      int sort = dice.nextInt(3);
      if (cleanOnly && sort != 2) {
        continue;
      }
      scenes++;
      if (sort == 0) {
        Scenes.defects(s, 8, 2, 9, new double[] {-0.08, -0.15, -0.3, 0.12, 0.3});
      } else if (sort == 1) {
        s.marks.add(Scenes.scratch(i, 0.5, dice.nextBoolean() ? -0.15 : 0.2, dice.nextBoolean()));
      }
      if (!CladdingFinderTest.complaint(s).isEmpty()) {
        circleBad++;
      }
      Examined.Face face = FaceExaminer.examine(s.grey(), 99, OptionalDouble.empty());
      if (!(face instanceof Examined.Seen seen)) {
        unreadable++;
        continue;
      }
      if (sort == 2) {
        clean++;
        falseFaces += seen.flaws().isEmpty() ? 0 : 1;
        falseCounted +=
            (int)
                Grading.grade(criteria, FaceClass.SM_PC, seen).flaws().stream()
                    .filter(GradedFlaw::counted)
                    .count();
      }
      for (Mark mark : s.marks) {
        if (mark instanceof Mark.Spot spot) {
          String key =
              String.format(
                  Locale.ROOT,
                  "%s µm, contrast %2.0f %%",
                  spot.size() < 3 ? "2 to 3" : spot.size() < 5 ? "3 to 5" : "5 to 9",
                  100 * Math.abs(spot.contrast()));
          Tally tally = bySize.computeIfAbsent(key, k -> new Tally());
          tally.planted++;
          for (Flaw f : seen.flaws()) {
            if (Math.hypot(f.xUm() - spot.x(), f.yUm() - spot.y())
                < Math.max(1.5, spot.size() / 2)) {
              tally.found++;
              double off = Math.abs(f.sizeUm() - spot.size());
              tally.sized += off < Math.max(0.5, 0.15 * spot.size()) ? 1 : 0;
              if (tell && off >= Math.max(0.5, 0.15 * spot.size())) {
                System.out.printf(
                    "%d %s %.2f for %.2f c %.2f blur %.2f px %.2f%n",
                    i, f.kind(), f.sizeUm(), spot.size(), spot.contrast(), s.blurUm, s.umPerPx);
              }
              break;
            }
          }
        } else if (mark instanceof Mark.Line line) {
          lines++;
          linesFound += seen.flaws().stream().anyMatch(f -> isOn(line, f)) ? 1 : 0;
        }
      }
      if (tell && sort == 2) {
        for (Flaw f : seen.flaws()) {
          System.out.println(i + " " + f);
        }
      }
    }
    System.out.println("| scenes | what | share |\n| --- | --- | --- |");
    System.out.printf("| %d | circle within 0.5 px | %d |%n", scenes, scenes - circleBad);
    System.out.printf("| %d | unreadable though readable | %d |%n", scenes, unreadable);
    System.out.printf("| %d | clean faces with a false flaw | %d |%n", clean, falseFaces);
    System.out.printf(
        "| %d | false flaws that count on clean faces, in all | %d |%n", clean, falseCounted);
    System.out.printf("| %d | scratches of 0.5 µm found | %d |%n", lines, linesFound);
    bySize.forEach(
        (key, t) ->
            System.out.printf(
                "| %d | defects %s: found, sized within 15 %% or 0.5 µm | %d, %d |%n",
                t.planted, key, t.found, t.sized));
  }
}
