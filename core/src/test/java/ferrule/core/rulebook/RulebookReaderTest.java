package ferrule.core.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import ferrule.core.Problem;
import ferrule.core.checks.CheckFile;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class RulebookReaderTest {

  private static RulebookReader.Outcome read(String path) {
    return RulebookReader.read("own.toml", CheckFile.text(path));
  }

  @Test
  void aWholeRulebookIsRead() {
    RulebookReader.Outcome outcome = read("/rulebooks/house.toml");
    assertThat(outcome.problems()).isEmpty();
    Rulebook book = outcome.rulebook().orElseThrow();
    assertThat(book.id()).isEqualTo("house");
    assertThat(book.notes()).containsExactly("invented");
    assertThat(book.fibreLimit(FibreCategory.OS2, new Wavelength(1310)))
        .map(Figure::value)
        .contains(0.4);
    assertThat(book.endLimit(FibreKind.SINGLE_MODE, CordGrade.REFERENCE))
        .map(Figure::value)
        .contains(0.5);
    assertThat(book.endLimit(FibreKind.SINGLE_MODE, CordGrade.STANDARD)).isEmpty();
    assertThat(book.spliceLimit(FibreKind.SINGLE_MODE)).map(Figure::value).contains(0.1);
    assertThat(book.deviceLimit("splitter-1x8")).map(Figure::value).contains(10.5);
    assertThat(book.innerLimit(FibreKind.SINGLE_MODE)).isEmpty();
    assertThat(book.categories()).containsExactly(FibreCategory.OS2);
    assertThat(book.figuresFromMemory()).isZero();
  }

  @Test
  void whatARulebookDoesNotSayIsThatOfTheOneItIsBasedOn() {
    String own = CheckFile.text("/rulebooks/house.toml");
    String based = own.replace("edition = ", "based_on = \"tia-568.3-e\"\nedition = ");
    Rulebook book = RulebookReader.read("own.toml", based).rulebook().orElseThrow();
    Rulebook tia = ShippedRulebooks.find("tia-568.3-e").orElseThrow();
    assertThat(book.id()).isEqualTo("house");
    assertThat(book.spliceLimit(FibreKind.SINGLE_MODE)).map(Figure::value).contains(0.1);
    assertThat(book.spliceLimit(FibreKind.MULTIMODE))
        .isEqualTo(tia.spliceLimit(FibreKind.MULTIMODE));
    assertThat(book.innerLimit(FibreKind.SINGLE_MODE))
        .isEqualTo(tia.innerLimit(FibreKind.SINGLE_MODE));
    assertThat(book.notes()).startsWith("invented").containsAll(tia.notes());
    assertThat(book.fibreLimit(FibreCategory.OS2, new Wavelength(1310)))
        .map(f -> f.provenance().confidence())
        .contains(Confidence.OWNER);
  }

  @Test
  void aTextAcceptedBeforeIsNotRefusedForAContradiction() {
    String text = CheckFile.text("/rulebooks/damaged/splitter-without-loss.toml");
    assertThat(RulebookReader.read("own.toml", text).rulebook()).isEmpty();
    assertThat(RulebookReader.readKept("own.toml", text).problems()).isEmpty();
  }

  @Test
  void quotesAndControlLettersSurviveBeingWrittenOut() {
    String odd = "a \\\"quoted\\\" \\\\ \\t \\u0001 é";
    String own =
        CheckFile.text("/rulebooks/house.toml")
            .replace(
                "notes = [\"invented\"]", "based_on = \"iso-11801-1\"\nnotes = [\"" + odd + "\"]");
    Rulebook book = RulebookReader.read("own.toml", own).rulebook().orElseThrow();
    String kept = RulebookReader.standingAlone(own, book);
    assertThat(RulebookReader.read("own.toml", kept).rulebook()).contains(book);
    assertThat(book.notes().get(0)).contains("\"quoted\" \\ \t");
  }

  /** One damaged file and every problem that must be named. */
  record Damage(String file, List<NamedCsvRecord> problems) {
    @Override
    public String toString() {
      return file;
    }
  }

  static List<Damage> damages() {
    Map<String, List<NamedCsvRecord>> byFile = new LinkedHashMap<>();
    for (NamedCsvRecord row : CheckFile.table("/rulebooks/damaged.csv")) {
      byFile.computeIfAbsent(row.getField("file"), k -> new ArrayList<>()).add(row);
    }
    List<Damage> damages = new ArrayList<>();
    byFile.forEach((file, rows) -> damages.add(new Damage(file, rows)));
    return damages;
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("damages")
  void eachKindOfDamageIsRefusedWithItsPlace(Damage damage) {
    RulebookReader.Outcome outcome = read("/rulebooks/damaged/" + damage.file() + ".toml");
    assertThat(outcome.rulebook()).isEmpty();
    assertThat(outcome.problems())
        .as("one problem for each thing wrong")
        .hasSameSizeAs(damage.problems());
    for (int i = 0; i < damage.problems().size(); i++) {
      Problem problem = outcome.problems().get(i);
      NamedCsvRecord row = damage.problems().get(i);
      assertThat(problem.file()).isEqualTo("own.toml");
      assertThat(problem.row())
          .as("line in " + problem.line())
          .isEqualTo(Long.parseLong(row.getField("line")));
      assertThat(problem.column()).isEqualTo(row.getField("column"));
      assertThat(problem.expected()).startsWith(row.getField("expected")).isNotBlank();
      assertThat(problem.found()).startsWith(row.getField("found")).isNotEmpty();
    }
  }

  @Test
  void aProblemIsOneLine() {
    assertThat(read("/rulebooks/damaged/limit-negative.toml").problems())
        .singleElement()
        .extracting(Problem::line)
        .isEqualTo(
            "own.toml, row 9, limit_db_per_km: expected a number from 0 to 20.0; found -0.4;"
                + " correct it");
  }

  @Test
  void theCriteriaForEndFacesAreThoseNamedOrTheLaterShipped() {
    String house = CheckFile.text("/rulebooks/house.toml");
    assertThat(RulebookReader.read("own.toml", house).rulebook().map(Rulebook::faces))
        .contains("iec-61300-3-35-2015");
    String named = "faces = \"iec-61300-3-35-2009\"\n" + house;
    assertThat(RulebookReader.read("own.toml", named).rulebook().map(Rulebook::faces))
        .contains("iec-61300-3-35-2009");
    assertThat(RulebookReader.read("own.toml", named.replace("2009", "2022")).problems())
        .singleElement()
        .satisfies(
            problem -> {
              assertThat(problem.row()).isEqualTo(1);
              assertThat(problem.column()).isEqualTo("faces");
            });
  }

  @Test
  void controlCharactersFromTheFileDoNotReachTheReader() {
    RulebookReader.Outcome outcome =
        RulebookReader.read(
            "own.toml", CheckFile.text("/rulebooks/house.toml").replace("OS2", "\\u001b[31mOS2"));
    assertThat(outcome.problems()).hasSize(1);
    assertThat(outcome.problems().get(0).line()).doesNotContain("\u001b");
  }
}
