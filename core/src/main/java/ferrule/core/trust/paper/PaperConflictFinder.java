package ferrule.core.trust.paper;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Subject;
import ferrule.core.zero.Method;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;

/**
 * {@code paper-conflict}, the plain ones: a wavelength that no link can be judged at, links that no
 * required wavelength fits, links whose limit cannot be formed, zeros whose cords do not add up to
 * their method, and instruments used for what they are not.
 */
public final class PaperConflictFinder implements DoubtFinder {

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    wavelengths(ledger, out);
    categories(ledger, out);
    limits(ledger, out);
    for (Zero zero : ledger.job().zeros()) {
      cords(zero, out);
      instruments(ledger, zero, out);
    }
    calibrations(ledger, out);
  }

  private static Doubt conflict(String key, String what, List<FibreId> fibres, String todo) {
    return new Doubt(
        DoubtKind.PAPER_CONFLICT,
        Subject.JOB,
        false,
        Reach.ofFibres(fibres),
        List.of(Evidence.of("what", what), Evidence.of("fibres", fibres.size())),
        Causes.ranked("written down wrong", "the papers were never compared"),
        new NextStep(key, todo, "", Handling.LOOK_UP)
            .withResults(
                "One of the papers is found to be wrong and is put right",
                "All stand as written: the owner decides which holds"));
  }

  private static void wavelengths(Ledger ledger, Consumer<Doubt> out) {
    Set<FibreCategory> used = EnumSet.noneOf(FibreCategory.class);
    ledger.job().links().forEach(l -> used.add(l.category()));
    for (Wavelength wavelength : ledger.requirement().wavelengths()) {
      boolean fits = used.stream().anyMatch(c -> ledger.required(c).contains(wavelength));
      if (!fits && !used.isEmpty()) {
        out.accept(
            conflict(
                "wavelength:" + wavelength.nm(),
                wavelength
                    + " is required, but rulebook "
                    + ledger.requirement().rulebook().id()
                    + " has no limit there for any fibre of this job",
                List.of(),
                "Ask the owner whether "
                    + wavelength
                    + " is meant, and by which limit it is to be judged"));
      }
    }
  }

  private static void categories(Ledger ledger, Consumer<Doubt> out) {
    Map<FibreCategory, List<FibreId>> unfit = new EnumMap<>(FibreCategory.class);
    for (int slot = 0; slot < ledger.slots(); slot++) {
      FibreCategory category = ledger.link(slot).category();
      if (ledger.required(category).isEmpty()) {
        unfit.computeIfAbsent(category, k -> new ArrayList<>()).add(ledger.fibre(slot));
      }
    }
    unfit.forEach(
        (category, fibres) ->
            out.accept(
                conflict(
                    "rulebook",
                    "no required wavelength has a limit for "
                        + category.label()
                        + " in rulebook "
                        + ledger.requirement().rulebook().id(),
                    fibres,
                    "Settle with the owner at which wavelengths and limits "
                        + category.label()
                        + " is to be tested")));
  }

  private static void limits(Ledger ledger, Consumer<Doubt> out) {
    Rulebook rulebook = ledger.requirement().rulebook();
    Map<String, List<FibreId>> lacking = new LinkedHashMap<>();
    for (int slot = 0; slot < ledger.slots(); slot++) {
      Link link = ledger.link(slot);
      FibreKind kind = link.category().kind();
      if (link.connections() > 0 && rulebook.innerLimit(kind).isEmpty()) {
        lack(lacking, "a connection inside a " + kind.word() + " link", ledger.fibre(slot));
      }
      if (link.splices() > 0 && rulebook.spliceLimit(kind).isEmpty()) {
        lack(lacking, "a " + kind.word() + " splice", ledger.fibre(slot));
      }
      if (ledger.requirement().method().endConnections() > 0
          && rulebook.endLimit(kind, CordGrade.REFERENCE).isEmpty()) {
        lack(lacking, "a " + kind.word() + " end connection", ledger.fibre(slot));
      }
      for (String device : link.devices()) {
        if (rulebook.deviceLimit(device).isEmpty()) {
          lack(lacking, "device " + device, ledger.fibre(slot));
        }
      }
    }
    lacking.forEach(
        (what, fibres) ->
            out.accept(
                conflict(
                    "rulebook",
                    "rulebook " + rulebook.id() + " has no limit for " + what,
                    fibres,
                    "Settle with the owner which limit holds for "
                        + what
                        + ", and give it in an owner's rulebook")));
  }

  private static void lack(Map<String, List<FibreId>> lacking, String what, FibreId fibre) {
    lacking.computeIfAbsent(what, k -> new ArrayList<>()).add(fibre);
  }

  private static void cords(Zero zero, Consumer<Doubt> out) {
    for (ZeroLevel level : zero.levels()) {
      String what = null;
      if (zero.method() != Method.THREE_CORD && !level.substitutionCord().isEmpty()) {
        what = "names a substitution cord, which only three-cord uses";
      } else if (!level.launchCord().isEmpty()
          && (level.launchCord().equals(level.receiveCord())
              || level.launchCord().equals(level.substitutionCord()))) {
        what = "names cord " + level.launchCord() + " in two places at once";
      }
      if (what != null) {
        out.accept(
            conflict(
                "cords:" + zero.id(),
                "zero " + zero.id() + ", " + zero.method().word() + ", " + what,
                List.of(),
                "Find out which cords stood in zero " + zero.id()));
        return;
      }
    }
  }

  private static void instruments(Ledger ledger, Zero zero, Consumer<Doubt> out) {
    for (ZeroLevel level : zero.levels()) {
      Instrument source = ledger.instrument(level.source()).orElse(null);
      Instrument meter = ledger.instrument(level.meter()).orElse(null);
      String what = null;
      if (source != null && !source.kind().sends()) {
        what = source.id() + " as its source, which is a meter";
      } else if (meter != null && !meter.kind().measures()) {
        what = meter.id() + " as its meter, which is a source";
      } else if (source != null
          && !source.wavelengths().isEmpty()
          && !source.wavelengths().contains(level.wavelength())) {
        what = source.id() + " at " + level.wavelength() + ", which it is not listed for";
      }
      if (what != null) {
        out.accept(
            conflict(
                "kit:" + zero.id(),
                "zero " + zero.id() + " names " + what,
                List.of(),
                "Compare zero " + zero.id() + " with the list of instruments"));
        return;
      }
    }
  }

  private static void calibrations(Ledger ledger, Consumer<Doubt> out) {
    for (Instrument instrument : ledger.job().instruments()) {
      if (instrument.calibratedOn().isPresent()
          && instrument.calibrationDue().isPresent()
          && instrument.calibratedOn().get().isAfter(instrument.calibrationDue().get())) {
        out.accept(
            conflict(
                "certificate:" + instrument.id(),
                "instrument "
                    + instrument.id()
                    + " was calibrated on "
                    + instrument.calibratedOn().get()
                    + ", after the day on which that was due, "
                    + instrument.calibrationDue().get(),
                List.of(),
                "Look at the certificate of " + instrument.id()));
      }
    }
  }
}
