package ferrule.store.job;

import java.util.List;
import java.util.Map;

/**
 * One entry of a job's history.
 *
 * @param seq its number
 * @param id time-ordered unique id
 * @param kind job, link, instrument, cord, reference, reading, face, grade, part, polarity, intake
 *     or join
 * @param name what it is entered under; empty for readings, faces, grades, intakes and joins
 * @param values what it says, by key, as text; lists left out, but of a join {@code entries} of
 *     both files and the number of {@code conflicts}
 * @param content what it says, JSON
 * @param intake id of the intake that brought it
 * @param file file it came from, as it was named
 * @param row row in that file; 0 if none
 * @param enteredAt UTC, ISO 8601
 * @param enteredBy who handed the file in, as they gave their name; empty if they did not
 * @param supersedes number of the entry it corrects; 0 if none
 * @param why why it corrects it; empty if it corrects none
 * @param changes what a correction changed, each as key, value before, value now
 * @param supersededBy number of the entry that corrects it; 0 if none
 * @param supersededWhy why it was corrected
 */
public record HistoryEntry(
    long seq,
    String id,
    String kind,
    String name,
    Map<String, String> values,
    String content,
    String intake,
    String file,
    long row,
    String enteredAt,
    String enteredBy,
    long supersedes,
    String why,
    List<Change> changes,
    long supersededBy,
    String supersededWhy) {

  /** Copies what it is given. */
  public HistoryEntry {
    values = Map.copyOf(values);
    changes = List.copyOf(changes);
  }

  /** A value that a correction changed. */
  public record Change(String key, String before, String now) {}

  /**
   * A whole log.
   *
   * @param entries number of its entries
   * @param head hash of the last, lower-case hex
   */
  public record Log(long entries, String head) {}
}
