package ferrule.core.isolation;

import java.util.Comparator;
import java.util.List;

/**
 * A sum of ends that can be told although the ends cannot.
 *
 * @param terms in the order of their names, those that are added first
 * @param value what it comes to
 */
public record ToldSum(List<Term> terms, Estimate value) {

  /**
   * One end in a sum.
   *
   * @param end which
   * @param factor how often it counts; below 0 if it is taken away
   */
  public record Term(EndId end, double factor) {}

  /** Puts the terms in order. */
  public ToldSum {
    terms =
        terms.stream()
            .sorted(Comparator.comparing((Term term) -> term.factor() < 0).thenComparing(Term::end))
            .toList();
  }
}
