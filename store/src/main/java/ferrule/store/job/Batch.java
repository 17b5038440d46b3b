package ferrule.store.job;

import ferrule.store.intake.JobPaper;
import ferrule.store.intake.TableFile;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What is handed in at once: it goes in whole, in one transaction, or not at all.
 *
 * @param paper a new job.toml, if there is one
 * @param tables tables; zeros are put before readings whatever their order
 * @param notes what was noted while reading them
 */
public record Batch(Optional<JobPaper> paper, List<TableFile> tables, List<String> notes) {

  /** Puts the tables in the order in which they must be put together. */
  public Batch {
    tables = tables.stream().sorted(Comparator.comparing(TableFile::kind)).toList();
    notes = List.copyOf(notes);
  }
}
