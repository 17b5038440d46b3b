package ferrule.record;

import ferrule.core.Problem;
import ferrule.core.trust.Judgement;
import java.time.Instant;
import java.util.List;

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
 */
public record RecordIssue(
    Judgement judgement,
    List<Problem> problems,
    List<String> notes,
    Instant issuedAt,
    String ferruleVersion,
    FacePictures pictures,
    JobLog log) {

  /** Copies the lists. */
  public RecordIssue {
    problems = List.copyOf(problems);
    notes = List.copyOf(notes);
  }
}
