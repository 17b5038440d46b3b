package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import ferrule.store.Children;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files that are too large in one way or another: made when the test runs. */
class CsvBoundsTest {

  private static final String HEADER =
      "link,fibre,direction,wavelength_nm,power_dbm,loss_db,length_m,reference,measured_at,"
          + "operator\n";
  private static final String ROW = "K001,1,A-B,1310,-5.42,,,Z1,2026-10-05T09:02:00Z,";
  private static final String TOO_LONG =
      "readings.csv, row 3: expected a row of at most 1048576 characters; found a longer one; look"
          + " for a missing line end or an unclosed quote";

  private final Path temp;

  CsvBoundsTest(@TempDir Path temp) {
    this.temp = temp;
  }

  private TableReader.Outcome read(String text) throws IOException {
    Path file = temp.resolve("readings.csv");
    Files.writeString(file, text);
    return TableReader.read(file, "readings.csv", Optional.empty(), Purpose.JUDGE);
  }

  @Test
  void aLineOfThreeMillionCharactersIsRefusedByItsRow() throws IOException {
    assertRefused(read(HEADER + ROW + "\n" + "x".repeat(3_000_000) + "\n" + ROW + "\n"), TOO_LONG);
  }

  @Test
  void aRowOfAMillionShortFieldsIsRefusedByItsRow() throws IOException {
    assertRefused(read(HEADER + ROW + "\n" + "a,".repeat(1_000_000) + "\n" + ROW), TOO_LONG);
    assertRefused(read(HEADER + ROW + "\n" + ",".repeat(3_000_000) + "\n" + ROW), TOO_LONG);
  }

  @Test
  void anUnclosedQuoteBeforeMuchTextIsRefusedByItsRow() throws IOException {
    assertRefused(read(HEADER + ROW + "\n" + ROW + "\"" + (ROW + "\n").repeat(60_000)), TOO_LONG);
  }

  @Test
  void aHeaderOfEndlessLengthIsRefused() throws IOException {
    assertRefused(
        read("x".repeat(2_000_000)),
        "readings.csv, row 1: expected a row of at most 1048576 characters; found a longer one;"
            + " look for a missing line end or an unclosed quote");
  }

  private static void assertRefused(TableReader.Outcome outcome, String line) {
    assertThat(outcome.tables()).isEmpty();
    assertThat(outcome.problems()).extracting(Problem::line).containsExactly(line);
  }

  @Test
  void twoGigabytesInOneLineAreRefusedWithAHeapOfTwentyFourMegabytes()
      throws IOException, InterruptedException {
    Path file = temp.resolve("readings.csv");
    byte[] start = (HEADER + ROW + "\n" + "x".repeat(100_000)).getBytes(StandardCharsets.UTF_8);
    try (RandomAccessFile sparse = new RandomAccessFile(file.toFile(), "rw")) {
      sparse.write(start);
      sparse.setLength(2L << 30);
    }
    assertThat(Children.run(ReadTable.class, 24, file.toString())).containsExactly(TOO_LONG);
  }

  @Test
  void aCellOfAMillionCharactersIsOneProblemAndTheOtherRowsAreRead() throws IOException {
    String million = "W".repeat(1_000_000);
    TableReader.Outcome outcome =
        read(HEADER + ROW + "\n" + ROW + million + "\n" + ROW.replace("1310", million) + "\n");
    TableFile table = outcome.tables().get(0);
    assertThat(table.rows()).hasSize(1);
    assertThat(table.problems()).extracting(Problem::row).containsExactly(3L, 4L);
    assertThat(table.problems())
        .extracting(Problem::column)
        .containsExactly("operator", "wavelength_nm");
    assertThat(table.problems()).allMatch(problem -> problem.line().length() < 400);
  }

  @Test
  void aByteThatIsNotUtf8IsFoundByItsRowFarIntoTheFile() throws IOException {
    Path file = temp.resolve("readings.csv");
    byte[] text =
        (HEADER + (ROW + "Wren\n").repeat(9_998) + ROW + "J?rgen\n" + ROW)
            .getBytes(StandardCharsets.UTF_8);
    text[new String(text, StandardCharsets.UTF_8).indexOf('?')] = (byte) 0xFC;
    Files.write(file, text);
    TableReader.Outcome outcome =
        TableReader.read(file, "readings.csv", Optional.empty(), Purpose.STORE);
    assertRefused(
        outcome,
        "readings.csv, row 10000: expected text in UTF-8; found byte 0xFC; save the file as CSV in"
            + " UTF-8 and try again");
  }

  @Test
  void aCharacterCutOffAtTheEndOfTheFileIsRefusedByItsRow() throws IOException {
    Path file = temp.resolve("readings.csv");
    byte[] text = (HEADER + ROW + "Ren\u00e9").getBytes(StandardCharsets.UTF_8);
    Files.write(file, java.util.Arrays.copyOf(text, text.length - 1));
    assertRefused(
        TableReader.read(file, "readings.csv", Optional.empty(), Purpose.JUDGE),
        "readings.csv, row 2: expected text in UTF-8; found byte 0xC3; save the file as CSV in"
            + " UTF-8 and try again");
  }

  @Test
  void aZeroByteFarIntoTheFileSpoilsOnlyItsRow() throws IOException {
    TableReader.Outcome outcome =
        read(HEADER + (ROW + "Wren\n").repeat(5_000) + ROW + "Wr\0en\n" + ROW + "Wren\n");
    TableFile table = outcome.tables().get(0);
    assertThat(table.rows()).hasSize(5_001);
    assertThat(table.problems()).extracting(Problem::row).containsExactly(5_002L);
  }

  @Test
  void aHundredThousandUnknownColumnsAreReportedInAShortNote() throws IOException {
    StringBuilder header = new StringBuilder(HEADER.strip());
    for (int i = 0; i < 100_000; i++) {
      header.append(",x").append(i);
    }
    TableReader.Outcome outcome = read(header + "\n");
    assertThat(JobFolder.notes(outcome.tables().get(0)))
        .singleElement()
        .asString()
        .hasSizeLessThan(200)
        .endsWith("x18, x19 and 99980 more");
  }

  @Test
  void headersThatWouldSpoilATerminalAreShownInOneCleanLine() throws IOException {
    TableReader.Outcome outcome = read(HEADER.replace("fibre", "\"fibre_\nnumber\u001b[2J\""));
    assertRefused(
        outcome,
        "readings.csv, row 1, fibre: expected a column fibre; found unknown columns"
            + " fibre_·number·[2j; rename fibre_·number·[2j");
  }
}
