package ferrule.record;

import java.io.IOException;
import java.io.Writer;

/**
 * What a record holds of its job so that it can be computed anew: the papers, and every entry in
 * its chain of hashes. The record does not know how a job is kept; whoever has it read writes it.
 */
public interface JobLog {

  /** What a record was made from. */
  enum Origin {
    /** A job file: the entries and their times are those of the file. */
    JOB_FILE("job file"),
    /** A job folder: it has no history, and its entries were made with the record. */
    JOB_FOLDER("job folder");

    private final String word;

    Origin(String word) {
      this.word = word;
    }

    /** "job file" or "job folder". */
    public String word() {
      return word;
    }

    /** The origin with this word; that of a folder, which promises less, for any other. */
    public static Origin ofWord(String word) {
      return JOB_FILE.word.equals(word) ? JOB_FILE : JOB_FOLDER;
    }
  }

  /** What the record is made from. */
  Origin origin();

  /** Number of entries, at least 1. */
  long entries();

  /** Hash of the last entry, 64 lower-case hexadecimal digits: it stands for all of them. */
  String head();

  /** Text of job.toml. */
  String paper();

  /** Text of the rulebook that the job is judged by, in the form of a rulebook file. */
  String rulebook();

  /**
   * Writes every entry, superseded ones included, one a line.
   *
   * @param out stays open
   * @throws IOException if it cannot be read or written
   */
  void write(Writer out) throws IOException;
}
