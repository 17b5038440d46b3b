package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.desk.DeskSource;
import ferrule.core.Problem;
import ferrule.core.trust.Judgement;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;

/** A {@link JobDeskSource} on its way; whoever asks it something waits until it is there. */
final class LoadingDeskSource implements DeskSource {

  private final CompletableFuture<JobDeskSource> loading = new CompletableFuture<>();

  /** Begins to load a job. */
  LoadingDeskSource(Path job) {
    Thread loader =
        new Thread(
            () -> {
              try {
                loading.complete(new JobDeskSource(job));
              } catch (BadInputException | RuntimeException | Error e) {
                loading.completeExceptionally(e);
              }
            },
            "desk-load");
    loader.setDaemon(true);
    loader.start();
  }

  /**
   * Waits until the job is there.
   *
   * @throws BadInputException if it cannot be read
   */
  JobDeskSource loaded() throws BadInputException {
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
  public String jobName() {
    return loading.join().jobName();
  }
}
