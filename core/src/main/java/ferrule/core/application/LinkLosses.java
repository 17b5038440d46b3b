package ferrule.core.application;

import ferrule.core.allowance.AllowanceRecipes;
import ferrule.core.allowance.TestPlugs;
import ferrule.core.application.LossSpan.Origin;
import ferrule.core.job.Requirement;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * The losses of the links of a job by window: measured where readings are believed, else expected.
 *
 * <p>A window stands for an application's wavelength if it is the nearest and no further than
 * {@link Application#NEAR_NM} away.
 */
final class LinkLosses {

  private static final int[] WINDOWS = {850, 953, 1300, 1310, 1383, 1490, 1550, 1625};

  private final AllowanceRecipes recipes;
  private final Map<String, SortedMap<Integer, Measured>> measured = new HashMap<>();

  private static final class Measured {
    private double least = Double.POSITIVE_INFINITY;
    private double most = Double.NEGATIVE_INFINITY;
    private final Set<FibreId> fibres = new HashSet<>();
  }

  LinkLosses(Judgement judgement) {
    this(judgement, judgement.fibres());
  }

  /** Of some fibres of a judgement only. */
  LinkLosses(Judgement judgement, List<FibreJudgement> fibres) {
    Requirement requirement = judgement.ledger().requirement();
    this.recipes = new AllowanceRecipes(requirement.rulebook(), requirement.method());
    for (FibreJudgement fibre : fibres) {
      for (AssessedReading reading : fibre.readings()) {
        if (!reading.current() || !reading.hasLoss() || fibre.blocked(reading)) {
          continue;
        }
        Measured window =
            measured
                .computeIfAbsent(fibre.link().id(), k -> new TreeMap<>())
                .computeIfAbsent(reading.nm(), k -> new Measured());
        window.least = Math.min(window.least, reading.lossDb());
        window.most = Math.max(window.most, reading.lossDb());
        window.fibres.add(fibre.fibre());
      }
    }
  }

  /** The loss at all of these wavelengths; empty if it is not known at one of them. */
  Optional<LossSpan> of(Link link, List<Wavelength> wavelengths) {
    Optional<LossSpan> whole = at(link, wavelengths.get(0).nm());
    for (Wavelength wavelength : wavelengths.subList(1, wavelengths.size())) {
      whole = LossSpan.join(whole, at(link, wavelength.nm()));
    }
    return whole;
  }

  private Optional<LossSpan> at(Link link, int nm) {
    SortedMap<Integer, Measured> windows = measured.getOrDefault(link.id(), new TreeMap<>());
    int nearest = 0;
    for (int window : windows.keySet()) {
      if (Math.abs(window - nm) <= Application.NEAR_NM && closer(window, nearest, nm)) {
        nearest = window;
      }
    }
    Measured found = windows.get(nearest);
    return found == null
        ? expected(link, nm)
        : Optional.of(
            new LossSpan(
                found.least, found.most, Origin.MEASURED, List.of(nearest), found.fibres.size()));
  }

  private Optional<LossSpan> expected(Link link, int nm) {
    int nearest = 0;
    double loss = Double.NaN;
    for (int window : WINDOWS) {
      if (Math.abs(window - nm) > Application.NEAR_NM || !closer(window, nearest, nm)) {
        continue;
      }
      double here =
          recipes
              .of(link.category(), new Wavelength(window), TestPlugs.REFERENCE)
              .of(link)
              .expectedWithSplittersDb();
      if (!Double.isNaN(here)) {
        nearest = window;
        loss = here;
      }
    }
    return Double.isNaN(loss)
        ? Optional.empty()
        : Optional.of(new LossSpan(loss, loss, Origin.EXPECTED, List.of(nearest), 0));
  }

  private static boolean closer(int window, int than, int nm) {
    return Math.abs(window - nm) < Math.abs(than - nm);
  }
}
