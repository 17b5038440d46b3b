package ferrule.app;

import ferrule.app.face.FaceTakeIn;
import ferrule.core.Problem;
import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import ferrule.store.intake.Sha256;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import ferrule.store.job.KeptPicture;
import ferrule.store.job.StoredJob;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.LongConsumer;

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
    JobFolder folder = JobFolder.read(path, Purpose.JUDGE);
    if (!folder.whole() || folder.paper().isEmpty()) {
      throw new BadInputException(folder.problems());
    }
    FaceTakeIn faces = faces(folder, path, done -> {});
    JobFolder.Assembled assembled = withProblemsOf(faces, folder).assemble(faces.grades());
    Map<String, KeptPicture> pictures = new HashMap<>();
    faces.pictures().forEach(picture -> pictures.put(picture.sha256(), picture));
    return new LoadedJob(
        path.toString(),
        assembled.job().orElseThrow(),
        assembled.problems(),
        assembled.notes(),
        true,
        sha256 -> bytes(pictures, sha256));
  }

  /**
   * Grades the pictures that a folder's table of faces lists.
   *
   * @param folder as read
   * @param path where it lies
   * @param progress told how many pictures are graded
   * @throws IllegalArgumentException if the folder is not whole
   */
  public static FaceTakeIn faces(JobFolder folder, Path path, LongConsumer progress) {
    Requirement requirement =
        folder.paper().orElseThrow(IllegalArgumentException::new).requirement();
    List<FaceTakeIn.Source> sources =
        folder.tables().stream().map(table -> new FaceTakeIn.Source(table, path)).toList();
    Job empty =
        new Job(requirement, List.of(), List.of(), List.of(), List.of(), List.of(), List.of());
    return FaceTakeIn.grade(sources, empty, progress);
  }

  private static JobFolder withProblemsOf(FaceTakeIn faces, JobFolder folder) {
    if (faces.tables().equals(folder.tables())) {
      return folder;
    }
    Set<Problem> problems = new LinkedHashSet<>(folder.problems());
    faces.tables().forEach(table -> problems.addAll(table.problems()));
    return new JobFolder(
        folder.paper(), faces.tables(), List.copyOf(problems), folder.fileNotes(), folder.whole());
  }

  private static LoadedJob fromFile(Path path) throws BadInputException {
    try (JobFile file = open(path)) {
      return loaded(path, file.load());
    } catch (JobFileException e) {
      throw new BadInputException(e.problem());
    }
  }

  /** A job that was read from its file. */
  public static LoadedJob loaded(Path path, StoredJob stored) {
    return new LoadedJob(
        path.toString(),
        stored.job(),
        stored.problems(),
        stored.notes(),
        false,
        sha256 -> bytes(path, sha256));
  }

  private static Optional<byte[]> bytes(Map<String, KeptPicture> pictures, String sha256)
      throws IOException {
    KeptPicture picture = pictures.get(sha256);
    if (picture == null) {
      return Optional.empty();
    }
    byte[] bytes = picture.source().read();
    if (!Sha256.of(bytes).equals(sha256)) {
      throw new IOException("another one by now under " + picture.name());
    }
    return Optional.of(bytes);
  }

  private static Optional<byte[]> bytes(Path path, String sha256) throws IOException {
    try (JobFile file = open(path)) {
      return file.picture(sha256);
    } catch (JobFileException e) {
      throw new IOException(e.problem().found(), e);
    }
  }

  /** Opens a job file for adding to it. */
  public static JobFile open(Path path) throws JobFileException {
    return JobFile.open(path, Clock.systemUTC(), new SecureRandom());
  }
}
