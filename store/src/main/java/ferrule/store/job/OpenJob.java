package ferrule.store.job;

import ferrule.core.plant.FibreId;
import ferrule.core.zero.Reading;
import ferrule.store.intake.TableRow;
import ferrule.store.intake.TableRow.ReadingRow;
import ferrule.store.job.TypedEntries.Add;
import ferrule.store.job.TypedEntries.AddLevel;
import ferrule.store.job.TypedEntries.Correct;
import ferrule.store.job.TypedEntries.Item;
import ferrule.store.job.TypedEntries.Withdraw;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.sql.SQLException;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;

/**
 * A job file kept open: follows what others add to it, and takes entries made by hand, each in
 * milliseconds whatever the size of the job. May be asked from several threads.
 */
public final class OpenJob implements AutoCloseable {

  private final Path path;
  private final InstantSource clock;
  private final RandomGenerator random;
  private Open open;

  /** The file as opened, and what was read of it. */
  private record Open(
      JobFile file,
      @Nullable Object identity,
      EntryLog log,
      JobSoFar job,
      ReadingHistory history,
      String first) {}

  private OpenJob(Path path, InstantSource clock, RandomGenerator random) throws JobFileException {
    this.path = path;
    this.clock = clock;
    this.random = random;
    this.open = read(path, clock, random);
  }

  /**
   * Opens a job file and reads all of it.
   *
   * @throws JobFileException if it is not a job file, is damaged, or is of a newer version
   */
  public static OpenJob open(Path path, InstantSource clock, RandomGenerator random)
      throws JobFileException {
    return new OpenJob(path, clock, random);
  }

  private static Open read(Path path, InstantSource clock, RandomGenerator random)
      throws JobFileException {
    JobFile file = JobFile.open(path, clock, random);
    boolean done = false;
    try {
      Open opened =
          file.reading(
              () -> {
                ReadingHistory history = new ReadingHistory();
                JobSoFar job = new JobSoFar(history);
                EntryLog log = file.log();
                String[] first = {""};
                log.readAll(
                    entry -> {
                      if (first[0].isEmpty()) {
                        first[0] = entry.id();
                      }
                      job.visit(entry);
                    });
                return new Open(file, identity(path), log, job, history, first[0]);
              });
      done = true;
      return opened;
    } finally {
      if (!done) {
        file.close();
      }
    }
  }

  /** Tells one file from another that took its name; null where the system cannot. */
  private static @Nullable Object identity(Path path) {
    try {
      return Files.readAttributes(path, BasicFileAttributes.class).fileKey();
    } catch (IOException e) {
      return null;
    }
  }

  /**
   * Reads what others have added since.
   *
   * @return whether there was anything
   * @throws JobFileException if the file cannot be read any more; what was read of it stays
   */
  public synchronized boolean catchUp() throws JobFileException {
    if (!Files.exists(path) || !Objects.equals(identity(path), open.identity())) {
      return readAnew();
    }
    try {
      return open.file()
          .reading(
              () -> {
                long before = open.log().lastSeq();
                if (open.log().count() == before) {
                  return false;
                }
                if (!open.log().stillHolds()) {
                  throw new DamagedEntryException("entry " + before + " with another content");
                }
                open.log().readAll(open.job());
                return true;
              });
    } catch (JobFileException e) {
      // Part of what is new may have been taken in: begin again, or say what is wrong.
      return readAnew();
    }
  }

  private boolean readAnew() throws JobFileException {
    Open again = read(path, clock, random);
    open.file().close();
    open = again;
    return true;
  }

  /** Number of entries read so far: changes with every entry. */
  public synchronized long entries() {
    return open.log().lastSeq();
  }

  /** Tells this job from every other: the id of its first entry. */
  public synchronized String id() {
    return open.first();
  }

  /** The job as it stands after the entries read so far. */
  public synchronized StoredJob stored() {
    return open.job().stored(open.log());
  }

  /** Every reading of a fibre, in the order entered, corrected and withdrawn ones too. */
  public synchronized List<KeptReading> readings(FibreId fibre) {
    return open.history().of(fibre);
  }

  /** Numbers of the entries stored under a key; empty if none is. */
  public synchronized List<Long> under(String key) {
    return open.history().under(key);
  }

  /** The reading that is the entry of this number. */
  public synchronized Optional<KeptReading> reading(long seq) {
    return open.history().find(seq);
  }

