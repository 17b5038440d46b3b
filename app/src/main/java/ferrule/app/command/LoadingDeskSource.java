package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.desk.DeskBook;
import ferrule.app.desk.DeskSource;
import ferrule.app.desk.JobFileSource;
import ferrule.core.Problem;
import ferrule.core.trust.Judgement;
import ferrule.store.job.JobFileException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;

/** What the desk shows, on its way; whoever asks it something waits until it is there. */
final class LoadingDeskSource implements DeskSource {

  private final CompletableFuture<DeskSource> loading = new CompletableFuture<>();

  /** Begins to load a job. */
  LoadingDeskSource(Path job) {
    Thread loader =
        new Thread(
            () -> {
              try {
                loading.complete(open(job));
              } catch (BadInputException | RuntimeException | Error e) {
                loading.completeExceptionally(e);
              }
            },
            "desk-load");
    loader.setDaemon(true);
    loader.start();
  }

  private static DeskSource open(Path job) throws BadInputException {
    if (Files.isDirectory(job)) {
      return new JobFolderSource(job);
    }
    try {
      return JobFileSource.open(job);
    } catch (JobFileException e) {
      throw new BadInputException(e.problem());
    }
  }

  /**
   * Waits until the job is there.
   *
   * @throws BadInputException if it cannot be read
   */
  DeskSource loaded() throws BadInputException {
    try {
      return loading.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof BadInputException bad) {
        throw bad;
      }
      if (e.getCause() instanceof RuntimeException fault) {
        throw fault;
      }
      throw e;
    }
  }

  /** Closes what was opened. */
  void close() {
    if (!loading.isDone() || loading.isCompletedExceptionally()) {
      return;
    }
    if (loading.join() instanceof JobFileSource file) {
      try {
        file.close();
      } catch (JobFileException e) {
        // Everything stored is on the disk; whoever opens the file next finds it.
      }
    }
  }

  @Override
  public Judgement judgement() {
    return loading.join().judgement();
  }

  @Override
  public List<Problem> problems() {
    return loading.join().problems();
  }

  @Override
  public List<String> notes() {
    return loading.join().notes();
  }

  @Override
  public Optional<DeskBook> book() {
    return loading.join().book();
  }

  @Override
  public String jobName() {
    return loading.join().jobName();
  }
}
