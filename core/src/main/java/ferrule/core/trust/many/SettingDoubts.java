package ferrule.core.trust.many;

import ferrule.core.optics.Decibels;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Cause;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Subject;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.Consumer;

/** {@code length-scale} and {@code length-offset}: a setting that touches every length. */
final class SettingDoubts {

  private static final double LIKE_CORDS_M = 12;

  private SettingDoubts() {}

  /** Hands over what a setting says; its reach is every measured length that is not left out. */
  static void find(
      LengthProfile profile,
      LengthSetting setting,
      LengthRegression regression,
      BitSet leftOut,
      Consumer<Doubt> out) {
    if (!setting.found()) {
      return;
    }
    List<AssessedReading> reach = new ArrayList<>();
    for (AssessedReading reading : profile.ledger().current()) {
      int slot = reading.slot();
      if (slot >= 0 && reading.reading().hasLength() && !leftOut.get(slot)) {
        reach.add(reading);
      }
    }
    Reach reached = Reach.of(reach);
    switch (setting.kind()) {
      case SCALE -> out.accept(scale(setting, regression, reached));
      case OFFSET -> out.accept(offset(setting, regression, reached));
      case BOTH -> {
        out.accept(scale(setting, regression, reached));
        out.accept(offset(setting, regression, reached));
      }
      case NONE -> throw new IllegalStateException("Nothing was found");
    }
  }

  private static String ratio(double ratio) {
    return String.valueOf(Math.round(ratio * 1000) / 1000.0);
  }

  private static Doubt scale(LengthSetting setting, LengthRegression regression, Reach reach) {
    double ratio = setting.line().scale();
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(
        Evidence.of(
            "what",
            "measured lengths are "
                + ratio(ratio)
                + " times the schedule's over "
                + reach.fibres().size()
                + " fibres"
                + (setting.toldApart() ? "" : "; a constant cannot be told from it")));
    evidence.add(Evidence.of("ratio", ratio));
    evidence.add(Evidence.of("ratio_sd", regression.scaleSd(setting.line())));
    evidence.add(Evidence.of("least_take_up", LengthRegression.LEAST_TAKE_UP));
    evidence.add(Evidence.of("most_take_up", LengthRegression.MOST_TAKE_UP));
    common(evidence, setting, regression, reach);
    if (!setting.toldApart()) {
      evidence.add(Evidence.of("offset_instead_m", setting.offset().offsetM()));
    }
    return doubt(
        DoubtKind.LENGTH_SCALE,
        reach,
        evidence,
        scaleCauses(ratio, setting.toldApart()),
        "Set the fibre index and the unit of length once and compute the lengths anew: no site"
            + " visit",
        "With it, the lengths of three links differ from the schedule by chance alone",
        "They still differ by one ratio: measure one link of a length known for certain");
  }

  private static List<Cause> scaleCauses(double ratio, boolean told) {
    if (LengthSetting.isFeet(ratio)) {
      return Causes.ranked("feet and metres were confused", "wrong group index");
    }
    String constant = "a constant after all: test cords not deducted, service loops";
    String index = "wrong group index";
    String papers =
        ratio > 1
            ? "the schedule holds sheath or route lengths, the fibre is longer"
            : "the schedule holds ordered lengths, less was laid";
    return told ? Causes.ranked(index, papers) : Causes.ranked(index, constant, papers);
  }

  private static Doubt offset(LengthSetting setting, LengthRegression regression, Reach reach) {
    double offset = setting.line().offsetM();
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(
        Evidence.of(
            "what",
            "measured lengths are "
                + Decibels.shown(Math.abs(offset))
                + (offset < 0 ? " m less" : " m more")
                + " than the schedule's over "
                + reach.fibres().size()
                + " fibres"
                + (setting.toldApart() ? "" : "; a ratio cannot be told from it")));
    evidence.add(Evidence.of("offset_m", offset));
    evidence.add(Evidence.of("offset_sd_m", regression.offsetSd(setting.line())));
    evidence.add(Evidence.of("take_up", setting.line().scale()));
    common(evidence, setting, regression, reach);
    if (!setting.toldApart()) {
      evidence.add(Evidence.of("ratio_instead", setting.scale().scale()));
    }
    return doubt(
        DoubtKind.LENGTH_OFFSET,
        reach,
        evidence,
        offsetCauses(offset, setting.toldApart()),
        "Look up how test cords and loops are counted, deduct them once and compute the lengths"
            + " anew: no site visit",
        "Cords and loops add up to about " + Decibels.shown(Math.abs(offset)) + " m",
        "They add up to something else: compare the schedule with one link laid in sight");
  }

  private static List<Cause> offsetCauses(double offset, boolean told) {
    List<String> causes = new ArrayList<>();
    if (offset < 0) {
      causes.add("cords deducted that were not in the line");
      causes.add("the schedule counts slack that was not laid");
    } else if (offset <= LIKE_CORDS_M) {
      causes.add("test cords not deducted");
      causes.add("service loops not counted in the schedule");
    } else {
      causes.add("a launch fibre not deducted");
      causes.add("service loops not counted in the schedule");
    }
    if (!told) {
      causes.add(1, "a ratio after all: wrong group index");
    }
    return Causes.ranked(causes.toArray(String[]::new));
  }

  private static void common(
      List<Evidence> evidence, LengthSetting setting, LengthRegression regression, Reach reach) {
    evidence.add(Evidence.of("scatter_m", regression.scatterM(setting.line())));
    evidence.add(Evidence.of("fibres", reach.fibres().size()));
    evidence.add(Evidence.of("scheduled_lengths", regression.points()));
    if (!setting.toldApart()) {
      evidence.add(
          Evidence.of(
              "cannot_be_told",
              "the scheduled lengths are too alike to tell a ratio from a constant; a link of"
                  + " quite another length would tell"));
    }
  }

  private static Doubt doubt(
      DoubtKind kind,
      Reach reach,
      List<Evidence> evidence,
      List<Cause> causes,
      String step,
      String confirms,
      String refutes) {
    return new Doubt(
        kind,
        Subject.JOB,
        false,
        reach,
        evidence,
        causes,
        new NextStep("lengths:" + kind.id(), step, "", Handling.LOOK_UP, confirms, refutes));
  }
}
