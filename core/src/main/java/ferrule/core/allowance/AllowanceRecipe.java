package ferrule.core.allowance;

import ferrule.core.allowance.Term.Scatter;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.rulebook.Splitter;
import ferrule.core.zero.Method;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The parts from which allowances of one fibre category, wavelength, method and pair of test plugs
 * are made. A job has a handful of these and thousands of links.
 *
 * <p>End connections. One-cord counts both, each with the allowance for the plug at its end;
 * two-cord counts one, the one at the poorer plug if they differ; three-cord counts none. An
 * ordinary test plug keeps the full connection allowance at its end.
 *
 * <p>Where an owner sets a limit to a whole link and it is less than what the parts allow, it is
 * the limit, alone.
 */
public final class AllowanceRecipe {

  /** What a link holds, in numbers. */
  record Counts(double km, int connections, int splices, List<String> devices) {
    static Counts of(Link link) {
      return new Counts(link.lengthKm(), link.connections(), link.splices(), link.devices());
    }
  }

  private final Rulebook rulebook;
  private final FibreCategory category;
  private final Wavelength wavelength;
  private final Method method;
  private final @Nullable Part fibre;
  private final @Nullable Part inner;
  private final @Nullable Part splice;
  private final @Nullable Part whole;
  private final List<Part> ends = new ArrayList<>();
  private final @Nullable String endLacking;
  private final @Nullable Part expectedFibre;
  private final Part expectedInner;
  private final Part expectedSplice;
  private final List<Part> expectedEnds = new ArrayList<>();

  /**
   * @param rulebook limits
   * @param category fibre of the link
   * @param wavelength wavelength of the reading
   * @param method of the zero that the reading was taken under
   * @param plugs test plugs at the link's ends
   */
  public AllowanceRecipe(
      Rulebook rulebook,
      FibreCategory category,
      Wavelength wavelength,
      Method method,
      TestPlugs plugs) {
    this.rulebook = rulebook;
    this.category = category;
    this.wavelength = wavelength;
    this.method = method;
    FibreKind kind = category.kind();
    this.fibre =
        rulebook
            .fibreLimit(category, wavelength)
            .map(f -> part("fibre " + category.label() + " at " + wavelength, "km", f))
            .orElse(null);
    this.inner =
        rulebook
            .innerLimit(kind)
            .map(f -> part("connection inside the link", "connection", f))
            .orElse(null);
    this.splice = rulebook.spliceLimit(kind).map(f -> part("splice", "splice", f)).orElse(null);
    this.whole =
        rulebook
            .linkLimit(kind)
            .map(f -> part("most loss of a whole link, less than its parts allow", "link", f))
            .orElse(null);
    List<CordGrade> counted =
        switch (method) {
          case ONE_CORD -> List.of(plugs.entry(), plugs.exit());
          case TWO_CORD -> List.of(plugs.poorer());
          case THREE_CORD -> List.<CordGrade>of();
        };
    String missing = null;
    for (CordGrade grade : counted) {
      Optional<Figure> figure = rulebook.endLimit(kind, grade);
      if (figure.isEmpty()) {
        missing = "end connection, " + kind.word() + ", " + grade.word() + "-grade cord";
        continue;
      }
      ends.add(
          part(
              "end connection, "
                  + grade.word()
                  + "-grade cord"
                  + (plugs.known() ? "" : " (assumed: grade not on record)"),
              "connection",
              figure.get()));
    }
    this.endLacking = missing;
    this.expectedFibre = Expectations.fibre(category, wavelength).orElse(null);
    this.expectedInner = Expectations.inner(kind, wavelength);
    this.expectedSplice = Expectations.splice();
    for (CordGrade grade : counted) {
      expectedEnds.add(Expectations.end(kind, grade, wavelength));
    }
    for (int i = counted.size(); i < 2; i++) {
      expectedEnds.add(Expectations.endTakenOut(kind, wavelength));
    }
  }

  private static Part part(String what, String unit, Figure figure) {
    return new Part(what, unit, figure.value(), 0, figure.provenance());
  }

  /** The allowance of one link. */
  public Allowance of(Link link) {
    return new Allowance(this, Counts.of(link));
  }

  /** How many end connections it counts: 2, 1 or 0. */
  public int endConnections() {
    return method.endConnections();
  }

  /** The limit, dB: what the parts allow, or what a whole link may lose if that is less. */
  double limitDb(Counts counts) {
    double parts = partsDb(counts);
    return whole != null && whole.eachDb() < parts ? whole.eachDb() : parts;
  }

