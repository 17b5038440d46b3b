package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import ferrule.core.isolation.MatedPath;
import ferrule.core.isolation.PathReading;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Tables of mated cord ends, good, damaged and hostile. */
class MatingsTest {

  private static final String GOOD =
      "ends,loss_db,wavelength_nm,sd_db,measured_at\n"
          + "L1/2+R1/1,0.10,1310,0.02,2026-10-05T09:00:00Z\n"
          + "L1/2+X1/1; X1/2+R1/1,0.44,1310,,\n"
          + " l1 / 2 + x 1/1 ,-0.01,,,\n";

  private final Path temp;

  MatingsTest(@TempDir Path temp) {
    this.temp = temp;
  }

  private Matings read(String text) throws IOException {
    Path file = temp.resolve("kit.csv");
    Files.writeString(file, text);
    return Matings.read(file, "kit.csv");
  }

  private static List<String> lines(Matings matings) {
    return matings.problems().stream().map(Problem::line).toList();
  }

  @Test
  void everyColumnArrives() throws IOException {
    Matings matings = read(GOOD);
    assertThat(matings.problems()).isEmpty();
    assertThat(matings.readings())
        .extracting(PathReading::path)
        .extracting(MatedPath::toString)
        .containsExactly("L1/2+R1/1", "L1/2+X1/1; X1/2+R1/1", "l1/2+x 1/1");
    PathReading first = matings.readings().get(0);
    assertThat(first.loss().value()).isEqualTo(0.10);
    assertThat(first.wavelength().orElseThrow().nm()).isEqualTo(1310);
    assertThat(first.sdDb()).hasValue(0.02);
    assertThat(first.measuredAt().orElseThrow()).hasToString("2026-10-05T09:00:00Z");
    PathReading last = matings.readings().get(2);
    assertThat(last.wavelength()).isEmpty();
    assertThat(last.sdDb()).isEmpty();
    assertThat(last.measuredAt()).isEmpty();
  }

  @Test
  void aTableOfTheTwoRequiredColumnsIsEnoughAndSemicolonsSeparateToo() throws IOException {
    Matings matings = read("loss_db;ends\n0,35;\"L1/2+X1/1;X1/2+R1/1\"\n");
    assertThat(lines(matings)).isEmpty();
    assertThat(matings.readings().get(0).loss().value()).isEqualTo(0.35);
    assertThat(matings.readings().get(0).path().matings()).hasSize(2);
  }

  @Test
  void aWorkbookIsEqualToText() throws IOException {
    Path csv = temp.resolve("kit.csv");
    Files.writeString(csv, GOOD);
    Path xlsx = temp.resolve("kit.xlsx");
    Workbooks.typed(xlsx, Map.of("Sheet1", Workbooks.csv(csv)));
    assertThat(Matings.read(xlsx, "kit.xlsx").readings())
        .isEqualTo(Matings.read(csv, "kit.csv").readings())
        .hasSize(3);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          L1/2              | two ends with + between
          L1/2+R1           | two ends with + between
          L1/2+R1/3         | two ends with + between
          L1/2+R1/1+X1/1    | two ends with + between
          L1/2-R1/1         | two ends with + between
          ;                 | two ends with + between
          L1/1+L1/2         | ends of two cords
          L1/2+X1/1;X1/1+R1/1 | each end once
          L1/2+X1/1;Y1/2+R1/1 | matings in the order of the light
          L1/2+X1/1;X1/2+L1/1 | matings in the order of the light
          L1/2+X1/1;X1/2+L1/2 | each end once
          """)
  void endsThatAreNoPathAreOneLine(String ends, String expected) throws IOException {
    Matings matings = read("ends,loss_db\n\"" + ends + "\",0.1\nL1/2+R1/1,0.1\n");
    assertThat(lines(matings)).hasSize(1);
    assertThat(lines(matings).get(0))
        .startsWith("kit.csv, row 2, ends: expected " + expected)
        .contains("; found " + ends + "; ");
    assertThat(matings.readings()).as("the other row stands").hasSize(1);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          ,0.1,,,                  | ends
          L/2+R/1,,,,              | loss_db
          L/2+R/1,0.1 dB,,,        | loss_db
          L/2+R/1,NaN,,,           | loss_db
          L/2+R/1,1e400,,,         | loss_db
          L/2+R/1,101,,,           | loss_db
          L/2+R/1,0.1,1310 nm,,    | wavelength_nm
          L/2+R/1,0.1,13,,         | wavelength_nm
          L/2+R/1,0.1,,0,          | sd_db
          L/2+R/1,0.1,,-0.02,      | sd_db
          L/2+R/1,0.1,,,yesterday  | measured_at
          L/2+R/1,0.1,,,2026-10-05T09:00 | measured_at
          """)
  void aCellThatCannotBeUsedIsOneLineWithItsColumn(String row, String column) throws IOException {
    Matings matings = read("ends,loss_db,wavelength_nm,sd_db,measured_at\n" + row + "\n");
    assertThat(matings.readings()).isEmpty();
    assertThat(lines(matings)).hasSize(1);
    assertThat(lines(matings).get(0)).startsWith("kit.csv, row 2, " + column + ": expected ");
  }

