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
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Puts the entries of a log together to the job as it now stands. */
final class StoredJobReader {

  private static final JsonFactory JSON = new JsonFactory();

  private StoredJobReader() {}

  static StoredJob read(EntryLog log, String file) throws SQLException {
    EntryCodec codec = new EntryCodec();
    Map<Long, Integer> place = new HashMap<>();
    List<TableRow> rows = new ArrayList<>();
    String[] paper = {""};
    Map<String, List<Problem>> problems = new LinkedHashMap<>();
    log.readAll(
        entry -> {
          EntryKind kind = EntryKind.ofWord(entry.kind());
          switch (kind) {
            case JOB -> paper[0] = entry.content();
            case INTAKE -> problems.put(entry.file(), problems(entry.file(), entry.content()));
            default -> {
              if (!entry.name().isEmpty()) {
                place.put(entry.seq(), rows.size());
              }
              Integer old = place.get(entry.supersedes());
              if (old != null) {
                // A correction takes the place of what it corrects: the schedule keeps its order.
                place.put(entry.seq(), old);
                rows.set(old, codec.decode(kind, entry.content()));
              } else {
                rows.add(codec.decode(kind, entry.content()));
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
    List<Problem> all = new ArrayList<>();
    problems.values().forEach(all::addAll);
    return new StoredJob(
        assembler.assemble(job.requirement()),
        all,
        read.notes(),
        log.lastSeq(),
        JobFile.hex(log.lastHash()));
  }

  private static JobPaper.Outcome paper(String content) {
    Map<String, String> values = EntryCodec.flat(content);
    String rulebookFile = values.getOrDefault("rulebook_file", "");
    String rulebookText = values.getOrDefault("rulebook_text", "");
    return JobPaper.readStored(values.getOrDefault("toml", ""), rulebookFile, rulebookText);
  }

  private static List<Problem> problems(String file, String content) {
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
    } catch (IOException e) {
      throw new DamagedEntryException("an intake that is no JSON");
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
