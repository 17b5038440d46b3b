package ferrule.store.job;

import ferrule.core.face.GradedFace;
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
 * @param grades grades of pictures that faces.csv lists, here or in the job already
 * @param pictures pictures that those grades name, to be kept
 * @param notes what was noted while reading them
 * @param by who hands it in, as they give their name; empty if they do not
 */
public record Batch(
    Optional<JobPaper> paper,
    List<TableFile> tables,
    List<GradedFace> grades,
    List<KeptPicture> pictures,
    List<String> notes,
    String by) {

  /** Handed in by nobody in particular. */
  public Batch(
      Optional<JobPaper> paper,
      List<TableFile> tables,
      List<GradedFace> grades,
      List<KeptPicture> pictures,
      List<String> notes) {
    this(paper, tables, grades, pictures, notes, "");
  }

  /** Without grades. */
  public Batch(Optional<JobPaper> paper, List<TableFile> tables, List<String> notes) {
    this(paper, tables, List.of(), List.of(), notes);
  }

  /** Puts the tables in the order in which they must be put together. */
  public Batch {
    tables = tables.stream().sorted(Comparator.comparing(TableFile::kind)).toList();
    grades = List.copyOf(grades);
    pictures = List.copyOf(pictures);
    notes = List.copyOf(notes);
  }

  /** The same, handed in by somebody. */
  public Batch by(String name) {
    return new Batch(paper, tables, grades, pictures, notes, name);
  }
}
