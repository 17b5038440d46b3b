package ferrule.app.audit;

import ferrule.app.BadInputException;
import ferrule.core.Problem;
import ferrule.core.trust.Judge;
import ferrule.record.About;
import ferrule.record.JobLog;
import ferrule.record.RecordFiles;
import ferrule.record.RecordIssue;
import ferrule.store.job.JobFileException;
import ferrule.store.job.OpenLog;
import ferrule.store.job.WrittenJob;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;

/**
 * The issue of a record that another one follows. Its entries are the first ones of the job, so
 * that what was found then can be found anew from the job alone.
 */
public final class EarlierIssue {

  private EarlierIssue() {}

  /**
   * The issue in a record that is to be followed.
   *
   * @param record folder of the earlier issue
   * @param log entries of the job now
   * @throws BadInputException if it is no record, or not one of this job
   * @throws IOException if there is no room for what is needed meanwhile
   */
  public static RecordIssue.Earlier in(Path record, JobLog log)
      throws BadInputException, IOException {
    Path file = record.resolve(RecordFiles.ABOUT);
    Optional<About> about = About.in(record);
    if (about.isEmpty() || about.get().format() > About.FORMAT) {
      throw refused(
          file,
          "what a record says of itself, of format " + About.FORMAT + " or older",
          about.map(a -> "format " + a.format()).orElse("nothing of the kind"),
          "name the folder of the issue before");
    }
    if (log.origin() == JobLog.Origin.JOB_FOLDER) {
      throw refused(
          record,
          "a job file, whose history goes on",
          "a job folder, which has none",
          "make a job file with ferrule new and issue its record");
    }
    Path passing = Files.createTempFile("ferrule-since-", ".jsonl");
    try {
      try (Writer out = Files.newBufferedWriter(passing, StandardCharsets.UTF_8)) {
        log.write(out);
      }
      RecordIssue.Earlier earlier =
          of(passing, about.get().issue(), about.get().issuedAt(), about.get().entries());
      if (earlier.entries() != about.get().entries()
          || !earlier.head().equals(about.get().head())) {
        throw refused(
            record,
            "a record whose entries are the first ones of this job",
            "entries of another job, or others than these",
            "name an issue of this very job file");
      }
      return earlier;
    } finally {
      Files.delete(passing);
    }
  }

  /**
   * What was found from the first entries of a job.
   *
   * @param entries their open text
   * @param issue number of that issue
   * @param issuedAt its time
   * @param most how many entries it had
   * @throws IOException if they cannot be read
   */
  static RecordIssue.Earlier of(Path entries, long issue, Instant issuedAt, long most)
      throws IOException {
    try (BufferedReader in = Files.newBufferedReader(entries, StandardCharsets.UTF_8)) {
      WrittenJob job = OpenLog.read(RecordFiles.ENTRIES, in, Math.max(1, most));
      return new RecordIssue.Earlier(
          issue,
          issuedAt,
          job.stored().entries(),
          job.stored().head(),
          Judge.judge(job.stored().job()));
    } catch (JobFileException e) {
      throw new IOException(e.problem().line(), e);
    }
  }

  private static BadInputException refused(
      Path file, String expected, String found, String action) {
    return new BadInputException(new Problem(file.toString(), 0, "", expected, found, action));
  }
}
