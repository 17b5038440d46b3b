package ferrule.app.demo;

import ferrule.core.plant.FibreId;
import ferrule.core.trust.DoubtKind;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * A doubt that the planted trouble must raise, for every seed: for tests, never shown to a user.
 *
 * @param kind what sort
 * @param subject id of what it is about
 * @param blocking whether it holds readings back
 * @param fibres exactly the fibres it must reach, scheduled or not
 */
public record Planted(DoubtKind kind, String subject, boolean blocking, SortedSet<FibreId> fibres) {

  private static final Comparator<FibreId> BY_NAME =
      Comparator.comparing(FibreId::link).thenComparingInt(FibreId::fibre);

  /** Copies the fibres. */
  public Planted {
    SortedSet<FibreId> sorted = new TreeSet<>(BY_NAME);
    sorted.addAll(fibres);
    fibres = Collections.unmodifiableSortedSet(sorted);
  }

  static Planted of(DoubtKind kind, String subject, boolean blocking, List<FibreId> fibres) {
    SortedSet<FibreId> sorted = new TreeSet<>(BY_NAME);
    sorted.addAll(fibres);
    return new Planted(kind, subject, blocking, sorted);
  }
}