  /** The readings typed last, the newest first. */
  public synchronized List<KeptReading> typedLast(int most) {
    List<Long> typed = open.history().typed();
    List<KeptReading> last = new ArrayList<>();
    for (int i = typed.size() - 1; i >= 0 && last.size() < most; i--) {
      open.history().find(typed.get(i)).ifPresent(last::add);
    }
    return last;
  }

  /** Whether a zero of this name is there. */
  public synchronized boolean hasZero(String reference) {
    return open.job().hasZero(reference);
  }

  /**
   * Stores entries made by hand, in one transaction. When this returns {@link Entered.Stored} they
   * are on the disk.
   *
   * @throws JobFileException if nothing could be stored
   */
  public synchronized Entered enter(TypedEntries typed) throws JobFileException {
    catchUp();
    Entered entered =
        open.file()
            .writing(
                () -> {
                  if (open.log().count() != open.log().lastSeq()) {
                    // Another writer came between; now that nobody else can write, read it.
                    open.log().readAll(open.job());
                  }
                  return store(typed);
                });
    try {
      catchUp();
    } catch (JobFileException e) {
      // It is stored all the same; whoever looks next reads on, or is told what is wrong.
    }
    return entered;
  }

  private Entered store(TypedEntries typed) throws SQLException {
    List<Long> before = open.history().under(typed.key());
    if (!before.isEmpty()) {
      return new Entered.Stored(before, true);
    }
    List<KeptReading> there = new ArrayList<>();
    for (Item item : typed.items()) {
      if (item instanceof AddLevel level && hasZero(level.row().reference())) {
        return new Entered.NameTaken(level.row().reference());
      }
      there.addAll(overtaking(item));
    }
    if (!there.isEmpty()) {
      return new Entered.Overtaken(there);
    }
    EntryLog log = open.log().here();
    EntryCodec codec = new EntryCodec();
    String now = log.now();
    List<Long> seqs = new ArrayList<>();
    try (EntryLog.Appender appender = log.new Appender()) {
      for (Item item : typed.items()) {
        EntryKind kind = kind(item);
        String content = content(item, codec);
        seqs.add(
            appender.append(
                log.newId(),
                kind,
                item instanceof AddLevel level ? level.row().key() : "",
                content,
                Entry.digest(kind.word(), content),
                typed.key(),
                TypedEntries.TYPED,
                0,
                now,
                supersedes(item),
                why(item)));
      }
      appender.flush();
    }
    return new Entered.Stored(seqs, false);
  }

  /** What stands where the author of an item thought otherwise. */
  private List<KeptReading> overtaking(Item item) {
    if (item instanceof Add add) {
      List<KeptReading> there = standing(add.reading());
      long last = there.isEmpty() ? 0 : there.get(there.size() - 1).seq();
      return last == add.known() ? List.of() : there;
    }
    if (item instanceof AddLevel) {
      return List.of();
    }
    long wanted = supersedes(item);
    Optional<KeptReading> kept = open.history().find(wanted);
    if (kept.isEmpty()) {
      throw new IllegalArgumentException("No reading is entry " + wanted);
    }
    return kept.get().stands() ? List.of() : kept.stream().toList();
  }

  /** The readings of one case that stand, in the order entered. */
  private List<KeptReading> standing(Reading like) {
    return open.history().of(like.fibreId()).stream()
        .filter(KeptReading::stands)
        .filter(kept -> kept.reading().isOfCase(like.direction(), like.wavelength()))
        .toList();
  }

  private static EntryKind kind(Item item) {
    if (item instanceof Withdraw) {
      return EntryKind.WITHDRAWAL;
    }
    return item instanceof AddLevel ? EntryKind.REFERENCE : EntryKind.READING;
  }

  private String content(Item item, EntryCodec codec) {
    if (item instanceof Withdraw withdraw) {
      return EntryCodec.withdrawal(open.history().find(withdraw.seq()).orElseThrow().reading());
    }
    TableRow row =
        item instanceof AddLevel level
            ? level.row()
            : new ReadingRow(item instanceof Add add ? add.reading() : ((Correct) item).reading());
    return codec.encode(row);
  }

  private static long supersedes(Item item) {
    if (item instanceof Correct correct) {
      return correct.seq();
    }
    return item instanceof Withdraw withdraw ? withdraw.seq() : 0;
  }

  private static String why(Item item) {
    if (item instanceof Add add) {
      return add.why();
    }
    if (item instanceof Correct correct) {
      return correct.why();
    }
    return item instanceof Withdraw withdraw ? withdraw.why() : "";
  }

  @Override
  public synchronized void close() throws JobFileException {
    open.file().close();
  }
}
