package ferrule.record.page;

import ferrule.core.job.Requirement;
import ferrule.core.optics.Wavelength;
import ferrule.core.trust.Action;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Standing;
import ferrule.core.trust.Trust;
import ferrule.core.trust.ZeroTrust;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The one sheet for a reader in a hurry: what was tested, how it is known, what was odd, what is
 * left.
 */
public final class Cover {

  /** Longest title, owner or contractor on the sheet; the data files have the whole. */
  private static final int LONGEST = 100;

  private static final int MOST_ODDITIES = 6;
  private static final int MOST_PLACES = 5;

  private final Judgement judgement;
  private final int problems;

  Cover(Judgement judgement, int problems) {
    this.judgement = judgement;
    this.problems = problems;
  }

  /**
   * One fact.
   *
   * @param name what it is
   * @param value what it says
   */
  public record Fact(String name, String value) {}

  /** How many fibres stand where, and what that means. */
  public record Count(Standing standing, int fibres, String meaning) {}

  private Requirement requirement() {
    return judgement.ledger().requirement();
  }

  /** Title of the job. */
  public String title() {
    String title = requirement().title();
    return title.isBlank() ? "Job without a title" : Show.cut(title, LONGEST);
  }

  /** What was tested, by which rules. */
  public List<Fact> facts() {
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("Owner", Show.orUnknown(Show.cut(requirement().owner(), LONGEST))));
    facts.add(new Fact("Tested by", Show.orUnknown(Show.cut(requirement().contractor(), LONGEST))));
    facts.add(new Fact("Places", places()));
    facts.add(
        new Fact(
            "Scheduled",
            Show.count(judgement.fibres().size(), "fibre")
                + " in "
                + Show.count(judgement.ledger().job().links().size(), "link")));
    facts.add(
        new Fact(
            "Rulebook",
            Show.cut(
                requirement().rulebook().title() + "; " + requirement().rulebook().edition(),
                180)));
    facts.add(new Fact("Wavelengths", wavelengths()));
    facts.add(
        new Fact(
            "Directions",
            switch (requirement().directions()) {
              case ONE -> "one: either will do";
              case BOTH -> "both: A-B and B-A, the source standing at A or at B";
            }));
    facts.add(new Fact("Method", Words.method(requirement().method())));
    facts.add(new Fact("Decision rule", Words.rule(requirement().decision())));
    if (!requirement().applications().isEmpty()) {
      facts.add(
          new Fact("To carry", Show.cut(String.join(", ", requirement().applications()), LONGEST)));
    }
    facts.add(new Fact("Readings taken", taken()));
    return facts;
  }

  private String places() {
    Set<String> places = new LinkedHashSet<>();
    judgement
        .ledger()
        .job()
        .links()
        .forEach(
            l -> {
              if (!l.a().place().isBlank()) {
                places.add(l.a().place());
              }
              if (!l.b().place().isBlank()) {
                places.add(l.b().place());
              }
            });
    if (places.isEmpty()) {
      return "not on record";
    }
    String named =
        String.join("; ", places.stream().limit(MOST_PLACES).map(p -> Show.cut(p, 30)).toList());
    return places.size() > MOST_PLACES
        ? named + "; and " + (places.size() - MOST_PLACES) + " more"
        : named;
  }

  private String wavelengths() {
    List<String> words = new ArrayList<>();
    for (Wavelength wavelength : requirement().wavelengths()) {
      words.add(wavelength.toString());
    }
    return words.isEmpty()
        ? "none required"
        : String.join(", ", words) + ", each fibre at those that its kind is limited at";
  }

  private String taken() {
    Instant first = null;
    Instant last = null;
    for (AssessedReading reading : judgement.ledger().readings()) {
      Instant at = reading.reading().measuredAt();
      first = first == null || at.isBefore(first) ? at : first;
      last = last == null || at.isAfter(last) ? at : last;
    }
    if (first == null || last == null) {
      return "none";
    }
    String days =
        Show.day(first).equals(Show.day(last))
            ? "on " + Show.day(first)
            : "from " + Show.day(first) + " to " + Show.day(last);
    return days + " (UTC)";
  }

  /** How many fibres stand where, in one sentence. */
  public String lead() {
    int all = judgement.fibres().size();
    if (all == 0) {
      return "No fibre is scheduled.";
    }
    if (judgement.allProved()) {
      return all == 1 ? "The fibre is proved." : "All " + Show.number(all) + " fibres are proved.";
    }
    Map<Standing, Integer> totals = judgement.totals();
    List<String> parts = new ArrayList<>();
    for (Standing standing : Standing.values()) {
      int count = totals.getOrDefault(standing, 0);
      if (count > 0) {
        parts.add(Show.number(count) + " " + standing.word());
      }
    }
    return "Of " + Show.count(all, "fibre") + ": " + String.join(", ", parts) + ".";
  }

  /** All four standings. */
  public List<Count> counts() {
    List<Count> counts = new ArrayList<>();
    judgement
        .totals()
        .forEach(
            (standing, fibres) -> counts.add(new Count(standing, fibres, Words.meaning(standing))));
    return counts;
  }

  /** Why the results can be believed, as far as they can, each a sentence. */
  public List<String> grounds() {
    List<String> grounds = new ArrayList<>();
    int readings = judgement.ledger().readings().size();
    long counting = judgement.ledger().current().size();
    if (readings == 0) {
      return List.of("No reading was handed in, so nothing is known yet.");
    }
    grounds.add(
        Show.count(readings, "reading")
            + (readings == 1 ? " was" : " were")
            + " handed in; "
            + Show.number(counting)
            + (counting == 1 ? " counts" : " count")
            + (readings > counting
                ? ", "
                    + Show.number(readings - counting)
                    + " earlier attempts were replaced by later ones and stay in the record."
                : "."));
    grounds.add(
        "Each reading was looked up under the zero (the stored reference) that it names, and through"
            + " it under its test cords and instruments; part 3 tells what is known of each.");
    grounds.add(zeros());
    grounds.add(
        "Each loss was compared with a limit of its own, added up from the figures in part 2, and"
            + " with what good work usually loses; each carries its uncertainty (part 7).");
    return grounds;
  }

  private String zeros() {
    Map<Trust, Integer> counts = new EnumMap<>(Trust.class);
    for (ZeroTrust zero : judgement.zeros()) {
      counts.merge(zero.trust(), 1, Integer::sum);
    }
    if (counts.isEmpty()) {
      return "No zero is on record.";
    }
    List<String> parts = new ArrayList<>();
    counts.forEach((trust, count) -> parts.add(Show.number(count) + " " + trust.word()));
    return Show.count(judgement.zeros().size(), "zero")
        + (judgement.zeros().size() == 1 ? " is" : " are")
        + " on record: "
        + String.join(", ", parts)
        + ".";
  }

  /** What was odd, the commonest kinds of doubt, blocking ones first; each a sentence. */
  public List<String> oddities() {
    Map<String, int[]> kinds = new LinkedHashMap<>();
    Map<String, Set<Object>> fibres = new LinkedHashMap<>();
    for (boolean blocking : new boolean[] {true, false}) {
      for (Doubt doubt : judgement.doubts()) {
        if (doubt.blocking() == blocking) {
          String key =
              doubt.kind().headline() + (blocking ? "; holds readings back" : "; blocks nothing");
          kinds.computeIfAbsent(key, k -> new int[1])[0]++;
          fibres.computeIfAbsent(key, k -> new LinkedHashSet<>()).addAll(doubt.reach().fibres());
        }
      }
    }
    List<String> oddities = new ArrayList<>();
    kinds.forEach(
        (words, count) -> {
          int touched = fibres.getOrDefault(words, Set.of()).size();
          oddities.add(
              words
                  + ": "
                  + (touched == 0
                      ? Show.number(count[0]) + " times"
                      : Show.count(touched, "fibre")));
        });
    if (oddities.size() > MOST_ODDITIES) {
      int more = oddities.size() - MOST_ODDITIES;
      oddities.subList(MOST_ODDITIES, oddities.size()).clear();
      oddities.add("and " + Show.count(more, "further kind") + " of doubt, in part 4");
    }
    if (problems > 0) {
      oddities.add(
          (problems == 1 ? "1 row or file" : Show.number(problems) + " rows or files")
              + " of what was handed in could not be used as it stood; listed in part 4");
    }
    return oddities;
  }

  /** What is left to do, one or two sentences. */
  public String left() {
    List<Action> actions = judgement.actions();
    if (judgement.fibres().isEmpty()) {
      return "A schedule of links.";
    }
    if (actions.isEmpty()) {
      return judgement.allProved()
          ? "Nothing: every scheduled fibre is proved."
          : "No action is known that would settle what is open.";
    }
    double minutes = judgement.walk().minutes();
    Action first = actions.get(0);
    return Show.count(actions.size(), "action")
        + ", about "
        + Show.minutes(minutes)
        + " of work for two technicians with walking and setting up, ranked in part 5. First: "
        + Show.sentence(Show.cut(first.what(), 320))
        + (first.helps() > 0
            ? " It brings " + Show.count(first.helps(), "fibre") + " nearer."
            : "");
  }

  /** How many of the figures used are from memory. */
  public long figuresFromMemory() {
    return FigureTable.used(judgement).stream()
        .filter(t -> t.title().startsWith("Limits"))
        .flatMap(t -> t.rows().stream())
        .filter(r -> r.source().fromMemory())
        .count();
  }
}