  /** What the parts allow, dB; NaN if the rulebook lacks a figure for one. */
  private double partsDb(Counts counts) {
    if (fibre == null
        || endLacking != null
        || (inner == null && counts.connections() > 0)
        || (splice == null && counts.splices() > 0)) {
      return Double.NaN;
    }
    double sum = counts.km() * fibre.eachDb();
    for (Part end : ends) {
      sum += end.eachDb();
    }
    if (inner != null) {
      sum += counts.connections() * inner.eachDb();
    }
    if (splice != null) {
      sum += counts.splices() * splice.eachDb();
    }
    for (String device : counts.devices()) {
      sum += rulebook.deviceLimit(device).map(Figure::value).orElse(Double.NaN);
    }
    return sum;
  }

  double expectedDb(Counts counts) {
    if (expectedFibre == null || !counts.devices().isEmpty()) {
      return Double.NaN;
    }
    double sum = counts.km() * expectedFibre.eachDb();
    for (Part end : expectedEnds) {
      sum += end.eachDb();
    }
    return sum
        + counts.connections() * expectedInner.eachDb()
        + counts.splices() * expectedSplice.eachDb();
  }

  double expectedWithSplittersDb(Counts counts) {
    double sum =
        expectedDb(new Counts(counts.km(), counts.connections(), counts.splices(), List.of()));
    for (String device : counts.devices()) {
      sum += Splitter.ofDevice(device).map(Splitter::usualDb).orElse(Double.NaN);
    }
    return sum;
  }

  double expectedSdDb(Counts counts) {
    if (expectedFibre == null || !counts.devices().isEmpty()) {
      return Double.NaN;
    }
    double fibreSd = counts.km() * expectedFibre.eachSdDb();
    double variance = fibreSd * fibreSd;
    for (Part end : expectedEnds) {
      variance += end.eachSdDb() * end.eachSdDb();
    }
    variance += counts.connections() * expectedInner.eachSdDb() * expectedInner.eachSdDb();
    variance += counts.splices() * expectedSplice.eachSdDb() * expectedSplice.eachSdDb();
    return Math.sqrt(variance);
  }

  List<Term> limitTerms(Counts counts) {
    if (whole != null && whole.eachDb() < partsDb(counts)) {
      return List.of(new Term(1, whole, Scatter.INDEPENDENT));
    }
    List<Term> terms = new ArrayList<>();
    if (fibre != null) {
      terms.add(new Term(counts.km(), fibre, Scatter.COMMON));
    }
    addEnds(terms, ends);
    if (inner != null && counts.connections() > 0) {
      terms.add(new Term(counts.connections(), inner, Scatter.INDEPENDENT));
    }
    if (splice != null && counts.splices() > 0) {
      terms.add(new Term(counts.splices(), splice, Scatter.INDEPENDENT));
    }
    for (String device : counts.devices()) {
      rulebook
          .deviceLimit(device)
          .ifPresent(f -> terms.add(new Term(1, part(device, "device", f), Scatter.INDEPENDENT)));
    }
    return terms;
  }

  List<Term> expectedTerms(Counts counts) {
    List<Term> terms = new ArrayList<>();
    if (expectedFibre != null) {
      terms.add(new Term(counts.km(), expectedFibre, Scatter.COMMON));
    }
    addEnds(terms, expectedEnds);
    if (counts.connections() > 0) {
      terms.add(new Term(counts.connections(), expectedInner, Scatter.INDEPENDENT));
    }
    if (counts.splices() > 0) {
      terms.add(new Term(counts.splices(), expectedSplice, Scatter.INDEPENDENT));
    }
    return terms;
  }

  private static void addEnds(List<Term> terms, List<Part> ends) {
    if (ends.size() == 2 && ends.get(0).equals(ends.get(1))) {
      terms.add(new Term(2, ends.get(0), Scatter.INDEPENDENT));
    } else {
      ends.forEach(end -> terms.add(new Term(1, end, Scatter.INDEPENDENT)));
    }
  }

  List<String> lacking(Counts counts) {
    List<String> lacking = new ArrayList<>();
    if (fibre == null) {
      lacking.add("fibre " + category.label() + " at " + wavelength);
    }
    if (endLacking != null) {
      lacking.add(endLacking);
    }
    if (inner == null && counts.connections() > 0) {
      lacking.add("connection inside the link, " + category.kind().word());
    }
    if (splice == null && counts.splices() > 0) {
      lacking.add("splice, " + category.kind().word());
    }
    for (String device : counts.devices()) {
      if (rulebook.deviceLimit(device).isEmpty()) {
        lacking.add("device " + device);
      }
    }
    return lacking;
  }
}
