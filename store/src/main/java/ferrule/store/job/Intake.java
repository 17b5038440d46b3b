package ferrule.store.job;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import ferrule.core.Problem;
import ferrule.core.face.GradedFace;
import ferrule.core.zero.Method;
import ferrule.store.intake.JobAssembler;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.JobPaper;
import ferrule.store.intake.TableFile;
import ferrule.store.intake.TableRow;
import ferrule.store.intake.TableRow.GradeRow;
import ferrule.store.intake.TableRow.ReferenceRow;
import ferrule.store.job.AddOutcome.FileOutcome;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.EnumSet;
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
  private final OpenMatters open = new OpenMatters();
  private final List<Problem> problems = new ArrayList<>();
  private final List<String> notes = new ArrayList<>();
  private String by = "";
  private long stored;

  Intake(EntryLog log, Optional<String> supersede, LongConsumer progress) {
    this.log = log;
    this.supersede = supersede;
    this.progress = progress;
  }

  AddOutcome take(Batch batch) throws SQLException {
    JobAssembler assembler = readWhatIsThere();
    notes.addAll(batch.notes());
    by = batch.by();
    List<FileOutcome> outcomes = new ArrayList<>();
    try (EntryLog.Appender appender = log.new Appender()) {
      if (batch.paper().isPresent()) {
        outcomes.add(takePaper(batch.paper().get(), appender));
      }
      List<TableFile> tables = batch.tables();
      for (int i = 0; i < tables.size(); i++) {
        boolean moreToCome =
            i + 1 < tables.size() && tables.get(i + 1).kind() == tables.get(i).kind();
        outcomes.add(takeTable(tables.get(i), moreToCome, assembler, appender));
      }
      if (!batch.grades().isEmpty()) {
        outcomes.add(takeGrades(batch.grades(), appender));
      }
      appender.flush();
    }
    return new AddOutcome(outcomes, problems, notes);
  }

  private JobAssembler readWhatIsThere() throws SQLException {
    Set<Long> superseded = new HashSet<>();
    Map<Long, TableRow> rows = new HashMap<>();
    List<String> links = new ArrayList<>();
    List<Long> order = new ArrayList<>();
    log.readAll(
        entry -> {
          open.see(entry);
          EntryKind kind = EntryKind.ofWord(entry.kind());
          if (kind == EntryKind.INTAKE || kind == EntryKind.JOIN) {
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
          if (kind == EntryKind.LINK) {
            links.add(entry.name());
          }
          if (kind == EntryKind.REFERENCE || kind == EntryKind.PART) {
            rows.put(entry.seq(), codec.decode(kind, entry.content()));
            order.add(entry.seq());
          }
        });
    JobAssembler assembler = new JobAssembler();
    links.forEach(assembler::knowLink);
    for (Long seq : order) {
      TableRow row = rows.get(seq);
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
    if (there.content().equals(content) && !confirms(EntryKind.JOB, "job")) {
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

  /** Takes grades of pictures; one that is on record with the same picture is a repeat. */
  private FileOutcome takeGrades(List<GradedFace> grades, EntryLog.Appender appender)
      throws SQLException {
    String intake = log.newId();
    String now = log.now();
    long entered = 0;
    for (GradedFace grade : grades) {
      String content = codec.encode(new GradeRow(grade));
      byte[] digest = Entry.digest(EntryKind.GRADE.word(), content);
      if (!contents.add(Key.of(digest))) {
        continue;
      }
      entered++;
      appender.append(
          log.newId(),
          EntryKind.GRADE,
          "",
          content,
          digest,
          intake,
          grade.listed().picture(),
          0,
          now,
          0,
          "");
    }
    return new FileOutcome(
        "pictures of faces", grades.size(), entered, 0, grades.size() - entered, 0);
  }

  /**
   * Takes one table.
   *
   * @param moreToCome whether another table of its kind follows, which may repeat its rows. Within
   *     one table, rows of readings and faces that are alike are so many attempts
   */
  private FileOutcome takeTable(
      TableFile table, boolean moreToCome, JobAssembler assembler, EntryLog.Appender appender)
      throws SQLException {
    int problemsBefore = problems.size();
    problems.addAll(table.problems());
    notes.addAll(JobFolder.notes(table));
    EntryKind kind = EntryKind.of(table.kind());
    String intake = log.newId();
    String now = log.now();
    long entered = 0;
    long superseding = 0;
    long repeated = 0;
    Map<String, Named> namedNow = new HashMap<>();
    List<Key> contentsNow = new ArrayList<>();
    if (supersede.isPresent()) {
      makeWayForCorrectedMethods(table, assembler);
    }
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
      if (same && !confirms(kind, key)) {
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
        assembler.correct(row);
      }
      if (moreToCome && key.isEmpty()) {
        contentsNow.add(Key.of(digest));
      }
      if (!key.isEmpty()) {
        namedNow.put(kind.word() + "\n" + key, new Named(seq, content));
      }
      if (++stored % 1000 == 0) {
        progress.accept(stored);
      }
    }
    named.putAll(namedNow);
    contents.addAll(contentsNow);
    List<Problem> own = List.copyOf(problems.subList(problemsBefore, problems.size()));
    // A file of which no row could be used leaves its problems in the history all the same.
    if (entered + superseding > 0 || !own.equals(open.problems(table.name()))) {
      open.note(table.name(), own);
      String summary = summary(table, by, entered, superseding, repeated, own);
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

  /** Whether the same once more settles which of two crews was right. */
  private boolean confirms(EntryKind kind, String name) {
    return supersede.isPresent() && !name.isEmpty() && open.isOpen(kind, name);
  }

  /**
   * One zero has one method, so a row with another is refused; but a table that corrects every row
   * of a zero, all to one other method, may.
   */
  private void makeWayForCorrectedMethods(TableFile table, JobAssembler assembler) {
    Map<String, Set<Method>> methods = new HashMap<>();
    Map<String, Integer> corrected = new HashMap<>();
    for (TableRow row : table.rows()) {
      if (row instanceof ReferenceRow reference) {
        methods
            .computeIfAbsent(reference.reference(), k -> EnumSet.noneOf(Method.class))
            .add(reference.method());
        if (named.containsKey(EntryKind.REFERENCE.word() + "\n" + row.key())) {
          corrected.merge(reference.reference(), 1, Integer::sum);
        }
      }
    }
    methods.forEach(
        (id, now) -> {
          if (now.size() == 1 && corrected.getOrDefault(id, 0) == assembler.levels(id)) {
            assembler.changeMethod(id, now.iterator().next());
          }
        });
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
      TableFile table,
      String by,
      long entered,
      long superseding,
      long repeated,
      List<Problem> problems) {
    return json(
        json -> {
          json.writeStringField("file", table.name());
          json.writeStringField("sha256", table.sha256());
          if (!by.isEmpty()) {
            json.writeStringField("by", by);
          }
          json.writeNumberField("rows", table.rowCount());
          json.writeNumberField("entered", entered);
          json.writeNumberField("superseding", superseding);
          json.writeNumberField("repeated", repeated);
          json.writeStringField("unknown_columns", String.join(" ", table.unknownColumns()));
          json.writeArrayFieldStart("problems");
          for (Problem problem : problems) {
            json.writeStartObject();
            ProblemJson.write(json, problem);
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