  @Test
  void oneReadingEnteredTwiceIsAProblemButReMatingIsNot() throws IOException {
    String row = "L/2+R/1,0.10,1310,2026-10-05T09:00:00Z\n";
    Matings copied = read("ends,loss_db,wavelength_nm,measured_at\n" + row + row);
    assertThat(copied.readings()).hasSize(1);
    assertThat(lines(copied)).singleElement().asString().contains("row 3").contains("row 2");
    Matings again = read("ends,loss_db\nL/2+R/1,0.10\nL/2+R/1,0.10\n");
    assertThat(again.problems()).isEmpty();
    assertThat(again.readings()).hasSize(2);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "ends\nL/2+R/1\n", "loss_db\n0.1\n", "ends,loss_db\n", "ends,ends,loss_db\n"})
  void aTableWithoutItsColumnsOrRowsIsOneProblem(String text) throws IOException {
    Matings matings = read(text);
    assertThat(matings.readings()).isEmpty();
    assertThat(matings.problems()).hasSize(1);
  }

  @Test
  void filesThatAreNoTablesAreOneProblem() throws IOException {
    assertThat(Matings.read(temp.resolve("none.csv"), "none.csv").problems()).hasSize(1);
    assertThat(Matings.read(temp, "folder.csv").problems()).hasSize(1);
    Path text = temp.resolve("kit.txt");
    Files.writeString(text, GOOD);
    assertThat(lines(Matings.read(text, "kit.txt")))
        .singleElement()
        .asString()
        .contains(".csv or .xlsx");
  }

  @Test
  void tooManyEndsOrReadingsAreOneProblemAndNothingIsSolved() throws IOException {
    StringBuilder ends = new StringBuilder("ends,loss_db\n");
    for (int i = 0; i < 40; i++) {
      ends.append("L").append(i).append("/2+R").append(i).append("/1,0.1\n");
    }
    assertThat(lines(read(ends.toString()))).singleElement().asString().contains("80 ends");
    Matings many = read("ends,loss_db\n" + "L/2+R/1,0.1\n".repeat(1001));
    assertThat(lines(many)).singleElement().asString().contains("1001 readings");
    assertThat(many.readings()).isEmpty();
  }

  @Test
  void aTableOfMatingsIsNoTableOfAJob() throws IOException {
    Path file = temp.resolve("matings.csv");
    Files.writeString(file, GOOD);
    assertThat(TableReader.read(file, "matings.csv", Optional.empty(), Purpose.STORE).tables())
        .isEmpty();
    assertThat(TableKind.ofFileName("matings.csv")).isEmpty();
  }

  @Test
  void spoiltBytesNeverThrowAndEveryRowIsAccountedFor() throws IOException {
    SplittableRandom random = new SplittableRandom(5);
    List<String> junk =
        List.of("\"", ",", ";", "\n", "+", "/", "/2", "\0", "é", "\u202e", "1e9", "+".repeat(300));
    Path file = temp.resolve("kit.csv");
    List<Integer> understood = new ArrayList<>();
    for (int i = 0; i < 500; i++) {
      StringBuilder spoilt = new StringBuilder(GOOD);
      for (int spoils = random.nextInt(1, 4); spoils > 0; spoils--) {
        spoilt.insert(random.nextInt(spoilt.length()), junk.get(random.nextInt(junk.size())));
      }
      byte[] bytes = spoilt.toString().getBytes(StandardCharsets.UTF_8);
      if (random.nextInt(3) == 0) {
        bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
      }
      Files.write(file, bytes);
      Matings matings = Matings.read(file, "kit.csv");
      understood.add(matings.readings().size());
      assertThat(matings.readings().size() + matings.problems().size()).isPositive();
      assertThat(lines(matings))
          .allMatch(line -> line.length() < 500 && line.chars().noneMatch(Character::isISOControl));
    }
    assertThat(understood).contains(0, 1, 2, 3);
  }
}
