package ferrule.store.job;

import ferrule.core.Problem;
import ferrule.core.job.Job;
import java.util.List;

/**
 * A job as its file now holds it.
 *
 * @param job its contents, corrections applied
 * @param problems what two crews entered differently and nobody has settled, and rows that the
 *     latest intake of each file could not use
 * @param notes what a reader should know
 * @param entries number of entries in the file
 * @param head hash of the last entry, lower-case hex: it stands for the whole history
 */
public record StoredJob(
    Job job, List<Problem> problems, List<String> notes, long entries, String head) {}
