package ferrule.core.sample;

import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.uncertainty.SampleSize;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.IntUnaryOperator;
import java.util.function.ToDoubleFunction;

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
    List<FibreJudgement> lot = lot(judgement);
    Map<FibreJudgement, Drawn.Why> chosen = new LinkedHashMap<>();
    if (size >= lot.size()) {
      lot.forEach(f -> chosen.put(f, Drawn.Why.DRAWN));
    } else {
      always(lot, size, chosen);
      byLot(lot, size, draw, chosen);
    }
    List<Drawn> drawn = new ArrayList<>();
    for (FibreJudgement fibre : lot) {
      Drawn.Why why = chosen.get(fibre);
      if (why != null) {
        drawn.add(new Drawn(fibre, why, stratum(fibre), compared(fibre)));
      }
    }
    int byLot = (int) drawn.stream().filter(d -> d.why() == Drawn.Why.DRAWN).count();
    return new AcceptanceSample(
        lot.size(), judgement.fibres().size() - lot.size(), byLot, seed, drawn);
  }

  /** How many fibres have a reading that can be met again. */
  public static int lotOf(Judgement judgement) {
    return lot(judgement).size();
  }

  private static List<FibreJudgement> lot(Judgement judgement) {
    return judgement.fibres().stream().filter(f -> !compared(f).isEmpty()).toList();
  }

  /** The longest, the nearest and the marginal, where the sample leaves room for a draw. */
  private static void always(
      List<FibreJudgement> lot, int size, Map<FibreJudgement, Drawn.Why> chosen) {
    if (size <= ALWAYS) {
      return;
    }
    take(lot, f -> -f.link().lengthM(), Drawn.Why.LONGEST, chosen);
    take(lot, f -> f.link().lengthM(), Drawn.Why.NEAREST, chosen);
    take(lot, AcceptanceSample::leastMarginDb, Drawn.Why.MARGINAL, chosen);
  }

  private static void take(
      List<FibreJudgement> lot,
      ToDoubleFunction<FibreJudgement> first,
      Drawn.Why why,
      Map<FibreJudgement, Drawn.Why> chosen) {
    lot.stream()
        .filter(f -> !Double.isNaN(first.applyAsDouble(f)) && !chosen.containsKey(f))
        .min(Comparator.comparingDouble(first))
        .ifPresent(f -> chosen.put(f, why));
  }

  private static double leastMarginDb(FibreJudgement fibre) {
    return compared(fibre).stream()
        .mapToDouble(c -> c.reading().marginDb())
        .filter(m -> !Double.isNaN(m))
        .min()
        .orElse(Double.NaN);
  }

  private static void byLot(
      List<FibreJudgement> lot,
      int size,
      IntUnaryOperator draw,
      Map<FibreJudgement, Drawn.Why> chosen) {
    Map<Stratum, List<FibreJudgement>> parts = new LinkedHashMap<>();
    Set<FibreJudgement> taken = new HashSet<>(chosen.keySet());
    for (FibreJudgement fibre : lot) {
      if (!taken.contains(fibre)) {
        parts.computeIfAbsent(stratum(fibre), k -> new ArrayList<>()).add(fibre);
      }
    }
    List<List<FibreJudgement>> lists = List.copyOf(parts.values());
    int[] sizes = lists.stream().mapToInt(List::size).toArray();
    int[] shares = shares(sizes, size - chosen.size());
    for (int p = 0; p < shares.length; p++) {
      List<FibreJudgement> left = new ArrayList<>(lists.get(p));
      for (int k = 0; k < shares[p]; k++) {
        chosen.put(left.remove(draw.applyAsInt(left.size())), Drawn.Why.DRAWN);
      }
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

  private static Stratum stratum(FibreJudgement fibre) {
    Link link = fibre.link();
    AssessedReading reading = compared(fibre).get(0).reading();
    return new Stratum(
        link.a().place(),
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
