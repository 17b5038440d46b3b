package ferrule.vision;

import ferrule.core.face.CountLimit;
import ferrule.core.face.Criteria;
import ferrule.core.face.Examined;
import ferrule.core.face.FaceClass;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.Flaw;
import ferrule.core.face.FlawKind;
import ferrule.core.face.Grade;
import ferrule.core.face.GradedFlaw;
import ferrule.core.face.Grading;
import ferrule.core.face.ShippedCriteria;
import ferrule.vision.scene.Mark;
import ferrule.vision.scene.Plants;
import ferrule.vision.scene.Scene;
import ferrule.vision.scene.Scenes;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

/**
 * Grades rendered faces and holds the outcome against that of the flaws planted, and prints a
 * table. Faces with a flaw within 20 % of a limit, or outside the picture, are left out.
 */
final class OutcomeMeasure {
  private OutcomeMeasure() {}

  /** So many faces graded, so many as planted; so many though readable not. */
  record Result(int faces, int right, int unreadable) {}

  /** Number of scenes, first seed; a third word lists what went wrong. */
  public static void main(String[] args) {
    measure(Integer.parseInt(args[0]), Integer.parseInt(args[1]), args.length > 2);
  }

  /** Measures; {@code tell} lists what went wrong. */
  static Result measure(int n, int from, boolean tell) {
    Criteria criteria = ShippedCriteria.find("2015").orElseThrow();
    Map<Plants.Sort, int[]> tally = new EnumMap<>(Plants.Sort.class);
    for (int i = from; i < from + n; i++) {
      SplittableRandom dice = new SplittableRandom(77L * i + 13);
      Plants.Sort sort = Plants.Sort.values()[dice.nextInt(Plants.Sort.values().length)];
      boolean faint = dice.nextBoolean();
      Scene s = readable(i);
      Plants.plant(s, sort, dice, faint ? 0.1 : 0.2, faint ? 0.2 : 0.6);
      Examined.Seen truth =
          new Examined.Seen(
              s.truth(),
              s.umPerPx,
              s.umPerPx * s.aspect,
              1,
              130,
              s.marks.stream().map(OutcomeMeasure::flaw).toList());
      Grade right = Grading.grade(criteria, FaceClass.SM_PC, truth);
      boolean hidden = !s.marks.stream().allMatch(s::shows);
      if (hidden || right.flaws().stream().anyMatch(OutcomeMeasure::nearLimit)) {
        continue;
      }
      Grade got =
          Grading.grade(
              criteria,
              FaceClass.SM_PC,
              FaceExaminer.examine(s.grey(), criteria.smallest().value(), OptionalDouble.empty()));
      int[] t = tally.computeIfAbsent(sort, k -> new int[3]);
      t[0]++;
      if (got.outcome() == right.outcome()) {
        t[1]++;
      } else if (got.outcome() == FaceOutcome.UNREADABLE) {
        t[2]++;
      }
      if (tell && got.outcome() != right.outcome()) {
        System.out.printf(
            "%d %s %s for %s; %.2f µm/px blur %.2f ring %.1f core %.0f ferrule %.2f cladding %.2f"
                + " jpeg %.2f%n  planted %s%n  %s%n",
            i,
            sort,
            got.outcome(),
            right.outcome(),
            s.umPerPx,
            s.blurUm,
            s.ringUm,
            s.coreUm,
            s.ferrule,
            s.cladding,
            s.jpeg,
            s.marks.stream().map(OutcomeMeasure::shown).toList(),
            got.reasonTexts());
        for (GradedFlaw f : got.flaws()) {
          System.out.println("    " + f.zone() + " " + f.counted() + " " + f.flaw());
        }
      }
    }
    System.out.println("| planted | faces | outcome as planted | unreadable |");
    System.out.println("| --- | --- | --- | --- |");
    int[] all = new int[3];
    tally.forEach(
        (sort, t) -> {
          System.out.printf(
              "| %s | %d | %d | %d |%n",
              sort.name().toLowerCase(java.util.Locale.ROOT).replace('_', ' '), t[0], t[1], t[2]);
          for (int k = 0; k < 3; k++) {
            all[k] += t[k];
          }
        });
    System.out.printf("| all | %d | %d | %d |%n", all[0], all[1], all[2]);
    return new Result(all[0], all[1], all[2]);
  }

  private static Scene readable(int seed) {
    Scene scene = Scenes.clean(seed);
    for (int k = 1; !readable(scene); k++) {
      scene = Scenes.clean(seed + 1_000_000L * k);
    }
    return scene;
  }

  /** Pixel and point spread as IEC 61300-3-35's 2 µm ask (from memory), with room to spare. */
  private static boolean readable(Scene s) {
    double px = s.umPerPx * Math.max(1, s.aspect);
    return px < 0.9 && 2.355 * s.blurUm * 0.8 < 1.9;
  }

  static String shown(Mark mark) {
    return String.format(
        java.util.Locale.ROOT,
        "%s %.2f to %.2f c %.2f",
        mark instanceof Mark.Spot spot
            ? String.format(
                java.util.Locale.ROOT, "%.2f at %.1f,%.1f", spot.size(), spot.x(), spot.y())
            : String.format(java.util.Locale.ROOT, "line %.2f", ((Mark.Line) mark).width()),
        mark.nearest(),
        mark.reach(),
        mark.contrast());
  }

  static Flaw flaw(Mark mark) {
    if (mark instanceof Mark.Line line) {
      List<double[]> p = line.points();
      return new Flaw(
          FlawKind.SCRATCH,
          p.get(p.size() / 2)[0],
          p.get(p.size() / 2)[1],
          line.length(),
          line.width(),
          0,
          line.contrast(),
          line.nearest(),
          line.reach());
    }
    Mark.Spot spot = (Mark.Spot) mark;
    return new Flaw(
        FlawKind.DEFECT,
        spot.x(),
        spot.y(),
        spot.size(),
        spot.size() * spot.flat(),
        0,
        spot.contrast(),
        spot.nearest(),
        spot.reach());
  }

  private static boolean nearLimit(GradedFlaw flaw) {
    double size = flaw.flaw().sizeUm();
    return flaw.limit().map(CountLimit::sizes).stream()
        .flatMapToDouble(z -> java.util.stream.DoubleStream.of(z.lowUm(), z.highUm()))
        .anyMatch(end -> end > 0 && Math.abs(size / end - 1) <= 0.2);
  }
}
