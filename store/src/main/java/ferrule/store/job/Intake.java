package ferrule.store.job;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import ferrule.core.Problem;
import ferrule.store.intake.JobAssembler;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.JobPaper;
import ferrule.store.intake.TableFile;
import ferrule.store.intake.TableRow;
import ferrule.store.job.AddOutcome.FileOutcome;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.LongConsumer;

/** Takes a batch into the log: every row ends as an entry, as a repeat, or as a problem. */
final class Intake {

  private static final JsonFactory JSON = new JsonFactory();

  /** The first half of a SHA-256: enough to tell contents apart, half the memory. */
  private record Key(long high, long low) {
    static Key of(byte[] digest) {
      ByteBuffer buffer = ByteBuffer.wrap(digest);
      return new Key(buffer.getLong(), buffer.getLong());
    }
  }

  private record Named(long seq, String content) {}

  private final EntryLog log;
  private final Optional<String> supersede;
  private final LongConsumer progress;
  private final EntryCodec codec = new EntryCodec();
  private final Map<String, Named> named = new HashMap<>();
  private final Set<Key> contents = new HashSet<>();
  private final List<Problem> problems = new ArrayList<>();
  private final List<String> notes = new ArrayList<>();
  private long stored;

  Intake(EntryLog log, Optional<String> supersede, LongConsumer progress) {
    this.log = log;
    this.supersede = supersede;
    this.progress = progress;
  }

  AddOutcome take(Batch batch) throws SQLException {
    JobAssembler assembler = readWhatIsThere();
    notes.addAll(batch.notes());
    List<FileOutcome> outcomes = new ArrayList<>();
    try (EntryLog.Appender appender = log.new Appender()) {
      if (batch.paper().isPresent()) {
        outcomes.add(takePaper(batch.paper().get(), appender));
      }
      for (TableFile table : batch.tables()) {
        outcomes.add(takeTable(table, assembler, appender));
      }
      appender.flush();
    }
    return new AddOutcome(outcomes, problems, notes);
  }

  private JobAssembler readWhatIsThere() throws SQLException {
    Set<Long> superseded = new HashSet<>();
    Map<Long, TableRow> zeros = new HashMap<>();
    List<Long> order = new ArrayList<>();
    log.readAll(
        entry -> {
          EntryKind kind = EntryKind.ofWord(entry.kind());
          if (kind == EntryKind.INTAKE) {
            return;
          }
          if (entry.supersedes() != 0) {
            superseded.add(entry.supersedes());
          }
          if (entry.name().isEmpty()) {
            contents.add(Key.of(Entry.digest(entry.kind(), entry.content())));
          } else {
            named.put(entry.kind() + "\n" + entry.name(), new Named(entry.seq(), entry.content()));
          }
          if (kind == EntryKind.REFERENCE) {
            zeros.put(entry.seq(), codec.decode(kind, entry.content()));
            order.add(entry.seq());
          }
        });
    JobAssembler assembler = new JobAssembler();
    for (Long seq : order) {
      TableRow row = zeros.get(seq);
      if (row != null && !superseded.contains(seq)) {
        assembler.add(row);
      }
    }
    return assembler;
  }

  private FileOutcome takePaper(JobPaper paper, EntryLog.Appender appender) throws SQLException {
    String intake = log.newId();
    String content = encode(paper);
    byte[] digest = Entry.digest(EntryKind.JOB.word(), content);
    Named there = named.get(EntryKind.JOB.word() + "\njob");
    if (there == null) {
      appender.append(
          log.newId(),
          EntryKind.JOB,
          "job",
          content,
          digest,
          intake,
          "job.toml",
          0,
          log.now(),
          0,
          "");
      return new FileOutcome("job.toml", 1, 1, 0, 0, 0);
    }
    if (there.content().equals(content)) {
      return new FileOutcome("job.toml", 1, 0, 0, 1, 0);
    }
    if (supersede.isEmpty()) {
      problems.add(
          new Problem(
              "job.toml",
              0,
              "",
              "the job's paper as entered",
              "another text",
              "to correct it, add it with --supersede and the reason"));
      return new FileOutcome("job.toml", 1, 0, 0, 0, 1);
    }
    appender.append(
        log.newId(),
        EntryKind.JOB,
        "job",
        content,
        digest,
        intake,
        "job.toml",
        0,
        log.now(),
        there.seq(),
        supersede.get());
    return new FileOutcome("job.toml", 1, 0, 1, 0, 0);
  }

