package ferrule.app.desk.page;

import ferrule.core.allowance.Allowance;
import ferrule.core.allowance.AllowanceRecipe;
import ferrule.core.allowance.TestPlugs;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Ledger;
import ferrule.core.uncertainty.Budget;
import ferrule.core.zero.Method;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * A limit and an expected loss with the readings judged by them.
 *
 * @param wavelength of the readings
 * @param method of the zeros they were taken under
 * @param allowance limit and expected loss
 * @param readings how many readings, replaced ones included
 * @param zeros the zeros they name
 * @param worst the reading that loses most; its uncertainty is the one unfolded. Empty if the case
 *     has not been read yet
 */
public record AllowanceCase(
    Wavelength wavelength,
    Method method,
    Allowance allowance,
    int readings,
    SortedSet<String> zeros,
    Optional<AssessedReading> worst) {

  private static final class Gathering {
    final AssessedReading first;
    int readings;
    final SortedSet<String> zeros = new TreeSet<>();
    @Nullable AssessedReading worst;

    Gathering(AssessedReading first) {
      this.first = first;
    }

    void add(AssessedReading reading) {
      readings++;
      zeros.add(reading.reading().reference());
      if (reading.hasLoss() && (worst == null || reading.lossDb() > worst.lossDb())) {
        worst = reading;
      }
    }
  }

  /**
   * The cases of a link: one for each allowance that its readings are judged by, and one for each
   * required wavelength that has not been read, with reference-grade cords assumed.
   */
  static List<AllowanceCase> of(Ledger ledger, Link link, List<FibreJudgement> fibres) {
    Map<Allowance, Gathering> gathered = new IdentityHashMap<>();
    List<Allowance> order = new ArrayList<>();
    SortedSet<Wavelength> unread = new TreeSet<>(ledger.required(link.category()));
    for (FibreJudgement fibre : fibres) {
      for (AssessedReading reading : fibre.readings()) {
        unread.remove(reading.reading().wavelength());
        reading
            .allowance()
            .ifPresent(
                allowance -> {
                  Gathering found = gathered.get(allowance);
                  if (found == null) {
                    found = new Gathering(reading);
                    gathered.put(allowance, found);
                    order.add(allowance);
                  }
                  found.add(reading);
                });
      }
    }
    List<AllowanceCase> cases = new ArrayList<>();
    Method required = ledger.requirement().method();
    for (Allowance allowance : order) {
      Gathering found = gathered.get(allowance);
      if (found != null) {
        cases.add(
            new AllowanceCase(
                found.first.reading().wavelength(),
                found.first.zero().map(z -> z.method()).orElse(required),
                allowance,
                found.readings,
                found.zeros,
                Optional.ofNullable(found.worst)));
      }
    }
    TestPlugs assumed = new TestPlugs(CordGrade.REFERENCE, CordGrade.REFERENCE, false);
    for (Wavelength wavelength : unread) {
      Allowance allowance =
          new AllowanceRecipe(
                  ledger.requirement().rulebook(), link.category(), wavelength, required, assumed)
              .of(link);
      cases.add(
          new AllowanceCase(wavelength, required, allowance, 0, new TreeSet<>(), Optional.empty()));
    }
    cases.sort(java.util.Comparator.comparing(AllowanceCase::wavelength));
    return cases;
  }

  /** "1310 nm, one-cord". */
  public String title() {
    return wavelength + ", " + method.word();
  }

  /** The uncertainty budget of {@link #worst()}. */
  public Optional<Budget> budget() {
    return worst.flatMap(AssessedReading::budget);
  }
}
