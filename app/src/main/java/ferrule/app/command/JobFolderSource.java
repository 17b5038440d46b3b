package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.Jobs;
import ferrule.app.LoadedJob;
import ferrule.app.desk.DeskSource;
import ferrule.core.Problem;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * Gives the desk a job folder and its judgement, made anew when the folder has changed. If the
 * changed input cannot be read, the last good judgement stays and the problem is shown with it.
 * Nothing can be entered: a folder of tables has no history.
 */
final class JobFolderSource implements DeskSource {

  private record State(String stamp, LoadedJob job, Judgement judgement, List<Problem> problems) {}

  private final Path path;
  private volatile State state;

  JobFolderSource(Path path) throws BadInputException {
    this.path = path;
    String stamp = stamp();
    LoadedJob loaded = Jobs.load(path);
    this.state = new State(stamp, loaded, Judge.judge(loaded.job()), loaded.problems());
  }

  private State state() {
    State now = state;
    String stamp = stamp();
    if (stamp.equals(now.stamp())) {
      return now;
    }
    synchronized (this) {
      if (!stamp.equals(state.stamp())) {
        state = again(stamp, state);
      }
      return state;
    }
  }

  private State again(String stamp, State last) {
    try {
      LoadedJob loaded = Jobs.load(path);
      return new State(stamp, loaded, Judge.judge(loaded.job()), loaded.problems());
    } catch (BadInputException e) {
      List<Problem> problems = new ArrayList<>(e.problems());
      problems.addAll(last.job().problems());
      return new State(stamp, last.job(), last.judgement(), problems);
    }
  }

  /** Changes when the input does: times and sizes of the folder's files. */
  private String stamp() {
    StringBuilder stamp = new StringBuilder();
    try {
      List<Path> files;
      try (Stream<Path> list = Files.list(path)) {
        files = list.filter(Files::isRegularFile).sorted().toList();
      }
      for (Path file : files) {
        if (Files.exists(file)) {
          FileTime time = Files.getLastModifiedTime(file);
          stamp
              .append(file)
              .append(time.toMillis())
              .append(':')
              .append(Files.size(file))
              .append(' ');
        }
      }
    } catch (IOException e) {
      stamp.append("unreadable");
    }
    return stamp.toString();
  }

  @Override
  public Judgement judgement() {
    return state().judgement();
  }

  @Override
  public List<Problem> problems() {
    return state().problems();
  }

  @Override
  public List<String> notes() {
    return state().job().notes();
  }

  @Override
  public String jobName() {
    Path name = path.getFileName();
    return name == null ? path.toString() : name.toString();
  }
}
