package ferrule.store.job;

import ferrule.core.Problem;
import ferrule.store.intake.JobAssembler;
import ferrule.store.intake.JobPaper;
import ferrule.store.intake.TableRow;
import ferrule.store.intake.TableRow.ReadingRow;
import ferrule.store.intake.TableRow.ReferenceRow;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Puts the entries of a log together, one after another, to the job as it then stands. */
final class JobSoFar implements EntrySource.Visitor {

  /** The entry that now holds a name, and the place of its row. */
  private record Holder(long seq, int place) {}

  private final EntryCodec codec = new EntryCodec();
  private final Map<String, Holder> holders = new HashMap<>();
  private final List<@Nullable TableRow> rows = new ArrayList<>();
  private final OpenMatters open = new OpenMatters();
  private final @Nullable ReadingHistory history;
  private final Set<String> zeros = new HashSet<>();
  private String paper = "";

  /** The entry that made each row, rising; and of rows corrected since, who holds them now. */
  private long[] madeBy = new long[1024];

  private final Map<Long, Integer> placeOfCorrection = new HashMap<>();
  private final Map<Integer, Long> correctionAt = new HashMap<>();

  /** For reading a job once. */
  JobSoFar() {
    this(null);
  }

  /**
   * @param history to be told of every reading, if anyone wants to know
   */
  JobSoFar(@Nullable ReadingHistory history) {
    this.history = history;
  }

  /** Reads a whole log, with the texts of the job's papers. */
  static WrittenJob readWritten(EntrySource log) throws SQLException {
    JobSoFar read = new JobSoFar();
    log.readAll(read);
    return read.written(log);
  }

  /** What the entries read so far leave open. */
  OpenMatters open() {
    return open;
  }

  @Override
  public void visit(Entry entry) {
    open.see(entry);
    EntryKind kind = EntryKind.ofWord(entry.kind());
    switch (kind) {
      case JOB -> {
        place(entry, "job", 0);
        paper = entry.content();
      }
      case INTAKE, JOIN -> place(entry, "", 0);
      case WITHDRAWAL -> withdraw(entry);
      case READING -> reading(entry);
      default -> {
        TableRow row = codec.decode(kind, entry.content());
        put(entry, row, place(entry, row.key(), rows.size()));
        if (row instanceof ReferenceRow reference) {
          zeros.add(reference.reference());
        }
        if (history != null && entry.file().equals(TypedEntries.TYPED)) {
          history.key(entry);
        }
      }
    }
  }

  private void put(Entry entry, TableRow row, int place) {
    if (place < rows.size()) {
      rows.set(place, row);
      return;
    }
    if (place == madeBy.length) {
      madeBy = Arrays.copyOf(madeBy, 2 * place);
    }
    madeBy[place] = entry.seq();
    rows.add(row);
  }

  /** A reading has no name; it may correct an earlier one that nothing has corrected yet. */
  private void reading(Entry entry) {
    if (!(codec.decode(EntryKind.READING, entry.content()) instanceof ReadingRow row)) {
      throw new DamagedEntryException("content that is no reading");
    }
    if (!entry.name().isEmpty()) {
      throw new DamagedEntryException("the name " + entry.name() + " over the content of ");
    }
    int place = rows.size();
    if (entry.supersedes() != 0) {
      place = standing(entry);
      hold(place, entry.seq());
    }
    put(entry, row, place);
    if (history != null) {
      history.entered(entry, row.reading());
    }
  }

  private void withdraw(Entry entry) {
    int place = standing(entry);
    if (rows.get(place) instanceof ReadingRow row
        && EntryCodec.withdrawal(row.reading()).equals(entry.content())
        && entry.name().isEmpty()) {
      rows.set(place, null);
      hold(place, entry.seq());
      if (history != null) {
        history.withdrawn(entry);
      }
      return;
    }
    throw new DamagedEntryException("a withdrawal that is not of the reading it names");
  }

  private void hold(int place, long seq) {
    Long before = correctionAt.put(place, seq);
    if (before != null) {
      placeOfCorrection.remove(before);
    }
    placeOfCorrection.put(seq, place);
  }

  /** The place of the reading that an entry corrects. */
  private int standing(Entry entry) {
    long wanted = entry.supersedes();
    Integer corrected = placeOfCorrection.get(wanted);
    int place = corrected != null ? corrected : Arrays.binarySearch(madeBy, 0, rows.size(), wanted);
    if (place < 0
        || !(rows.get(place) instanceof ReadingRow)
        || correctionAt.getOrDefault(place, wanted) != wanted) {
      throw new DamagedEntryException(
          "a correction of entry " + wanted + ", which does not hold a reading that stands");
    }
    return place;
  }

  /** Whether a zero of this name is there. */
  boolean hasZero(String reference) {
    return zeros.contains(reference);
  }

  /**
   * The job.
   *
   * @param log that it was read from
   * @throws DamagedEntryException without a paper that can be understood
   */
  StoredJob stored(EntrySource log) {
    return written(log).stored();
  }

  private WrittenJob written(EntrySource log) {
    if (paper.isEmpty()) {
      throw new DamagedEntryException("no paper of the job");
    }
    JobPaper.Outcome read = paper(paper);
    JobAssembler assembler = new JobAssembler();
    for (TableRow row : rows) {
      if (row != null) {
        assembler.add(row);
      }
    }
    JobPaper job =
        read.paper()
            .orElseThrow(
                () ->
                    new DamagedEntryException(
                        "a paper that is not understood: " + read.problems()));
    List<Problem> all = new ArrayList<>();
    open.conflicts().forEach(conflict -> all.add(conflict.problem()));
    all.addAll(open.problems());
    return new WrittenJob(
        new StoredJob(
            assembler
                .assemble(job.requirement())
                .with(open.conflicts().stream().flatMap(c -> c.bearing().stream()).toList()),
            all,
            read.notes(),
            log.lastSeq(),
            JobFile.hex(log.lastHash())),
        job.toml(),
        job.rulebookText());
  }

  /**
   * The place of an entry's row. A correction takes the place of what it corrects: the schedule
   * keeps its order.
   *
   * @param name the name that its content gives it
   * @param next the place of a new row
   */
  private int place(Entry entry, String name, int next) {
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
}
