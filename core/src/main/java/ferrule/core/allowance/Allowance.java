package ferrule.core.allowance;

import ferrule.core.optics.LossDb;
import java.util.List;
import java.util.Optional;

/**
 * For one link, wavelength and zero: the limit (the most loss permitted) and the expected loss with
 * its spread.
 *
 * <p>The totals are ready; the terms are put together when asked for, from the same parts.
 */
public final class Allowance {

  private final AllowanceRecipe recipe;
  private final AllowanceRecipe.Counts counts;
  private final double limitDb;
  private final double expectedDb;
  private final double expectedSdDb;

  Allowance(AllowanceRecipe recipe, AllowanceRecipe.Counts counts) {
    this.recipe = recipe;
    this.counts = counts;
    this.limitDb = recipe.limitDb(counts);
    this.expectedDb = recipe.expectedDb(counts);
    this.expectedSdDb = recipe.expectedSdDb(counts);
  }

  /** The limit; empty if the rulebook lacks a figure that it needs. */
  public Optional<LossDb> limit() {
    return Double.isNaN(limitDb) ? Optional.empty() : Optional.of(new LossDb(limitDb));
  }

  /** The limit in dB, NaN if it cannot be formed. */
  public double limitDb() {
    return limitDb;
  }

  /** The expected loss in dB, NaN if no typical figure is held for the fibre. */
  public double expectedDb() {
    return expectedDb;
  }

  /**
   * The expected loss with the usual loss of every splitter in the way, dB; equal to {@link
   * #expectedDb()} without devices. NaN if a device is no splitter of which a figure is held.
   */
  public double expectedWithSplittersDb() {
    return recipe.expectedWithSplittersDb(counts);
  }

  /** Standard deviation of the expected loss, dB, NaN with {@link #expectedDb()}. */
  public double expectedSdDb() {
    return expectedSdDb;
  }

  /** The terms of the limit, as far as the rulebook has them. */
  public LossSum limitTerms() {
    return new LossSum(recipe.limitTerms(counts));
  }

  /** The terms of the expected loss, as far as typical figures are held. */
  public LossSum expectedTerms() {
    return new LossSum(recipe.expectedTerms(counts));
  }

  /** What the rulebook lacks, each in words; empty if the limit is complete. */
  public List<String> lacking() {
    return recipe.lacking(counts);
  }
}
