package ferrule.store.job;

import ferrule.core.Problem;
import ferrule.store.intake.JobPaper;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Whether two job files are of one site. They are if they grew from one file. Else their titles
 * must be the same, and of links that both schedules name at least one must be alike.
 */
final class SameSite {

  /** With fewer links in common, a difference may well be a correction. */
  private static final int ENOUGH_LINKS = 3;

  private SameSite() {}

  /** What shows that they are of different sites; empty if nothing does. */
  static Optional<Problem> refusal(JoinedLog first, JoinedLog second) {
    if (grewFromOne(first, second)) {
      return Optional.empty();
    }
    String title = title(first);
    String other = title(second);
    if (!title.equals(other)) {
      return Optional.of(
          new Problem(
              second.shown(),
              0,
              "title",
              "a job of the site of " + first.shown() + ", \"" + title + "\"",
              "\"" + other + "\"",
              "join files of one site only; if it is one site, correct the title with ferrule add"
                  + " JOB job.toml --supersede WHY"));
    }
    return links(first, second);
  }

  private static boolean grewFromOne(JoinedLog first, JoinedLog second) {
    Set<String> ids = new HashSet<>();
    first.entries().forEach(entry -> ids.add(entry.id()));
    return second.entries().stream().anyMatch(entry -> ids.contains(entry.id()));
  }

  private static String title(JoinedLog log) {
    Map<String, String> values =
        EntryCodec.flat(last(log, EntryKind.JOB).getOrDefault("job", "{}"));
    return JobPaper.readStored(
            values.getOrDefault("toml", ""),
            values.getOrDefault("rulebook_file", ""),
            values.getOrDefault("rulebook_text", ""))
        .paper()
        .map(paper -> paper.requirement().title())
        .orElse("");
  }

  /** What now stands under each name of a kind. */
  private static Map<String, String> last(JoinedLog log, EntryKind kind) {
    Map<String, String> last = new HashMap<>();
    for (Entry entry : log.entries()) {
      if (entry.kind().equals(kind.word())) {
        last.put(entry.name(), entry.content());
      }
    }
    return last;
  }

  private static Optional<Problem> links(JoinedLog first, JoinedLog second) {
    Map<String, String> ours = last(first, EntryKind.LINK);
    List<String> differing = new ArrayList<>();
    for (Map.Entry<String, String> theirs : last(second, EntryKind.LINK).entrySet()) {
      String own = ours.get(theirs.getKey());
      if (own == null) {
        continue;
      }
      if (own.equals(theirs.getValue())) {
        return Optional.empty();
      }
      differing.add(theirs.getKey());
    }
    if (differing.size() < ENOUGH_LINKS) {
      return Optional.empty();
    }
    differing.sort(null);
    String link = differing.get(0);
    String[] difference =
        EntryCodec.firstDifference(
            ours.getOrDefault(link, ""), last(second, EntryKind.LINK).getOrDefault(link, ""));
    return Optional.of(
        new Problem(
            second.shown(),
            0,
            "links",
            "links as in " + first.shown(),
            "none of "
                + differing.size()
                + " links of the same names alike: "
                + link
                + " has "
                + difference[0]
                + " "
                + difference[2]
                + " instead of "
                + difference[1],
            "these look like jobs of different sites with one title: join files of one site only"));
  }
}
