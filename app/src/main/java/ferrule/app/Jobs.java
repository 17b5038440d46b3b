package ferrule.app;

import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import ferrule.store.job.StoredJob;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;

/** Reads jobs, from job files and from job folders. */
public final class Jobs {

  private Jobs() {}

  /**
   * Reads a job.
   *
   * @param path a job file or a job folder
   * @throws BadInputException if it cannot be used at all
   */
  public static LoadedJob load(Path path) throws BadInputException {
    return Files.isDirectory(path) ? fromFolder(path) : fromFile(path);
  }

  private static LoadedJob fromFolder(Path path) throws BadInputException {
    JobFolder.Assembled assembled = JobFolder.read(path, Purpose.JUDGE).assemble();
    if (assembled.job().isEmpty()) {
      throw new BadInputException(assembled.problems());
    }
    return new LoadedJob(
        path.toString(), assembled.job().get(), assembled.problems(), assembled.notes(), true);
  }

  private static LoadedJob fromFile(Path path) throws BadInputException {
    try (JobFile file = open(path)) {
      StoredJob stored = file.load();
      return new LoadedJob(path.toString(), stored.job(), stored.problems(), stored.notes(), false);
    } catch (JobFileException e) {
      throw new BadInputException(e.problem());
    }
  }

  /** Opens a job file for adding to it. */
  public static JobFile open(Path path) throws JobFileException {
    return JobFile.open(path, Clock.systemUTC(), new SecureRandom());
  }
}