  private FileOutcome takeTable(TableFile table, JobAssembler assembler, EntryLog.Appender appender)
      throws SQLException {
    int problemsBefore = problems.size();
    problems.addAll(table.problems());
    JobFolder.unknownColumns(table).ifPresent(notes::add);
    EntryKind kind = EntryKind.of(table.kind());
    String intake = log.newId();
    String now = log.now();
    long entered = 0;
    long superseding = 0;
    long repeated = 0;
    Map<String, Named> namedNow = new HashMap<>();
    for (int i = 0; i < table.rows().size(); i++) {
      TableRow row = table.rows().get(i);
      long rowNumber = table.rowNumbers().get(i);
      String content = codec.encode(row);
      byte[] digest = Entry.digest(kind.word(), content);
      String key = row.key();
      Named there = key.isEmpty() ? null : named.get(kind.word() + "\n" + key);
      boolean same =
          key.isEmpty()
              ? contents.contains(Key.of(digest))
              : there != null && there.content().equals(content);
      if (same) {
        repeated++;
        continue;
      }
      if (there != null && supersede.isEmpty()) {
        problems.add(conflict(table.name(), rowNumber, key, there.content(), content));
        continue;
      }
      if (!assembler.admit(row, table.name(), rowNumber, problems::add)) {
        continue;
      }
      long seq =
          appender.append(
              log.newId(),
              kind,
              key,
              content,
              digest,
              intake,
              table.name(),
              rowNumber,
              now,
              there == null ? 0 : there.seq(),
              there == null ? "" : supersede.orElse(""));
      if (there == null) {
        entered++;
        assembler.add(row);
      } else {
        superseding++;
      }
      if (!key.isEmpty()) {
        namedNow.put(kind.word() + "\n" + key, new Named(seq, content));
      }
      if (++stored % 1000 == 0) {
        progress.accept(stored);
      }
    }
    named.putAll(namedNow);
    List<Problem> own = problems.subList(problemsBefore, problems.size());
    if (entered + superseding > 0) {
      String summary = summary(table, entered, superseding, repeated, own);
      appender.append(
          intake,
          EntryKind.INTAKE,
          "",
          summary,
          Entry.digest(EntryKind.INTAKE.word(), summary),
          intake,
          table.name(),
          0,
          now,
          0,
          "");
    }
    long unused = table.rowCount() - entered - superseding - repeated;
    return new FileOutcome(table.name(), table.rowCount(), entered, superseding, repeated, unused);
  }

  private static Problem conflict(String file, long row, String key, String stored, String found) {
    String[] difference = EntryCodec.firstDifference(stored, found);
    return new Problem(
        file,
        row,
        difference[0],
        difference[1] + ", as entered for " + key,
        difference[2],
        "to correct the entry, add the file with --supersede and the reason");
  }

  private static String encode(JobPaper paper) {
    return json(
        json -> {
          json.writeStringField("toml", paper.toml());
          json.writeStringField("rulebook_file", paper.rulebookFile());
          json.writeStringField("rulebook_text", paper.rulebookText());
        });
  }

  private static String summary(
      TableFile table, long entered, long superseding, long repeated, List<Problem> problems) {
    return json(
        json -> {
          json.writeStringField("file", table.name());
          json.writeStringField("sha256", table.sha256());
          json.writeNumberField("rows", table.rowCount());
          json.writeNumberField("entered", entered);
          json.writeNumberField("superseding", superseding);
          json.writeNumberField("repeated", repeated);
          json.writeStringField("unknown_columns", String.join(" ", table.unknownColumns()));
          json.writeArrayFieldStart("problems");
          for (Problem problem : problems) {
            json.writeStartObject();
            json.writeNumberField("row", problem.row());
            json.writeStringField("column", problem.column());
            json.writeStringField("expected", problem.expected());
            json.writeStringField("found", problem.found());
            json.writeStringField("action", problem.action());
            json.writeEndObject();
          }
          json.writeEndArray();
        });
  }

  @FunctionalInterface
  private interface Body {
    void write(JsonGenerator json) throws IOException;
  }

  private static String json(Body body) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = JSON.createGenerator(text)) {
      json.writeStartObject();
      body.write(json);
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }
}
