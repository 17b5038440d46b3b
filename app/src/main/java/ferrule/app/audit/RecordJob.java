package ferrule.app.audit;

import ferrule.app.BadInputException;
import ferrule.app.Jobs;
import ferrule.app.LoadedJob;
import ferrule.app.face.FaceTakeIn;
import ferrule.core.Problem;
import ferrule.record.JobLog;
import ferrule.record.Scratch;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import ferrule.store.job.AddOutcome;
import ferrule.store.job.Batch;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import ferrule.store.job.WrittenJob;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Random;
import java.util.Set;

/**
 * A job as a record needs it: read, and with its entries at hand. Of a job folder a job file is
 * made for as long as the record is being written, so that every record holds entries in a chain.
 */
public final class RecordJob implements AutoCloseable {

  private final LoadedJob loaded;
  private final JobLog log;
  private final Optional<Path> passing;

  private RecordJob(LoadedJob loaded, JobLog log, Optional<Path> passing) {
    this.loaded = loaded;
    this.log = log;
    this.passing = passing;
  }

  /**
   * Reads a job.
   *
   * @param path a job file or a job folder
   * @param issuedAt when the record is issued: the entries of a folder are of that time
   * @throws BadInputException if it cannot be used at all
   * @throws IOException if there is no room for what is needed meanwhile
   */
  public static RecordJob of(Path path, Instant issuedAt) throws BadInputException, IOException {
    try {
      return Files.isDirectory(path) ? ofFolder(path, issuedAt) : ofFile(path);
    } catch (JobFileException e) {
      throw new BadInputException(e.problem());
    }
  }

  private static RecordJob ofFile(Path path) throws JobFileException {
    WrittenJob job = open(path);
    return new RecordJob(
        Jobs.loaded(path, job.stored()),
        new WrittenLog(job, JobLog.Origin.JOB_FILE, out -> writeEntries(path, job, out)),
        Optional.empty());
  }

  private static WrittenJob open(Path path) throws JobFileException {
    try (JobFile file = Jobs.open(path)) {
      return file.loadWritten();
    }
  }

  private static RecordJob ofFolder(Path path, Instant issuedAt)
      throws BadInputException, JobFileException, IOException {
    JobFolder folder = JobFolder.read(path, Purpose.STORE);
    if (!folder.whole() || folder.paper().isEmpty()) {
      throw new BadInputException(folder.problems());
    }
    FaceTakeIn faces = Jobs.faces(folder, path, done -> {});
    Path passing = Files.createTempDirectory("ferrule-record-");
    boolean made = false;
    try {
      Path file = passing.resolve("job.ferrule");
      AddOutcome outcome =
          JobFile.create(
              file,
              new Batch(
                  folder.paper(),
                  faces.tables(),
                  faces.grades(),
                  faces.pictures(),
                  folder.fileNotes()),
              Clock.fixed(issuedAt, ZoneOffset.UTC),
              new Random(issuedAt.getEpochSecond()), // the same folder and time: the same entries
              rows -> {});
      WrittenJob job = open(file);
      LoadedJob stored = Jobs.loaded(file, job.stored());
      Set<String> notes = new LinkedHashSet<>(outcome.notes());
      notes.addAll(stored.notes());
      Set<Problem> problems = new LinkedHashSet<>(stored.problems());
      problems.addAll(outcome.problems());
      LoadedJob loaded =
          new LoadedJob(
              path.toString(),
              stored.job(),
              new ArrayList<>(problems),
              new ArrayList<>(notes),
              true,
              stored.pictures());
      made = true;
      return new RecordJob(
          loaded,
          new WrittenLog(job, JobLog.Origin.JOB_FOLDER, out -> writeEntries(file, job, out)),
          Optional.of(passing));
    } finally {
      if (!made) {
        Scratch.discard(passing);
      }
    }
  }

  /** The job. */
  public LoadedJob loaded() {
    return loaded;
  }

  /** Its entries and papers. */
  public JobLog log() {
    return log;
  }

  /** Takes away what was only needed for the record. */
  @Override
  public void close() throws IOException {
    if (passing.isPresent()) {
      Scratch.discard(passing.get());
    }
  }

  /** The entries of a job file up to the one that was the last when it was read. */
  private static void writeEntries(Path file, WrittenJob job, Writer out) throws IOException {
    try (JobFile open = Jobs.open(file)) {
      open.writeEntries(out, job.stored().entries());
    } catch (JobFileException e) {
      throw new IOException(e.problem().line(), e);
    }
  }
}
