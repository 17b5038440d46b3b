package ferrule.core.job;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import java.util.Collections;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * What a job must meet.
 *
 * @param title of the job
 * @param owner of the cabling; empty if not given
 * @param contractor who tests; empty if not given
 * @param rulebook limits
 * @param wavelengths at which every fibre is to be read, each fibre at those of its category
 * @param directions one or both
 * @param method of the zeros
 * @param decision decision rule
 * @param applications that the links are to carry; may be empty
 * @param faces whether every link end must be graded
 * @param settings defaults that this job replaces
 * @param papers what else the owner's papers say
 */
public record Requirement(
    String title,
    String owner,
    String contractor,
    Rulebook rulebook,
    SortedSet<Wavelength> wavelengths,
    Directions directions,
    Method method,
    DecisionRule decision,
    List<String> applications,
    FaceDemand faces,
    Settings settings,
    OtherPapers papers) {

  /** Directions in which each fibre must be read. */
  public enum Directions {
    /** Either direction will do. */
    ONE("one"),
    /** Both. */
    BOTH("both");

    private final String word;

    Directions(String word) {
      this.word = word;
    }

    /** As the job file writes it. */
    public String word() {
      return word;
    }
  }

  /** Which end faces must be graded. */
  public enum FaceDemand {
    /** None. */
    NONE("none"),
    /** Every link end. */
    ENDS("ends");

    private final String word;

    FaceDemand(String word) {
      this.word = word;
    }

    /** As the job file writes it. */
    public String word() {
      return word;
    }
  }

  /** Copies the collections. */
  public Requirement {
    wavelengths = Collections.unmodifiableSortedSet(new TreeSet<>(wavelengths));
    applications = List.copyOf(applications);
  }

  /** A requirement beside which the owner's papers say nothing. */
  public Requirement(
      String title,
      String owner,
      String contractor,
      Rulebook rulebook,
      SortedSet<Wavelength> wavelengths,
      Directions directions,
      Method method,
      DecisionRule decision,
      List<String> applications,
      FaceDemand faces,
      Settings settings) {
    this(
        title,
        owner,
        contractor,
        rulebook,
        wavelengths,
        directions,
        method,
        decision,
        applications,
        faces,
        settings,
        OtherPapers.SILENT);
  }

  /** The same requirement by another rulebook. */
  public Requirement by(Rulebook other) {
    return by(other, decision, method);
  }

  /** The same requirement by another decision rule. */
  public Requirement by(DecisionRule other) {
    return by(rulebook, other, method);
  }

  /** The same requirement with zeros of another method. */
  public Requirement by(Method other) {
    return by(rulebook, decision, other);
  }

  private Requirement by(Rulebook limits, DecisionRule rule, Method zeros) {
    return new Requirement(
        title,
        owner,
        contractor,
        limits,
        wavelengths,
        directions,
        zeros,
        rule,
        applications,
        faces,
        settings,
        papers);
  }

  /**
   * The wavelengths at which a fibre of this category must be read: those required for which the
   * rulebook limits the category. A job with multimode and single-mode links lists both pairs.
   */
  public SortedSet<Wavelength> wavelengthsFor(FibreCategory category) {
    SortedSet<Wavelength> found = new TreeSet<>(wavelengths);
    found.retainAll(rulebook.wavelengths(category));
    return found;
  }
}
