package ferrule.vision;

import ferrule.core.face.Cladding;
import ferrule.core.face.CountLimit;
import ferrule.core.face.Criteria;
import ferrule.core.face.Examined;
import ferrule.core.face.FaceClass;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.GradedFlaw;
import ferrule.core.face.Grading;
import ferrule.core.face.RowGrade;
import ferrule.core.face.ShippedCriteria;
import ferrule.vision.scene.Plants;
import ferrule.vision.scene.RowScene;
import ferrule.vision.scene.Scene;
import ferrule.vision.scene.Scenes;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;

/**
 * Grades rendered rows of fibres and holds each fibre's outcome and the ferrule's against those of
 * the flaws planted, and prints a table. Fibres with a flaw within 20 % of a limit are left out.
 */
final class RowMeasure {
  private RowMeasure() {}

  /** What is done to a row. */
  enum Trouble {
    NONE,
    DIRT_BETWEEN,
    ONE_MISSING,
    CUT_BY_THE_EDGE
  }

  /** Sums over rows. */
  static final class Tally {
    int rows;
    int right;
    int fibres;
    int placed;
    int graded;
    int sameOutcome;
  }

  /** Number of scenes, first seed; a third word lists what went wrong. */
  public static void main(String[] args) {
    measure(Integer.parseInt(args[0]), Integer.parseInt(args[1]), args.length > 2);
  }

  /** Measures; {@code tell} lists what went wrong. */
  static Tally measure(int n, int from, boolean tell) {
    Map<Trouble, Tally> tallies = new EnumMap<>(Trouble.class);
    for (int i = from; i < from + n; i++) {
      SplittableRandom dice = new SplittableRandom(91L * i + 17);
      Trouble trouble = Trouble.values()[dice.nextInt(Trouble.values().length)];
      RowScene scene = scene(i, trouble, dice);
      Tally tally = tallies.computeIfAbsent(trouble, k -> new Tally());
      boolean counted = dice.nextBoolean();
      String wrong = one(scene, trouble, counted, tally);
      if (tell && !wrong.isEmpty()) {
        System.out.printf(
            Locale.ROOT,
            "%d %s %dx%d rows %.0f µm apart, turn %.1f, %.2f µm/px, margins %.0f %.0f, %dx%d%s:%n"
                + "%s",
            i,
            trouble,
            scene.rows,
            scene.columns,
            scene.rowPitchUm,
            Math.toDegrees(scene.turn),
            scene.look.umPerPx,
            scene.marginX,
            scene.marginY,
            scene.width(),
            scene.height(),
            counted ? ", count given" : "",
            wrong);
      }
    }
    System.out.println(
        "| row | pictures | outcome of the ferrule as planted | fibres | centre within 0.5 px |"
            + " graded | outcome as planted |");
    System.out.println("| --- | --- | --- | --- | --- | --- | --- |");
    Tally all = new Tally();
    tallies.forEach(
        (trouble, t) -> {
          print(trouble.name().toLowerCase(Locale.ROOT).replace('_', ' '), t);
          all.rows += t.rows;
          all.right += t.right;
          all.fibres += t.fibres;
          all.placed += t.placed;
          all.graded += t.graded;
          all.sameOutcome += t.sameOutcome;
        });
    print("all", all);
    return all;
  }

  private static void print(String name, Tally t) {
    System.out.printf(
        "| %s | %d | %d | %d | %d | %d | %d |%n",
        name, t.rows, t.right, t.fibres, t.placed, t.graded, t.sameOutcome);
  }

  private static RowScene scene(int seed, Trouble trouble, SplittableRandom dice) {
    int[][] sizes = {{4, 1}, {8, 1}, {12, 1}, {12, 1}, {12, 2}};
    int[] size = sizes[dice.nextInt(sizes.length)];
    RowScene scene = Scenes.row(seed, size[0], size[1]);
    for (int place = 0; place < scene.places(); place++) {
      // Half of the ferrules are without a flaw.
      if (seed % 2 == 0 && dice.nextInt(4) == 0) {
        Scene carrier = new Scene();
        Plants.plant(
            carrier,
            Plants.Sort.values()[dice.nextInt(Plants.Sort.values().length)],
            dice,
            0.2,
            0.6);
        scene.marksOf(place).addAll(carrier.marks);
      }
    }
    switch (trouble) {
      case NONE -> {}
      case DIRT_BETWEEN -> Scenes.dirtBetween(scene);
      // Not at an end: a row of 11 is told by its number only.
      case ONE_MISSING -> scene.missing.add(dice.nextInt(scene.places()));
      case CUT_BY_THE_EDGE -> {
        scene.turn = 0;
        // Through the last fibre, or all of it away.
        scene.cutUm = scene.marginX + dice.nextDouble(-40, 40);
      }
    }
    return scene;
  }

