package ferrule.record.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Judgement;
import ferrule.record.Jobs;
import java.io.IOException;
import java.io.StringWriter;
import java.io.Writer;
import java.util.List;
import org.junit.jupiter.api.Test;

class TablesTest {

  private static List<NamedCsvRecord> rows(String text) {
    return CsvReader.builder().ofNamedCsvRecord(text).stream().toList();
  }

  private static String readings(Judgement judgement) throws IOException {
    StringWriter out = new StringWriter();
    ReadingsCsv.write(out, judgement);
    return out.toString();
  }

  private static String fibres(Judgement judgement) throws IOException {
    StringWriter out = new StringWriter();
    FibresCsv.write(out, judgement);
    return out.toString();
  }

  @Test
  void everyReadingHasARowWithItsUnroundedNumbers() throws IOException {
    Judgement judgement = Jobs.mixed();
    List<NamedCsvRecord> rows = rows(readings(judgement));
    List<AssessedReading> readings = judgement.ledger().readings();
    assertThat(rows).hasSameSizeAs(readings);
    for (int i = 0; i < rows.size(); i++) {
      AssessedReading reading = readings.get(i);
      NamedCsvRecord row = rows.get(i);
      assertThat(row.getField("fibre")).isEqualTo(reading.reading().fibreId().toString());
      assertThat(Double.parseDouble(row.getField("loss_db"))).isEqualTo(reading.lossDb());
      assertThat(row.getField("decision")).isEqualTo(reading.decision().word());
      assertThat(row.getField("current")).isEqualTo(Boolean.toString(reading.current()));
    }
    assertThat(readings(judgement)).doesNotContain("NaN").doesNotContain("Infinity");
  }

  @Test
  void everyFibreHasARowWithItsStanding() throws IOException {
    Judgement judgement = Jobs.mixed();
    List<NamedCsvRecord> rows = rows(fibres(judgement));
    assertThat(rows).hasSameSizeAs(judgement.fibres());
    for (int i = 0; i < rows.size(); i++) {
      assertThat(rows.get(i).getField("standing"))
          .isEqualTo(judgement.fibres().get(i).standing().word());
    }
  }

  @Test
  void textThatASpreadsheetWouldRunIsMadeText() throws IOException {
    String place = "=HYPERLINK(\"x\",\"a,b\")";
    NamedCsvRecord row = rows(fibres(Jobs.named("t", "o", place))).get(0);
    assertThat(row.getField("a_place")).isEqualTo("'" + place);
    for (String evil : List.of("+1", "-1", "@x", "\t=1", "\r=1", "＝1")) {
      assertThat(Cells.text(evil)).isEqualTo("'" + evil);
    }
    assertThat(Cells.text("Block A = B")).isEqualTo("Block A = B");
    assertThat(Cells.text("")).isEmpty();
  }

  @Test
  void aNegativeNumberStaysANumber() throws IOException {
    assertThat(rows(readings(Jobs.mixed())).stream())
        .anyMatch(row -> row.getField("margin_db").startsWith("-"));
  }

  @Test
  void aFailingWriterIsReportedAsSuch() {
    Writer broken =
        new Writer() {
          @Override
          public void write(char[] chars, int from, int count) throws IOException {
            throw new IOException("full");
          }

          @Override
          public void flush() {}

          @Override
          public void close() {}
        };
    assertThatThrownBy(() -> ReadingsCsv.write(broken, Jobs.mixed()))
        .isInstanceOf(IOException.class)
        .hasMessage("full");
  }
}
