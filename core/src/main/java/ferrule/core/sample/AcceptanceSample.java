package ferrule.core.sample;

import ferrule.core.sample.Drawn.Why;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.uncertainty.SampleSize;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntUnaryOperator;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Fibres to be read again before witnesses. The longest, the nearest and the one of least margin
 * are always among them (common practice, no source); the others are drawn by lot, each part of the
 * lot (place, operator, cord) in proportion to its size and none left out while there is room.
 *
 * @param lot fibres with readings that count, from which it is drawn
 * @param unread scheduled fibres without one: not in the lot
 * @param byLot how many were drawn by lot
 * @param seed of the draw: the same seed draws the same fibres
 * @param drawn in the order of the schedule
 */
public record AcceptanceSample(int lot, int unread, int byLot, long seed, List<Drawn> drawn) {

  /** Fibres that are always in a sample: the longest, the nearest, the one of least margin. */
  public static final int ALWAYS = 3;

  /** Copies the list. */
  public AcceptanceSample {
    drawn = List.copyOf(drawn);
  }

  /** Number of fibres to be read again. */
  public int size() {
    return drawn.size();
  }

  /**
   * Probability that no fibre drawn by lot is bad where so many of the lot are: an upper bound, for
   * those that are not drawn by lot are no help against chance.
   *
   * @param bad 0 to the lot
   */
  public double missed(int bad) {
    return SampleSize.missed(lot, bad, byLot);
  }

  /**
   * Draws a sample.
   *
   * @param judgement of the job
   * @param size how many fibres; all of the lot if it holds fewer
   * @param seed that the draw starts from, to be told with the sample
   * @param draw for a bound from 1 on, a number from 0 to below it, each as likely, the same for
   *     the same seed
   */
  public static AcceptanceSample of(
      Judgement judgement, int size, long seed, IntUnaryOperator draw) {
    List<Drawn> lot = lot(judgement);
    @Nullable Why[] why = new Why[lot.size()];
    if (size >= lot.size()) {
      Arrays.fill(why, Why.DRAWN);
    } else {
      int always = size > ALWAYS ? always(lot, why) : 0;
      byLot(lot, size - always, draw, why);
    }
    List<Drawn> drawn = new ArrayList<>();
    for (int i = 0; i < why.length; i++) {
      Why reason = why[i];
      if (reason != null) {
        drawn.add(lot.get(i).because(reason));
      }
    }
    int byLot = (int) drawn.stream().filter(d -> d.why() == Why.DRAWN).count();
    return new AcceptanceSample(
        lot.size(), judgement.fibres().size() - lot.size(), byLot, seed, drawn);
  }

  /** How many fibres have a reading that can be met again. */
  public static int lotOf(Judgement judgement) {
    return lot(judgement).size();
  }

  /** Every fibre that can be met again, as if it were drawn by lot. */
  private static List<Drawn> lot(Judgement judgement) {
    List<Drawn> lot = new ArrayList<>();
    for (FibreJudgement fibre : judgement.fibres()) {
      List<Drawn.Compared> compared = compared(fibre);
      if (!compared.isEmpty()) {
        lot.add(new Drawn(fibre, Why.DRAWN, stratum(fibre, compared.get(0).reading()), compared));
      }
    }
    return lot;
  }

  /** Takes the longest, the nearest and the marginal; says how many fibres these are. */
  private static int always(List<Drawn> lot, @Nullable Why[] why) {
    return take(lot, d -> -d.fibre().link().lengthM(), Why.LONGEST, why)
        + take(lot, d -> d.fibre().link().lengthM(), Why.NEAREST, why)
        + take(lot, AcceptanceSample::leastMarginDb, Why.MARGINAL, why);
  }

  private static int take(
      List<Drawn> lot, ToDoubleFunction<Drawn> first, Why reason, @Nullable Why[] why) {
    Optional<Integer> taken =
        IntStream.range(0, why.length)
            .filter(i -> why[i] == null && !Double.isNaN(first.applyAsDouble(lot.get(i))))
            .boxed()
            .min(Comparator.comparingDouble(i -> first.applyAsDouble(lot.get(i))));
    taken.ifPresent(i -> why[i] = reason);
    return taken.isPresent() ? 1 : 0;
  }

  private static double leastMarginDb(Drawn fibre) {
    return fibre.compared().stream()
        .mapToDouble(c -> c.reading().marginDb())
        .filter(m -> !Double.isNaN(m))
        .min()
        .orElse(Double.NaN);
  }

  private static void byLot(
      List<Drawn> lot, int draws, IntUnaryOperator draw, @Nullable Why[] why) {
    Map<Stratum, List<Integer>> parts = new LinkedHashMap<>();
    for (int i = 0; i < why.length; i++) {
      if (why[i] == null) {
        parts.computeIfAbsent(lot.get(i).stratum(), k -> new ArrayList<>()).add(i);
      }
    }
    int[] shares = shares(parts.values().stream().mapToInt(List::size).toArray(), draws);
    int part = 0;
    for (List<Integer> left : parts.values()) {
      for (int k = 0; k < shares[part]; k++) {
        why[left.remove(draw.applyAsInt(left.size()))] = Why.DRAWN;
      }
      part++;
    }
  }

  /**
   * How many to draw from each part: one from each, the largest parts first where there are more
   * parts than draws, and what is left in proportion to their sizes by largest remainders.
   *
   * @param sizes of the parts, 1 or more
   * @param draws in all; at most the sum of the sizes
   */
  static int[] shares(int[] sizes, int draws) {
    int[] shares = new int[sizes.length];
    int left = draws;
    List<Integer> bySize = new ArrayList<>();
    for (int p = 0; p < sizes.length; p++) {
      bySize.add(p);
    }
    bySize.sort(Comparator.comparingInt((Integer p) -> -sizes[p]));
    for (int p : bySize) {
      if (left > 0) {
        shares[p] = 1;
        left--;
      }
    }
    double all = 0;
    for (int size : sizes) {
      all += size;
    }
    // What is due to a part by its size, less what it has: the most wanting part gets the next.
    for (; left > 0; left--) {
      int most = -1;
      double want = Double.NEGATIVE_INFINITY;
      for (int p = 0; p < sizes.length; p++) {
        double due = draws * sizes[p] / all - shares[p];
        if (shares[p] < sizes[p] && due > want) {
          most = p;
          want = due;
        }
      }
      shares[most]++;
    }
    return shares;
  }

  private static Stratum stratum(FibreJudgement fibre, AssessedReading reading) {
    return new Stratum(
        fibre.link().a().place(),
        reading.reading().operator(),
        reading.level().map(l -> l.launchCord()).orElse(""));
  }

  private static List<Drawn.Compared> compared(FibreJudgement fibre) {
    List<Drawn.Compared> compared = new ArrayList<>();
    for (AssessedReading reading : fibre.readings()) {
      if (reading.current() && reading.hasLoss()) {
        compared.add(new Drawn.Compared(reading, Math.sqrt(2) * reading.expandedDb()));
      }
    }
    return compared;
  }
}
