package ferrule.record.data;

import de.siegmar.fastcsv.writer.CsvWriter;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.util.LinkedHashSet;
import java.util.Set;

/**
 * One row for each scheduled fibre: where it runs, where it stands and why. Comma separated with a
 * header (RFC 4180); numbers unrounded, with a decimal point.
 */
public final class FibresCsv {

  private FibresCsv() {}

  /**
   * Writes the table. The writer is flushed and stays open.
   *
   * @throws IOException if {@code out} fails
   */
  public static void write(Writer out, Judgement judgement) throws IOException {
    try {
      rows(Cells.table(out), judgement);
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    out.flush();
  }

  private static void rows(CsvWriter csv, Judgement judgement) throws IOException {
    csv.writeRecord(
        "fibre",
        "standing",
        "reasons",
        "readings",
        "least_margin_db",
        "doubts",
        "link",
        "number",
        "fibre_category",
        "length_m",
        "a_place",
        "a_port",
        "a_connector",
        "b_place",
        "b_port",
        "b_connector");
    for (FibreJudgement fibre : judgement.fibres()) {
      Link link = fibre.link();
      int readings = 0;
      double least = Double.NaN;
      for (AssessedReading reading : fibre.readings()) {
        if (reading.current()) {
          readings++;
          least = Double.isNaN(least) ? reading.marginDb() : lesser(least, reading.marginDb());
        }
      }
      csv.writeRecord(
          Cells.text(fibre.fibre().toString()),
          fibre.standing().word(),
          Cells.text(String.join("; ", fibre.reasons())),
          Integer.toString(readings),
          Cells.number(least),
          String.join(" ", kinds(fibre)),
          Cells.text(link.id()),
          Integer.toString(fibre.fibre().fibre()),
          link.category().label(),
          Cells.number(link.lengthM()),
          Cells.text(link.a().place()),
          Cells.text(link.a().port()),
          Cells.text(link.a().connector().toString()),
          Cells.text(link.b().place()),
          Cells.text(link.b().port()),
          Cells.text(link.b().connector().toString()));
    }
    csv.flush();
  }

  /** The lesser of a number and one that may not exist. */
  private static double lesser(double known, double other) {
    return Double.isNaN(other) ? known : Math.min(known, other);
  }

  private static Set<String> kinds(FibreJudgement fibre) {
    Set<String> kinds = new LinkedHashSet<>();
    for (Doubt doubt : fibre.doubts()) {
      kinds.add(doubt.kind().id());
    }
    return kinds;
  }
}
