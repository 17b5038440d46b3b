package ferrule.app.desk.page;

import ferrule.core.allowance.Allowance;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.FibreJudgement;
import ferrule.record.chart.LossMark;
import ferrule.record.chart.LossScale;
import ferrule.record.chart.LossStrip;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * One fibre as the lists show it.
 *
 * @param judgement the fibre
 */
public record FibreEntry(FibreJudgement judgement) {

  private static final double STRIP_WIDTH = 320;
  private static final double STRIP_HEIGHT = 16;

  /** Its band. */
  public Band band() {
    return Band.of(judgement.standing());
  }

  /** Where it is shown in full. */
  public String address() {
    return Urls.fibre(judgement.fibre());
  }

  /** The readings that count, in the order handed in. */
  public List<AssessedReading> current() {
    return judgement.readings().stream().filter(AssessedReading::current).toList();
  }

  /** The reading that counts with the least margin; empty if none has one. */
  public Optional<AssessedReading> worst() {
    return worst(judgement);
  }

  /**
   * One reading drawn.
   *
   * @param caseShown "1310 nm A-B"
   * @param svg the drawing
   * @param loss "0.42 dB", and whether a doubt holds it back
   */
  public record Strip(String caseShown, String svg, String loss) {}

  /** The readings that count, drawn on one scale; by wavelength, then by direction. */
  public List<Strip> strips(LossScale scale) {
    return current().stream()
        .sorted(
            Comparator.comparing((AssessedReading r) -> r.reading().wavelength())
                .thenComparing(r -> r.reading().direction()))
        .map(
            r -> {
              boolean believed = !judgement.blocked(r);
              String loss = r.hasLoss() ? Show.db(r.lossDb()) + " dB" : "no loss";
              return new Strip(
                  r.caseShown(),
                  LossStrip.svg(
                      "r" + r.index(), LossMark.of(r, believed), scale, STRIP_WIDTH, STRIP_HEIGHT),
                  believed ? loss : loss + ", held back");
            })
        .toList();
  }

  /** The scale that the strips of some fibres share. */
  static LossScale scale(List<FibreEntry> fibres) {
    return LossScale.of(fibres.stream().flatMap(f -> LossMark.of(f.judgement).stream()).toList());
  }

  /** The scale alone, as wide as the strips. */
  public static String axis(LossScale scale) {
    return LossStrip.axis("scale", scale, STRIP_WIDTH);
  }

  static Optional<AssessedReading> worst(FibreJudgement judgement) {
    AssessedReading worst = null;
    for (AssessedReading reading : judgement.readings()) {
      if (reading.current()
          && !Double.isNaN(reading.marginDb())
          && (worst == null || reading.marginDb() < worst.marginDb())) {
        worst = reading;
      }
    }
    return Optional.ofNullable(worst);
  }

  /** "0.42 dB", "0.10 dB over the limit": the margin of a reading in words. */
  public static String marginInWords(AssessedReading reading) {
    double margin = reading.marginDb();
    return margin < 0
        ? Show.db(-margin) + " dB over the limit"
        : Show.db(margin) + " dB inside the limit";
  }

  /** Whether a limit rests on a figure from memory. */
  public static boolean fromMemory(Allowance allowance) {
    return allowance.limitTerms().terms().stream().anyMatch(t -> t.part().source().fromMemory());
  }

  /** Whether any limit of this fibre rests on a figure from memory. */
  public boolean limitFromMemory() {
    return current().stream()
        .map(AssessedReading::allowance)
        .flatMap(Optional::stream)
        .anyMatch(FibreEntry::fromMemory);
  }
}
