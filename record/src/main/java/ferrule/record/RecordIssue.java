package ferrule.record;

import ferrule.core.Problem;
import ferrule.core.trust.Judgement;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * All that a record is made of, but for the key that signs it. Equal issues give the same bytes.
 *
 * @param judgement what was found
 * @param problems what was wrong with the input
 * @param notes what else a reader of the input must know, each a sentence
 * @param issuedAt time of issue
 * @param ferruleVersion version of the program
 * @param pictures gives the pictures that the job's grades name; those that it does not have are
 *     left out
 * @param log the job's entries and papers
 * @param earlier the issue that this one follows; empty if it is the first
 */
public record RecordIssue(
    Judgement judgement,
    List<Problem> problems,
    List<String> notes,
    Instant issuedAt,
    String ferruleVersion,
    FacePictures pictures,
    JobLog log,
    Optional<Earlier> earlier) {

  /**
   * An earlier issue of the record of the same job.
   *
   * @param issue its number, from 1
   * @param issuedAt its time of issue
   * @param entries how many entries the job had: they are the first of this one's
   * @param head hash of the last of them
   * @param judgement what was found from them, judged anew
   */
  public record Earlier(
      long issue, Instant issuedAt, long entries, String head, Judgement judgement) {}

  /** Copies the lists. */
  public RecordIssue {
    problems = List.copyOf(problems);
    notes = List.copyOf(notes);
  }
}
