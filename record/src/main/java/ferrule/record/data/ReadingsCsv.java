package ferrule.record.data;

import de.siegmar.fastcsv.writer.CsvWriter;
import ferrule.core.allowance.Allowance;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.zero.Reading;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.util.List;
import java.util.Optional;

/**
 * One row for each reading, in the order handed in: replaced attempts and readings of fibres
 * outside the schedule included. Comma separated with a header (RFC 4180); numbers unrounded, with
 * a decimal point; a cell is empty where the number does not exist.
 */
public final class ReadingsCsv {

  private ReadingsCsv() {}

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
    List<FibreJudgement> fibres = judgement.fibres();
    csv.writeRecord(
        "fibre",
        "direction",
        "wavelength_nm",
        "loss_db",
        "limit_db",
        "expected_db",
        "expected_sd_db",
        "uncertainty_db",
        "margin_db",
        "p_conforming",
        "decision",
        "reference",
        "measured_at",
        "operator",
        "power_dbm",
        "length_m",
        "current",
        "in_doubt",
        "scheduled");
    for (AssessedReading assessed : judgement.ledger().readings()) {
      Reading reading = assessed.reading();
      Optional<Allowance> allowance = assessed.allowance();
      boolean scheduled = assessed.slot() >= 0;
      csv.writeRecord(
          Cells.text(reading.fibreId().toString()),
          reading.direction().word(),
          Integer.toString(reading.wavelength().nm()),
          Cells.number(assessed.lossDb()),
          Cells.number(assessed.limitDb()),
          Cells.number(allowance.map(Allowance::expectedDb).orElse(Double.NaN)),
          Cells.number(allowance.map(Allowance::expectedSdDb).orElse(Double.NaN)),
          Cells.number(assessed.expandedDb()),
          Cells.number(assessed.marginDb()),
          Cells.number(assessed.probabilityConforming()),
          assessed.decision().word(),
          Cells.text(reading.reference()),
          reading.measuredAt().toString(),
          Cells.text(reading.operator()),
          Cells.number(reading.powerDbm()),
          Cells.number(reading.lengthM()),
          Boolean.toString(assessed.current()),
          scheduled ? Boolean.toString(fibres.get(assessed.slot()).blocked(assessed)) : "",
          Boolean.toString(scheduled));
    }
    csv.flush();
  }
}
