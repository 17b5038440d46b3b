package ferrule.record.data;

import de.siegmar.fastcsv.writer.CsvWriter;
import ferrule.core.trust.Standing;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.util.List;

/**
 * One row for each fibre of which something is otherwise than in the issue before. Comma separated
 * with a header (RFC 4180).
 */
public final class ChangesCsv {

  private ChangesCsv() {}

  /**
   * Writes the table. The writer is flushed and stays open.
   *
   * @throws IOException if {@code out} fails
   */
  public static void write(Writer out, List<Changes.Fibre> fibres) throws IOException {
    try {
      CsvWriter csv = Cells.table(out);
      csv.writeRecord("fibre", "was", "now", "new_readings", "what");
      for (Changes.Fibre fibre : fibres) {
        csv.writeRecord(
            Cells.text(fibre.fibre().toString()),
            fibre.was().map(Standing::word).orElse(""),
            fibre.now().map(Standing::word).orElse(""),
            Integer.toString(fibre.newReadings()),
            Cells.text(String.join("; ", fibre.what())));
      }
      csv.flush();
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    out.flush();
  }
}
