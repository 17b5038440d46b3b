package ferrule.store.job;

/**
 * A job with the texts of its papers.
 *
 * @param stored the job as it stands
 * @param paper text of job.toml
 * @param rulebook text of the rulebook that the job is judged by, standing alone
 */
public record WrittenJob(StoredJob stored, String paper, String rulebook) {}
