package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A large file read in parts says the same as the same file read in one piece. */
class CsvPartsTest {

  private static final String HEADER =
      "link,fibre,direction,wavelength_nm,power_dbm,loss_db,reference,measured_at,operator";
  private static final int ROWS = 60_000;

  private final Path file;

  CsvPartsTest(@TempDir Path temp) {
    this.file = temp.resolve("readings.csv");
  }

  private static String row(int i) {
    if (i % 7_001 == 7_000) {
      return "L" + i + ",1,A-B,1310,-6.06,0,33,R0,2026-01-05T08:05:00+00:00,Wren";
    }
    return "L"
        + i / 4
        + ","
        + (i % 4 + 1)
        + (i % 2 == 0 ? ",A-B" : ",B-A")
        + (i % 9_000 == 8_999 ? ",1310 nm" : ",1310")
        + ",-6.06,0.33,R0,2026-01-05T08:05:0"
        + i / 3 % 10
        + "+00:00,Wrén";
  }

  private void write(String lineEnd, String... more) throws IOException {
    StringBuilder text = new StringBuilder(HEADER).append(lineEnd);
    IntStream.range(0, ROWS).forEach(i -> text.append(row(i)).append(lineEnd));
    for (String line : more) {
      text.append(line).append(lineEnd);
    }
    Files.writeString(file, text);
  }

  private Optional<TableFile> inParts() throws IOException {
    byte[] head = Arrays.copyOf(Files.readAllBytes(file), 1 << 16);
    return CsvParts.read(file, "readings.csv", Optional.of(TableKind.READINGS), head, ',', 4);
  }

  private TableReader.Outcome read(Purpose purpose) {
    return TableReader.read(file, "readings.csv", Optional.of(TableKind.READINGS), purpose);
  }

  private static List<Integer> rowNumbers(TableFile table) {
    return IntStream.range(0, table.rows().size())
        .mapToObj(i -> table.rowNumbers().get(i))
        .toList();
  }

  private void assertSameAsOnePiece(TableFile parts) {
    TableFile whole = read(Purpose.STORE).tables().get(0);
    assertThat(parts.rowCount()).isEqualTo(whole.rowCount()).isEqualTo(ROWS);
    assertThat(parts.problems()).isEqualTo(whole.problems()).hasSizeGreaterThan(10);
    assertThat(parts.rows().equals(whole.rows())).as("the same rows").isTrue();
    assertThat(rowNumbers(parts).equals(rowNumbers(whole))).as("the same row numbers").isTrue();
  }

  @ParameterizedTest
  @ValueSource(strings = {"\n", "\r\n"})
  void rowsNumbersAndProblemsAreThoseOfOnePiece(String lineEnd) throws IOException {
    write(lineEnd);
    assertSameAsOnePiece(inParts().orElseThrow());
  }

  @Test
  void blankLinesAreCountedAsLinesAndNotAsRows() throws IOException {
    write("\n\n");
    assertSameAsOnePiece(inParts().orElseThrow());
  }

  @Test
  void aQuoteAnywhereMakesItOnePiece() throws IOException {
    write("\n", "\"L1\",1,A-B,1550,-6,0.2,R0,2026-01-05T08:05:00+00:00,\"Wren,\nor Finch\"");
    assertThat(inParts()).isEmpty();
    TableReader.Outcome outcome = read(Purpose.JUDGE);
    assertThat(outcome.problems()).isEmpty();
    assertThat(outcome.tables().get(0).rowCount()).isEqualTo(ROWS + 1);
  }

  @Test
  void aBareReturnMakesItOnePiece() throws IOException {
    write("\r");
    assertThat(inParts()).isEmpty();
  }

  @Test
  void wrongEncodingInTheLastPartIsSaidWithItsRow() throws IOException {
    write("\n");
    byte[] bytes = Files.readAllBytes(file);
    byte[] accent = "é".getBytes(StandardCharsets.UTF_8);
    for (int i = bytes.length - 1; i > 0; i--) {
      if (bytes[i] == accent[1] && bytes[i - 1] == accent[0]) {
        bytes[i] = 'x';
        break;
      }
    }
    Files.write(file, bytes);
    assertThat(inParts()).isEmpty();
    assertThat(read(Purpose.JUDGE).problems())
        .singleElement()
        .extracting(Problem::row)
        .isEqualTo(ROWS + 1L);
  }
}
