package ferrule.core.trust.single;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.GlassModel;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import ferrule.core.trust.cause.LossCauses;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * {@code wavelength-order}: the longer wavelength loses more than the shorter, which glass,
 * offsets, tilts and gaps do not do: a bend. Flagged from 0.10 dB when both were read in one mating
 * (within two minutes under one zero), from 0.20 dB otherwise (common practice, no source). Where
 * the glass itself loses more at the longer wavelength, that much is allowed for.
 *
 * <p>Blocks nothing: the reading is believed, the fibre wants looking at. Where most fibres of a
 * zero show it, the zero is named first.
 */
public final class WavelengthOrderFinder implements DoubtFinder {

  private static final double ONE_MATING_DB = 0.10;
  private static final double TWO_MATINGS_DB = 0.20;
  private static final Duration ONE_MATING = Duration.ofMinutes(2);

  private final LossCauses causes;

  /** Fibres that lose more at the longer wavelength, beside the causes of the job's losses. */
  public WavelengthOrderFinder(LossCauses causes) {
    this.causes = causes;
  }

  private record Pair(AssessedReading shorter, AssessedReading longer) {
    double excess() {
      return longer.lossDb() - shorter.lossDb();
    }
  }

  private record Found(int slot, Pair worst, List<AssessedReading> reach) {}

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    List<Found> found = new ArrayList<>();
    Map<String, int[]> byZero = new HashMap<>();
    for (int slot = 0; slot < ledger.slots(); slot++) {
      check(ledger, slot, byZero).ifPresent(found::add);
    }
    // Weighing causes takes longer than finding; each fibre's are weighed by themselves.
    found.parallelStream()
        .map(
            f -> {
              String zero = f.worst().longer().reading().reference();
              return doubt(ledger, f, byZero.getOrDefault(zero, new int[2]));
            })
        .toList()
        .forEach(out);
  }

  private static Optional<Found> check(Ledger ledger, int slot, Map<String, int[]> byZero) {
    List<AssessedReading> readings = ledger.readings(slot);
    Pair worst = null;
    List<AssessedReading> reach = new ArrayList<>(0);
    List<String> zeros = new ArrayList<>(2);
    for (AssessedReading longer : readings) {
      AssessedReading shorter = nextShorter(readings, longer);
      if (shorter == null) {
        continue;
      }
      if (!zeros.contains(longer.reading().reference())) {
        zeros.add(longer.reading().reference());
      }
      // The threshold is never lower than this, whatever the glass.
      double excess = longer.lossDb() - shorter.lossDb();
      if (excess < ONE_MATING_DB - 1e-9) {
        continue;
      }
      Pair pair = new Pair(shorter, longer);
      if (excess < threshold(pair, ledger.link(slot)) - 1e-9) {
        continue;
      }
      reach.add(shorter);
      reach.add(longer);
      if (worst == null || excess > worst.excess()) {
        worst = pair;
      }
    }
    for (String zero : zeros) {
      byZero.computeIfAbsent(zero, k -> new int[2])[1]++;
    }
    if (worst == null) {
      return Optional.empty();
    }
    byZero.computeIfAbsent(worst.longer().reading().reference(), k -> new int[2])[0]++;
    return Optional.of(new Found(slot, worst, reach.stream().distinct().toList()));
  }

  private static @Nullable AssessedReading nextShorter(
      List<AssessedReading> readings, AssessedReading longer) {
    if (!longer.current() || !longer.hasLoss()) {
      return null;
    }
    AssessedReading best = null;
    for (AssessedReading other : readings) {
      if (other.nm() < longer.nm()
          && other.forward() == longer.forward()
          && other.current()
          && other.hasLoss()
          && (best == null || other.nm() > best.nm())) {
        best = other;
      }
    }
    return best;
  }

  private static double threshold(Pair pair, Link link) {
    FibreKind kind = link.category().kind();
    double glass =
        GlassModel.dbPerKm(kind, pair.longer().reading().wavelength())
            - GlassModel.dbPerKm(kind, pair.shorter().reading().wavelength());
    Duration apart =
        Duration.between(
                pair.shorter().reading().measuredAt(), pair.longer().reading().measuredAt())
            .abs();
    boolean oneMating =
        apart.compareTo(ONE_MATING) <= 0
            && pair.shorter().reading().reference().equals(pair.longer().reading().reference());
    return (oneMating ? ONE_MATING_DB : TWO_MATINGS_DB) + Math.max(0, glass) * link.lengthKm();
  }

  private Doubt doubt(Ledger ledger, Found found, int[] counts) {
    FibreId fibre = ledger.fibre(found.slot());
    Link link = ledger.link(found.slot());
    Pair pair = found.worst();
    boolean common = counts[1] >= 4 && counts[0] * 2 > counts[1];
    String zero = pair.longer().reading().reference();
    return new Doubt(
        DoubtKind.WAVELENGTH_ORDER,
        Subject.fibre(fibre),
        false,
        Reach.of(found.reach()),
        evidence(
            causes.evidence(found.slot()),
            Evidence.of(
                "what",
                Decibels.shown(pair.longer().lossDb())
                    + " dB at "
                    + pair.longer().caseShown()
                    + " against "
                    + Decibels.shown(pair.shorter().lossDb())
                    + " dB at "
                    + pair.shorter().reading().wavelength()),
            Evidence.of("shorter_loss_db", pair.shorter().lossDb()),
            Evidence.of("longer_loss_db", pair.longer().lossDb()),
            Evidence.of("excess_db", pair.excess()),
            Evidence.of("fibres_of_zero_alike", counts[0]),
            Evidence.of("fibres_of_zero", counts[1])),
        common
            ? Causes.ranked(
                "zero " + zero + " is wrong at the longer wavelength",
                "a bend, crush or tight tie",
                "values exchanged")
            : causes.told(found.slot()),
        common
            ? Steps.verify(zero, found.reach(), pair.excess())
            : causes.next(
                found.slot(),
                Steps.relax(fibre, link)
                    .withResults(
                        "At "
                            + pair.longer().reading().wavelength()
                            + " it falls by about "
                            + Decibels.shown(pair.excess())
                            + " dB while the fibre is relaxed",
                        "It does not move: compare the values with the meter's memory")));
  }

  private static List<Evidence> evidence(List<Evidence> ofCauses, Evidence... own) {
    List<Evidence> all = new ArrayList<>(List.of(own));
    all.addAll(ofCauses);
    return all;
  }
}
