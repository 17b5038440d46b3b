package ferrule.store.job;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import java.util.Random;

/**
 * A program that takes tables in and prints a line for each thousand rows: to be killed in the
 * middle of it.
 */
public final class TakeIn {

  private TakeIn() {}

  /**
   * Adds a table to a job file, or makes a job file from a folder.
   *
   * @param arguments the job file and the table or folder
   */
  public static void main(String[] arguments) throws JobFileException {
    Path path = Path.of(arguments[0]);
    Path from = Path.of(arguments[1]);
    if (Files.isDirectory(from)) {
      Batch batch = JobFiles.batch(from);
      say("ready");
      JobFile.create(path, batch, Clock.systemUTC(), new Random(), rows -> say("rows " + rows));
    } else {
      Batch batch = JobFiles.tables(from);
      try (JobFile file = JobFile.open(path, Clock.systemUTC(), new Random())) {
        say("ready");
        file.add(batch, Optional.empty(), rows -> say("rows " + rows));
      }
    }
    say("done");
  }

  private static void say(String line) {
    System.out.println(line);
    System.out.flush();
  }
}