  private static String one(RowScene scene, Trouble trouble, boolean counted, Tally tally) {
    Criteria criteria = ShippedCriteria.find("2015").orElseThrow();
    List<Examined.Face> faces = new ArrayList<>();
    for (int place = 0; place < scene.places(); place++) {
      faces.add(
          scene.missing.contains(place) || trouble == Trouble.CUT_BY_THE_EDGE
              ? new Examined.Unreadable("not there")
              : new Examined.Seen(
                  scene.truth(place),
                  scene.look.umPerPx,
                  scene.look.umPerPx * scene.look.aspect,
                  1,
                  260,
                  scene.marksOf(place).stream().map(OutcomeMeasure::flaw).toList()));
    }
    RowGrade right = Grading.grade(criteria, FaceClass.SM_PC, new Examined.Row(faces));
    Examined examined =
        FerruleExaminer.examine(
            scene.grey(),
            criteria.smallest().value(),
            OptionalDouble.empty(),
            counted ? OptionalInt.of(scene.places()) : OptionalInt.empty());
    StringBuilder wrong = new StringBuilder();
    tally.rows++;
    if (!(examined instanceof Examined.Row row)) {
      FaceOutcome outcome =
          examined instanceof Examined.Unreadable ? FaceOutcome.UNREADABLE : FaceOutcome.CONFORMS;
      tally.right += outcome == right.outcome() ? 1 : 0;
      tally.fibres += right.outcome() == FaceOutcome.UNREADABLE ? 0 : scene.places();
      return outcome == right.outcome() ? "" : "  " + examined + "\n";
    }
    RowGrade got = Grading.grade(criteria, FaceClass.SM_PC, row);
    boolean near = false;
    for (int place = 0; place < scene.places() && row.fibres().size() == scene.places(); place++) {
      boolean close = right.fibres().get(place).flaws().stream().anyMatch(RowMeasure::nearLimit);
      near |= close;
      if (close || faces.get(place) instanceof Examined.Unreadable) {
        continue;
      }
      tally.fibres++;
      if (row.fibres().get(place) instanceof Examined.Seen seen) {
        Cladding truth = scene.truth(place);
        double off =
            Math.max(
                Math.hypot(seen.cladding().cx() - truth.cx(), seen.cladding().cy() - truth.cy()),
                Math.abs(seen.cladding().rPx() - truth.rPx()));
        tally.placed += off < 0.5 ? 1 : 0;
        if (off >= 0.5) {
          wrong.append(String.format(Locale.ROOT, "  place %d off by %.2f px%n", place + 1, off));
        }
      }
      FaceOutcome outcome = got.fibres().get(place).outcome();
      tally.graded += outcome == FaceOutcome.UNREADABLE ? 0 : 1;
      tally.sameOutcome += outcome == right.fibres().get(place).outcome() ? 1 : 0;
      if (outcome != right.fibres().get(place).outcome()) {
        wrong.append(
            String.format(
                "  place %d %s for %s, planted %s: %s%n",
                place + 1,
                outcome,
                right.fibres().get(place).outcome(),
                scene.marksOf(place).stream().map(OutcomeMeasure::shown).toList(),
                got.fibres().get(place).reasonTexts()));
      }
    }
    boolean same = got.outcome() == right.outcome();
    if (!same && near && row.fibres().size() == scene.places()) {
      // A flaw near a limit may decide the ferrule: left out.
      tally.rows--;
      return wrong.toString();
    }
    tally.right += same ? 1 : 0;
    if (!same) {
      wrong.append(
          String.format(
              "  %s for %s, %d fibres found%n",
              got.outcome(), right.outcome(), got.fibres().size()));
    }
    return wrong.toString();
  }

  private static boolean nearLimit(GradedFlaw flaw) {
    double size = flaw.flaw().sizeUm();
    return flaw.limit().map(CountLimit::sizes).stream()
        .flatMapToDouble(z -> DoubleStream.of(z.lowUm(), z.highUm()))
        .anyMatch(end -> end > 0 && Math.abs(size / end - 1) <= 0.2);
  }
}
