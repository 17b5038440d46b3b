package ferrule.store.intake;

import ferrule.core.Problem;
import ferrule.core.job.OtherPapers;
import ferrule.core.job.OtherPapers.Traces;
import ferrule.core.job.Requirement;
import ferrule.core.job.Requirement.Directions;
import ferrule.core.job.Requirement.FaceDemand;
import ferrule.core.job.Settings;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.rulebook.RulebookReader;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.rulebook.toml.Section;
import ferrule.core.rulebook.toml.TomlText;
import ferrule.core.uncertainty.Budget;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import ferrule.core.zero.MethodNames;
import ferrule.core.zero.PowerWindow;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * The job's paper, {@code job.toml}: its text, the text of the rulebook it names, and what they
 * mean. Both texts are kept with the job, so that it is judged by the same figures for ever.
 *
 * @param toml text of job.toml
 * @param rulebookFile name under which the rulebook was found
 * @param rulebookText its text
 * @param requirement what they mean
 */
public record JobPaper(
    String toml, String rulebookFile, String rulebookText, Requirement requirement) {

  /** Where a paper names its rulebook. */
  static final String RULEBOOK_KEY = "requirement.rulebook";

  /**
   * A paper, or the reasons why there is none.
   *
   * @param paper present only if there are no problems
   * @param problems one for each thing wrong
   * @param notes what was taken for granted
   */
  public record Outcome(Optional<JobPaper> paper, List<Problem> problems, List<String> notes) {}

  /**
   * Reads a paper.
   *
   * @param file name to show in problems
   * @param toml its text
   * @param ownRulebooks text of an owner's rulebook by the name the paper gives; empty if there is
   *     no such file
   */
  public static Outcome read(
      String file, String toml, Function<String, Optional<String>> ownRulebooks) {
    return new Reader(file, toml, ownRulebooks).read();
  }

  /**
   * Reads a paper that was stored with its rulebook: the stored text counts, whatever this version
   * of Ferrule ships under the same name.
   */
  public static Outcome readStored(String toml, String rulebookFile, String rulebookText) {
    Reader reader = new Reader("job.toml", toml, name -> Optional.of(rulebookText));
    reader.shippedCount = false;
    Outcome outcome = reader.read();
    return new Outcome(
        outcome
            .paper()
            .map(p -> new JobPaper(p.toml(), rulebookFile, rulebookText, p.requirement())),
        outcome.problems(),
        outcome.notes());
  }

  private static final class Reader {
    private static final int LONGEST_TEXT = 1000;
    private static final Set<String> TOP =
        Set.of("title", "owner", "contractor", "requirement", "papers", "zero", "uncertainty");
    private static final Set<String> REQUIREMENT =
        Set.of(
            "rulebook",
            "wavelengths_nm",
            "directions",
            "method",
            "decision",
            "applications",
            "faces");
    private static final Set<String> PAPERS =
        Set.of("other_rulebooks", "method_as_written", "traces");
    private static final Set<String> ZERO =
        Set.of(
            "valid_hours", "verify_every_hours", "window_single_mode_dbm", "window_multimode_dbm");

    private final String file;
    private final String text;
    private final Function<String, Optional<String>> ownRulebooks;
    private final List<Problem> problems = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();
    private boolean shippedCount = true;

    Reader(String file, String text, Function<String, Optional<String>> ownRulebooks) {
      this.file = file;
      this.text = text;
      this.ownRulebooks = ownRulebooks;
    }

    Outcome read() {
      TomlText.Outcome whole = TomlText.read(file, text);
      return whole
          .section()
          .map(this::understand)
          .orElseGet(() -> new Outcome(Optional.empty(), whole.problems(), notes));
    }

    private Outcome understand(Section toml) {
      refuseUnknown(toml, TOP, "");
      Section requirement = table(toml, "requirement");
      if (requirement == null) {
        if (!toml.contains("requirement")) {
          problems.add(
              new Problem(
                  file,
                  0,
                  "requirement",
                  "a table [requirement]",
                  "none",
                  "add it: rulebook, wavelengths_nm, directions, method, decision"));
        }
        return new Outcome(Optional.empty(), problems, notes);
      }
      refuseUnknown(requirement, REQUIREMENT, "requirement.");
      String title = text(toml, "title", "", "Untitled job");
      String rulebookName = text(requirement, "rulebook", "requirement.", "");
      Optional<String> rulebookText = rulebookText(requirement, rulebookName);
      Optional<Rulebook> rulebook = rulebookText.flatMap(t -> rulebook(rulebookName, t));
      SortedSet<Wavelength> wavelengths = wavelengths(requirement);
      Method method = method(requirement);
      Directions directions =
          choice(requirement, "directions", Reader::directions, "one or both", Directions.BOTH);
      DecisionRule decision =
          choice(
              requirement,
              "decision",
              DecisionRule::ofWord,
              "simple or guarded",
              DecisionRule.SIMPLE);
      FaceDemand faces = FaceDemand.NONE;
      if (requirement.contains("faces")) {
        faces = choice(requirement, "faces", Reader::faces, "none or ends", FaceDemand.NONE);
      }
      List<String> applications = texts(requirement, "applications", "requirement.");
      Settings settings = settings(toml);
      OtherPapers papers = papers(toml);
      if (!problems.isEmpty()
          || rulebook.isEmpty()
          || rulebookText.isEmpty()
          || method == null
          || directions == null
          || decision == null
          || faces == null) {
        return new Outcome(Optional.empty(), problems, notes);
      }
      if (!applications.isEmpty()) {
        notes.add(
            "Applications do not change what is judged; `ferrule applications` tells which links carry them: "
                + String.join(", ", applications));
      }
      return new Outcome(
          Optional.of(
              new JobPaper(
                  text,
                  rulebookName,
                  RulebookReader.standingAlone(rulebookText.get(), rulebook.get()),
                  new Requirement(
                      title,
                      text(toml, "owner", "", ""),
                      text(toml, "contractor", "", ""),
                      rulebook.get(),
                      wavelengths,
                      directions,
                      method,
                      decision,
                      applications,
                      faces,
                      settings,
                      papers))),
          problems,
          notes);
    }

    private @Nullable Method method(Section requirement) {
      Method method =
          requirement.get("method") instanceof String word
              ? Method.ofWord(word.strip()).orElse(null)
              : null;
      if (method == null) {
        String found = shown(requirement, "method");
        wrong(
            requirement,
            "method",
            "requirement.",
            "one-cord, two-cord or three-cord (the count, never a letter)",
            found,
            MethodNames.shown(found)
                .map(meant -> "ask the owner how many test cords: it is " + meant + ", from memory")
                .orElse("correct it"));
      }
      return method;
    }

    private static Optional<Directions> directions(String word) {
      return List.of(Directions.values()).stream().filter(d -> d.word().equals(word)).findFirst();
    }

    private static Optional<FaceDemand> faces(String word) {
      return List.of(FaceDemand.values()).stream().filter(d -> d.word().equals(word)).findFirst();
    }

    private Optional<String> rulebookText(Section requirement, String name) {
      if (name.isEmpty()) {
        if (!requirement.contains("rulebook")) {
          wrong(requirement, "rulebook", "requirement.", rulebooks(), "nothing");
        }
        return Optional.empty();
      }
      Optional<String> shipped = shippedCount ? ShippedRulebooks.text(name) : Optional.empty();
      Optional<String> own = shipped.isPresent() ? shipped : ownRulebooks.apply(name);
      if (own.isEmpty()) {
        wrong(requirement, "rulebook", "requirement.", rulebooks(), name);
      }
      return own;
    }

    private static String rulebooks() {
      return "one of "
          + String.join(", ", ShippedRulebooks.ids())
          + ", or a rulebook file in the job's folder";
    }

    private Optional<Rulebook> rulebook(String name, String rulebookText) {
      RulebookReader.Outcome outcome =
          shippedCount
              ? RulebookReader.read(name, rulebookText)
              : RulebookReader.readKept(name, rulebookText);
      problems.addAll(outcome.problems());
      return outcome.rulebook();
    }

    private SortedSet<Wavelength> wavelengths(Section requirement) {
      SortedSet<Wavelength> wavelengths = new TreeSet<>();
      String expected = "a list of whole nanometres from 600 to 1700, such as [1310, 1550]";
      if (!(requirement.get("wavelengths_nm") instanceof List<?> array) || array.isEmpty()) {
        wrong(
            requirement,
            "wavelengths_nm",
            "requirement.",
            expected,
            shown(requirement, "wavelengths_nm"));
        return wavelengths;
      }
      for (Object one : array) {
        if (one instanceof Long nm && nm >= Wavelength.SHORTEST_NM && nm <= Wavelength.LONGEST_NM) {
          wavelengths.add(new Wavelength(nm.intValue()));
        } else {
          wrong(requirement, "wavelengths_nm", "requirement.", expected, one.toString());
        }
      }
      return wavelengths;
    }

    private OtherPapers papers(Section toml) {
      Section papers = table(toml, "papers");
      if (papers == null) {
        return OtherPapers.SILENT;
      }
      String prefix = "papers.";
      refuseUnknown(papers, PAPERS, prefix);
      List<Rulebook> others = new ArrayList<>();
      for (String name : texts(papers, "other_rulebooks", prefix)) {
        Optional<Rulebook> other = ShippedRulebooks.find(name);
        if (other.isEmpty()) {
          wrong(
              papers,
              "other_rulebooks",
              prefix,
              "rulebooks among " + String.join(", ", ShippedRulebooks.ids()),
              name);
        }
        other.ifPresent(others::add);
      }
      Traces traces = Traces.NONE;
      if (papers.contains("traces")) {
        traces =
            choice(papers, "traces", prefix, Reader::traces, "none, spliced or all", Traces.NONE);
      }
      return new OtherPapers(
          others,
          text(papers, "method_as_written", prefix, ""),
          traces == null ? Traces.NONE : traces);
    }

    private static Optional<Traces> traces(String word) {
      return List.of(Traces.values()).stream().filter(t -> t.word().equals(word)).findFirst();
    }

    private Settings settings(Section toml) {
      Duration validFor = Settings.USUAL.zeroValidFor();
      Duration verifyEvery = Settings.USUAL.verifyEvery();
      Map<FibreKind, PowerWindow> windows = new EnumMap<>(FibreKind.class);
      Section zero = table(toml, "zero");
      if (zero != null) {
        refuseUnknown(zero, ZERO, "zero.");
        validFor = hours(zero, "valid_hours", validFor);
        verifyEvery = hours(zero, "verify_every_hours", verifyEvery);
        window(zero, "window_single_mode_dbm")
            .ifPresent(w -> windows.put(FibreKind.SINGLE_MODE, w));
        window(zero, "window_multimode_dbm").ifPresent(w -> windows.put(FibreKind.MULTIMODE, w));
      }
      Map<String, Double> sizes = new HashMap<>();
      Section uncertainty = table(toml, "uncertainty");
      if (uncertainty != null) {
        refuseUnknown(uncertainty, Budget.IDS, "uncertainty.");
        for (String key : uncertainty.keys()) {
          if (!Budget.IDS.contains(key)) {
            continue;
          }
          double size = number(uncertainty.get(key));
          if (size >= 0 && size <= 5) {
            sizes.put(key, size);
          } else {
            wrong(
                uncertainty,
                key,
                "uncertainty.",
                "a size from 0 to 5 (dB; dB/km or a share where the contribution is one)",
                shown(uncertainty, key));
          }
        }
      }
      return new Settings(validFor, verifyEvery, windows, sizes);
    }

    private Duration hours(Section zero, String key, Duration usual) {
      if (!zero.contains(key)) {
        return usual;
      }
      double hours = number(zero.get(key));
      if (hours > 0 && hours <= 24 * 366) {
        return Duration.ofSeconds(Math.round(hours * 3600));
      }
      wrong(zero, key, "zero.", "hours, more than 0", shown(zero, key));
      return usual;
    }

    private Optional<PowerWindow> window(Section zero, String key) {
      if (!zero.contains(key)) {
        return Optional.empty();
      }
      if (zero.get(key) instanceof List<?> array && array.size() == 2) {
        double low = number(array.get(0));
        double high = number(array.get(1));
        if (low >= -100 && low <= high && high <= 40) {
          return Optional.of(
              new PowerWindow(new LevelDbm(low), new LevelDbm(high), "set for this job"));
        }
      }
      wrong(zero, key, "zero.", "two levels, low and high, such as [-9, -3]", shown(zero, key));
      return Optional.empty();
    }

    private static double number(@Nullable Object value) {
      if (value instanceof Long whole) {
        return whole;
      }
      return value instanceof Double real ? real : Double.NaN;
    }

    private @Nullable Section table(Section parent, String key) {
      Object value = parent.get(key);
      if (value == null || value instanceof Section) {
        return (Section) value;
      }
      wrong(parent, key, "", "a table [" + key + "]", value.toString());
      return null;
    }

    private void refuseUnknown(Section table, Set<String> known, String prefix) {
      for (String key : table.keys()) {
        if (!known.contains(key)) {
          wrong(
              table,
              key,
              prefix,
              "one of " + String.join(", ", known.stream().sorted().toList()),
              key);
        }
      }
    }

    private <T> @Nullable T choice(
        Section table,
        String key,
        Function<String, Optional<T>> of,
        String expected,
        @Nullable T ifAbsent) {
      return choice(table, key, "requirement.", of, expected, ifAbsent);
    }

    private <T> @Nullable T choice(
        Section table,
        String key,
        String prefix,
        Function<String, Optional<T>> of,
        String expected,
        @Nullable T ifAbsent) {
      if (!table.contains(key) && ifAbsent != null) {
        notes.add("No " + key + " is given in " + file + "; the usual one is taken");
        return ifAbsent;
      }
      T value = table.get(key) instanceof String word ? of.apply(word.strip()).orElse(null) : null;
      if (value == null) {
        wrong(table, key, prefix, expected, shown(table, key));
      }
      return value;
    }

    private String text(Section table, String key, String prefix, String ifAbsent) {
      Object value = table.get(key);
      if (value == null) {
        return ifAbsent;
      }
      if (value instanceof String string) {
        String text = string.strip();
        if (text.length() > LONGEST_TEXT || text.chars().anyMatch(Character::isISOControl)) {
          wrong(table, key, prefix, "one line of at most " + LONGEST_TEXT + " characters", text);
          return ifAbsent;
        }
        return text;
      }
      wrong(table, key, prefix, "a text in quotes", value.toString());
      return ifAbsent;
    }

    private List<String> texts(Section table, String key, String prefix) {
      List<String> texts = new ArrayList<>();
      Object value = table.get(key);
      if (value instanceof List<?> array) {
        for (Object one : array) {
          if (one instanceof String string) {
            texts.add(string);
          } else {
            wrong(table, key, prefix, "texts in quotes", one.toString());
          }
        }
      } else if (value != null) {
        wrong(table, key, prefix, "a list of texts", value.toString());
      }
      return texts;
    }

    private static String shown(Section table, String key) {
      Object value = table.get(key);
      return value == null ? "nothing" : value.toString();
    }

    private void wrong(Section table, String key, String prefix, String expected, String found) {
      wrong(table, key, prefix, expected, found, "correct it");
    }

    private void wrong(
        Section table, String key, String prefix, String expected, String found, String action) {
      problems.add(
          new Problem(
              file, table.line(key), Problem.printable(prefix + key), expected, found, action));
    }
  }
}
