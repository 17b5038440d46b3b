package ferrule.store.job;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import ferrule.core.Problem;
import ferrule.store.intake.JobAssembler;
import ferrule.store.intake.JobPaper;
import ferrule.store.intake.TableRow;
import java.io.IOException;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Puts the entries of a log together to the job as it now stands. */
final class StoredJobReader {

  private static final JsonFactory JSON = new JsonFactory();

  private StoredJobReader() {}

  /** The job with the texts of its papers. */
  static OpenJob readOpen(EntrySource log) throws SQLException {
    EntryCodec codec = new EntryCodec();
    Map<String, Holder> holders = new HashMap<>();
    List<TableRow> rows = new ArrayList<>();
    String[] paper = {""};
    OpenMatters open = new OpenMatters();
    log.readAll(
        entry -> {
          open.see(entry);
          EntryKind kind = EntryKind.ofWord(entry.kind());
          switch (kind) {
            case JOB -> {
              place(entry, "job", holders, 0);
              paper[0] = entry.content();
            }
            case INTAKE, JOIN -> place(entry, "", holders, 0);
            default -> {
              TableRow row = codec.decode(kind, entry.content());
              int place = place(entry, row.key(), holders, rows.size());
              if (place < rows.size()) {
                rows.set(place, row);
              } else {
                rows.add(row);
              }
            }
          }
        });
    if (paper[0].isEmpty()) {
      throw new DamagedEntryException("no paper of the job");
    }
    JobPaper.Outcome read = paper(paper[0]);
    JobAssembler assembler = new JobAssembler();
    rows.forEach(assembler::add);
    JobPaper job =
        read.paper()
            .orElseThrow(
                () ->
                    new DamagedEntryException(
                        "a paper that is not understood: " + read.problems()));
    List<Problem> problems = new ArrayList<>();
    open.conflicts().forEach(conflict -> problems.add(conflict.problem()));
    problems.addAll(open.problems());
    return new OpenJob(
        new StoredJob(
            assembler
                .assemble(job.requirement())
                .with(open.conflicts().stream().flatMap(c -> c.bearing().stream()).toList()),
            problems,
            read.notes(),
            log.lastSeq(),
            JobFile.hex(log.lastHash())),
        job.toml(),
        job.rulebookText());
  }

  /** The entry that now holds a name, and the place of its row. */
  private record Holder(long seq, int place) {}

  /**
   * The place of an entry's row. A correction takes the place of what it corrects: the schedule
   * keeps its order.
   *
   * @param name the name that its content gives it
   * @param next the place of a new row
   */
  private static int place(Entry entry, String name, Map<String, Holder> holders, int next) {
    if (!entry.name().equals(name)) {
      throw new DamagedEntryException("the name " + entry.name() + " over the content of " + name);
    }
    String key = name.isEmpty() ? "" : entry.kind() + "\n" + name;
    Holder holder = holders.get(key);
    if (entry.supersedes() != (holder == null ? 0 : holder.seq())) {
      throw new DamagedEntryException(
          holder == null
              ? "a correction of entry " + entry.supersedes() + ", which does not hold its name"
              : "the name " + name + " of entry " + holder.seq() + ", which it does not correct");
    }
    int place = holder == null ? next : holder.place();
    if (!key.isEmpty()) {
      holders.put(key, new Holder(entry.seq(), place));
    }
    return place;
  }

  private static JobPaper.Outcome paper(String content) {
    Map<String, String> values = EntryCodec.flat(content);
    String rulebookFile = values.getOrDefault("rulebook_file", "");
    String rulebookText = values.getOrDefault("rulebook_text", "");
    return JobPaper.readStored(values.getOrDefault("toml", ""), rulebookFile, rulebookText);
  }

  /** The problems that an intake recorded. */
  static List<Problem> problems(String file, String content) {
    List<Problem> problems = new ArrayList<>();
    try (JsonParser json = JSON.createParser(content)) {
      while (json.nextToken() != null) {
        if (json.currentToken() == JsonToken.START_ARRAY && "problems".equals(json.currentName())) {
          while (json.nextToken() == JsonToken.START_OBJECT) {
            problems.add(problem(file, json));
          }
        }
      }
      return problems;
    } catch (IOException | NumberFormatException e) {
      throw new DamagedEntryException("content that is no intake");
    }
  }

  private static Problem problem(String file, JsonParser json) throws IOException {
    Map<String, String> values = new HashMap<>();
    while (json.nextToken() == JsonToken.FIELD_NAME) {
      String key = json.currentName();
      json.nextToken();
      values.put(key, json.getValueAsString(""));
    }
    return new Problem(
        file,
        Optional.ofNullable(values.get("row")).map(Long::parseLong).orElse(0L),
        values.getOrDefault("column", ""),
        values.getOrDefault("expected", ""),
        values.getOrDefault("found", ""),
        values.getOrDefault("action", ""));
  }
}
