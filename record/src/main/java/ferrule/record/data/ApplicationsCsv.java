package ferrule.record.data;

import de.siegmar.fastcsv.writer.CsvWriter;
import ferrule.core.application.ApplicationCheck;
import ferrule.core.application.Carriage;
import ferrule.core.application.LossSpan;
import ferrule.core.rulebook.Figure;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * One row for each link and application: whether the link carries it, what decides and by how much.
 * Comma separated with a header (RFC 4180); numbers unrounded, with a decimal point.
 */
public final class ApplicationsCsv {

  private ApplicationsCsv() {}

  /**
   * Writes the table. The writer is flushed and stays open.
   *
   * @throws IOException if {@code out} fails
   */
  public static void write(Writer out, List<ApplicationCheck> checks) throws IOException {
    try {
      CsvWriter csv = Cells.table(out);
      csv.writeRecord(
          "link",
          "application",
          "answer",
          "decided_by",
          "room",
          "unit",
          "limit",
          "limit_source",
          "limit_confidence",
          "loss_origin",
          "least_loss_db",
          "most_loss_db",
          "loss_at_nm");
      for (ApplicationCheck check : checks) {
        row(csv, check);
      }
      csv.flush();
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    out.flush();
  }

  /** Room is negative where the limit is broken. */
  private static void row(CsvWriter csv, ApplicationCheck check) {
    Optional<Carriage.Term> term = Optional.empty();
    String room = "";
    String why = "";
    if (check.carriage() instanceof Carriage.Carries yes) {
      term = Optional.of(yes.term());
      room = Cells.number(yes.room());
    } else if (check.carriage() instanceof Carriage.DoesNot no) {
      term = Optional.of(no.term());
      room = Cells.number(-no.by());
    } else if (check.carriage() instanceof Carriage.CannotBeTold open) {
      why = open.why();
    }
    Optional<Figure> figure = term.flatMap(check::figure);
    Optional<LossSpan> loss = check.loss();
    csv.writeRecord(
        Cells.text(check.link().id()),
        Cells.text(check.application().name()),
        check.carriage().word(),
        term.map(Carriage.Term::word).orElse(Cells.text(why)),
        room,
        term.map(Carriage.Term::unit).orElse(""),
        figure.map(f -> Cells.number(f.value())).orElse(""),
        figure.map(f -> Cells.text(f.provenance().line())).orElse(""),
        figure.map(f -> f.provenance().confidence().id()).orElse(""),
        loss.map(l -> l.origin().word()).orElse(""),
        loss.map(l -> Cells.number(l.leastDb())).orElse(""),
        loss.map(l -> Cells.number(l.mostDb())).orElse(""),
        loss.map(l -> l.windowsNm().stream().map(String::valueOf).collect(Collectors.joining(" ")))
            .orElse(""));
  }
}
