package ferrule.app.desk;

import ferrule.core.Problem;
import ferrule.core.job.Job;
import ferrule.core.plant.FibreId;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.store.job.Entered;
import ferrule.store.job.JobFileException;
import ferrule.store.job.KeptReading;
import ferrule.store.job.OpenJob;
import ferrule.store.job.StoredJob;
import ferrule.store.job.TypedEntries;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;

/**
 * Gives the desk a job file: every entry at once, and a judgement that is made anew in the
 * background whenever something was added, here or by another program. Who asks for the judgement
 * waits a moment for the new one and else gets the last. If the file cannot be read any more, what
 * was read of it stays and the problem is shown with it.
 */
public final class JobFileSource implements DeskSource, DeskBook, AutoCloseable {

  /** How long a page waits for a judgement that knows every entry. */
  private static final Duration PATIENCE = Duration.ofMillis(400);

  private record Judged(StoredJob stored, Judgement judgement) {}

  private final Path path;
  private final OpenJob open;
  private final ExecutorService judging;

  /** Guards what follows; waited on for a new judgement. */
  private final Object turn = new Object();

  private StoredJob stored;
  private Judged judged;
  private boolean underWay;
  private Optional<Problem> trouble = Optional.empty();

  private JobFileSource(Path path) throws JobFileException {
    this.path = path;
    this.open = OpenJob.open(path, Clock.systemUTC(), new SecureRandom());
    this.judging =
        Executors.newSingleThreadExecutor(
            work -> {
              Thread thread = new Thread(work, "desk-judge");
              thread.setDaemon(true);
              return thread;
            });
    this.stored = open.stored();
    this.judged = new Judged(stored, Judge.judge(stored.job()));
  }

  /**
   * Opens a job file and judges it.
   *
   * @throws JobFileException if it cannot be read
   */
  public static JobFileSource open(Path path) throws JobFileException {
    return new JobFileSource(path);
  }

  /** Takes in what was added, and has it judged. */
  private StoredJob now() {
    Optional<Problem> found = Optional.empty();
    try {
      open.catchUp();
    } catch (JobFileException e) {
      found = Optional.of(e.problem());
    }
    synchronized (turn) {
      trouble = found;
      if (open.entries() != stored.entries()) {
        stored = open.stored();
      }
      judgeIfNeeded();
      return stored;
    }
  }

  private void judgeIfNeeded() {
    if (!underWay && !judged.stored().head().equals(stored.head())) {
      underWay = true;
      StoredJob next = stored;
      judging.execute(() -> judge(next));
    }
  }

  private void judge(StoredJob next) {
    Judgement judgement = null;
    try {
      judgement = Judge.judge(next.job());
    } finally {
      synchronized (turn) {
        underWay = false;
        if (judgement != null) {
          judged = new Judged(next, judgement);
          judgeIfNeeded();
        }
        turn.notifyAll();
      }
    }
  }

  private Judged fresh() {
    StoredJob wanted = now();
    long until = System.nanoTime() + PATIENCE.toNanos();
    synchronized (turn) {
      while (underWay && judged.stored().entries() < wanted.entries()) {
        long left = until - System.nanoTime();
        if (left <= 0) {
          break;
        }
        try {
          TimeUnit.NANOSECONDS.timedWait(turn, left);
        } catch (InterruptedException e) {
          Thread.currentThread().interrupt();
          break;
        }
      }
      return judged;
    }
  }

  @Override
  public Judgement judgement() {
    return fresh().judgement();
  }

  @Override
  public List<Problem> problems() {
    StoredJob known = now();
    synchronized (turn) {
      List<Problem> problems = new ArrayList<>();
      trouble.ifPresent(problems::add);
      problems.addAll(known.problems());
      return problems;
    }
  }

  @Override
  public List<String> notes() {
    return now().notes();
  }

  @Override
  public String jobName() {
    Path name = path.getFileName();
    return name == null ? path.toString() : name.toString();
  }

  @Override
  public Optional<DeskBook> book() {
    return Optional.of(this);
  }

  @Override
  public String id() {
    return open.id();
  }

  @Override
  public long entries() {
    return now().entries();
  }

  @Override
  public long judged() {
    synchronized (turn) {
      return judged.stored().entries();
    }
  }

  @Override
  public Job job() {
    return now().job();
  }

  @Override
  public List<KeptReading> readings(FibreId fibre) {
    now();
    return open.readings(fibre);
  }

  @Override
  public Optional<KeptReading> reading(long seq) {
    now();
    return open.reading(seq);
  }

  @Override
  public List<KeptReading> typedLast(int most) {
    now();
    return open.typedLast(most);
  }

  @Override
  public List<Long> under(String key) {
    now();
    return open.under(key);
  }

  @Override
  public Entered enter(TypedEntries typed) throws JobFileException {
    Entered entered = open.enter(typed);
    now();
    return entered;
  }

  /** Closes the file, so that all of it stands under its one name and can be copied. */
  @Override
  public void close() throws JobFileException {
    judging.shutdownNow();
    open.close();
  }
}
