package ferrule.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The whole job through the command, on the folder written by hand in examples/library. */
class WholeJobTest {

  private static final String LIBRARY = Ran.ROOT.resolve("examples/library").toString();
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir private Path temp = Path.of("");

  private static JsonNode fibre(JsonNode document, String id) {
    for (JsonNode fibre : document.get("fibres")) {
      if (fibre.get("fibre").asText().equals(id)) {
        return fibre;
      }
    }
    throw new AssertionError("No fibre " + id);
  }

  @Test
  void everyStandingComesOutOfTheFolderWrittenByHand() throws IOException {
    Ran ran = Ran.here("judge", LIBRARY, "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    assertThat(ran.err()).isEmpty();
    assertThat(ran.out().strip().lines()).hasSize(1);
    JsonNode document = JSON.readTree(ran.out());
    assertThat(document.at("/job/rulebook").asText()).isEqualTo("iso-11801-1");
    assertThat(document.at("/job/method").asText()).isEqualTo("one-cord");
    assertThat(document.at("/totals/fibres").asInt()).isEqualTo(6);
    assertThat(fibre(document, "L01/1").get("standing").asText()).isEqualTo("proved");
    assertThat(fibre(document, "L01/2").get("standing").asText()).isEqualTo("proved");
    assertThat(fibre(document, "L02/1").get("standing").asText()).isEqualTo("open");
    assertThat(fibre(document, "L02/2").get("standing").asText()).isEqualTo("failed");
    assertThat(fibre(document, "L03/1").get("standing").asText()).isEqualTo("doubtful");
    assertThat(fibre(document, "L03/2").get("standing").asText()).isEqualTo("doubtful");
  }

  @Test
  void limitsEqualTheSumsDoneByHand() throws IOException {
    JsonNode document = JSON.readTree(Ran.here("judge", LIBRARY, "--json").out());
    // L01: 0.18 km x 0.4 + 2 x 0.75; L02: 0.24 x 0.4 + 2 x 0.75 + 0.75; L03 at 850 nm:
    // 0.085 x 3.5 + 2 x 0.50. Figures: ISO/IEC 11801-1 as in the rulebook; the end connections are
    // from memory: confirm against the standard.
    assertThat(fibre(document, "L01/1").at("/readings/0/limit_db").asDouble())
        .isCloseTo(1.572, within(1e-9));
    assertThat(fibre(document, "L02/1").at("/readings/0/limit_db").asDouble())
        .isCloseTo(2.346, within(1e-9));
    assertThat(fibre(document, "L03/1").at("/readings/0/limit_db").asDouble())
        .isCloseTo(1.2975, within(1e-9));
  }

  @Test
  void theUnverifiedZeroReachesItsOwnReadingsOnly() throws IOException {
    JsonNode document = JSON.readTree(Ran.here("judge", LIBRARY, "--json").out());
    List<String> reach = new ArrayList<>();
    for (JsonNode doubt : document.get("doubts")) {
      if (doubt.get("kind").asText().equals("zero-unverified")) {
        assertThat(doubt.get("subject").asText()).isEqualTo("R2");
        assertThat(doubt.get("blocking").asBoolean()).isTrue();
        doubt.get("reach").forEach(f -> reach.add(f.asText()));
      }
    }
    assertThat(reach).containsExactly("L03/1", "L03/2");
  }

  @Test
  void aJobFileIsJudgedLikeItsFolder() throws IOException {
    String job = temp.resolve("library.ferrule").toString();
    assertThat(Ran.here("new", job, "--from", LIBRARY).code()).isEqualTo(ExitCode.DONE);
    assertThat(Ran.here("judge", job, "--json").out())
        .isEqualTo(Ran.here("judge", LIBRARY, "--json").out());
  }

  @Test
  void takingInTheSameFileTwiceAddsNothingAndSaysSo() {
    String job = temp.resolve("library.ferrule").toString();
    Ran.here("new", job, "--from", LIBRARY);
    Ran again = Ran.here("add", job, LIBRARY + "/readings.csv");
    assertThat(again.code()).isEqualTo(ExitCode.DONE);
    assertThat(again.out()).contains("23 already in the job").contains("Nothing was added");
  }

  @Test
  void severalJobsGiveOneDocumentALine() throws IOException {
    Ran ran = Ran.here("judge", LIBRARY, LIBRARY, "--json");
    assertThat(ran.out().strip().lines()).hasSize(2);
    for (String line : ran.out().strip().split("\n")) {
      assertThat(JSON.readTree(line).at("/totals/fibres").asInt()).isEqualTo(6);
    }
  }

  @Test
  void aRowThatCannotBeUsedIsOneLineAndExitCodeTwo() throws IOException {
    Path folder = copyOfLibrary();
    Path readings = folder.resolve("readings.csv");
    Files.writeString(
        readings,
        Files.readString(readings)
            .replace("L01,1,A-B,1310,-5.42,0.30", "L01,1,A-B,1310,-5.42,0.90"));
    Ran ran = Ran.here("judge", folder.toString(), "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err().strip().lines()).hasSize(1);
    assertThat(ran.err()).contains("readings.csv, row 2").contains("expected").contains("found");
    JsonNode problem = JSON.readTree(ran.out()).at("/problems/0");
    assertThat(problem.get("file").asText()).isEqualTo("readings.csv");
    assertThat(problem.get("row").asInt()).isEqualTo(2);
    assertThat(problem.get("column").asText()).isEqualTo("loss_db");
  }

  @Test
  void aFolderWithAFileThatCannotBeReadIsNotJudged() throws IOException {
    Path folder = copyOfLibrary();
    Files.writeString(folder.resolve("readings.csv"), "link,fibre\nL01,1\n");
    Ran ran = Ran.here("judge", folder.toString(), "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(JSON.readTree(ran.out()).get("job").isNull()).isTrue();
    assertThat(
            Ran.here("new", temp.resolve("x.ferrule").toString(), "--from", folder.toString())
                .code())
        .isEqualTo(ExitCode.BAD_INPUT);
    assertThat(temp.resolve("x.ferrule")).doesNotExist();
  }

  @Test
  void theRecordHoldsWhatTheJudgementSays() throws IOException {
    Path record = temp.resolve("record");
    Ran ran = Ran.here("record", LIBRARY, "-o", record.toString());
    assertThat(ran.err()).isEmpty();
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    assertThat(record.resolve("record.pdf")).isNotEmptyFile();
    assertThat(
            JSON.readTree(record.resolve("judgement.json").toFile()).at("/totals/proved").asInt())
        .isEqualTo(2);
    assertThat(Ran.here("record", LIBRARY, "-o", record.toString()).code())
        .as("a record is never written over another")
        .isEqualTo(ExitCode.BAD_INPUT);
  }

  @Test
  void oneFibreUnfoldsToTermsThatAddUp() {
    Ran ran = Ran.here("judge", LIBRARY, "--fibre", "L02/2");
    assertThat(ran.out())
        .contains("L02/2 is failed")
        .contains("2 connection x 0.75 dB")
        .contains("from memory: confirm against the standard")
        .contains("source drift between zero and reading");
    assertThat(Ran.here("judge", LIBRARY, "--fibre", "L99/1").code()).isEqualTo(ExitCode.BAD_INPUT);
  }

  @Test
  void wrongArgumentsGetALineAndNoStackTrace() {
    for (String[] arguments :
        List.of(
            new String[] {},
            new String[] {"nonsense"},
            new String[] {"judge"},
            new String[] {"judge", "no-such-thing"},
            new String[] {"new", temp.resolve("y.ferrule").toString()},
            new String[] {"new", temp.resolve("y.ferrule").toString(), "--from", "nowhere"},
            new String[] {"add", "no-such.ferrule", LIBRARY + "/readings.csv"},
            new String[] {"desk", LIBRARY, "--port", "70000"},
            new String[] {"record", LIBRARY},
            new String[] {"audit"},
            new String[] {"audit", LIBRARY})) {
      Ran ran = Ran.here(arguments);
      assertThat(ran.code()).as(String.join(" ", arguments)).isEqualTo(ExitCode.BAD_INPUT);
      assertThat(ran.err()).isNotBlank().doesNotContain("\tat ").doesNotContain("Exception");
    }
  }

  @Test
  void anotherRulebookShowsWhatWouldChangeAndChangesNothing() throws IOException {
    String before = Ran.here("judge", LIBRARY, "--json").out();
    Ran ran =
        Ran.here("judge", LIBRARY, "--rulebook", "tia-568.3-e", "--decision", "guarded", "--json");
    JsonNode document = JSON.readTree(ran.out());
    assertThat(document.at("/job/rulebook").asText()).isEqualTo("tia-568.3-e");
    assertThat(document.at("/job/decision").asText()).isEqualTo("guarded");
    assertThat(document.at("/agreed/job/rulebook").asText()).isEqualTo("iso-11801-1");
    assertThat(document.at("/agreed/totals")).isEqualTo(JSON.readTree(before).get("totals"));
    JsonNode change = document.at("/changes/0");
    assertThat(change.get("fibre").asText()).isEqualTo("L02/2");
    assertThat(change.at("/readings/0/agreed").asText()).isEqualTo("accept");
    assertThat(change.at("/readings/0/supposed").asText()).isEqualTo("reject");
    assertThat(Ran.here("judge", LIBRARY, "--json").out()).isEqualTo(before);

    Ran unknown = Ran.here("judge", LIBRARY, "--rulebook", "none-such");
    assertThat(unknown.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(unknown.err().lines()).hasSize(1);
    assertThat(unknown.err()).contains("iso-11801-1").contains("none-such");
  }

  @Test
  void anOwnersWishIsPricedWithoutARulebookOfItsOwn() throws IOException {
    JsonNode wished =
        JSON.readTree(Ran.here("judge", LIBRARY, "--most", "link=0,9", "--json").out());
    assertThat(wished.at("/job/rulebook").asText())
        .isEqualTo("iso-11801-1, but 0.90 dB for a whole link");
    for (JsonNode change : wished.get("changes")) {
      for (JsonNode reading : change.get("readings")) {
        assertThat(reading.get("supposed_limit_db").asDouble()).isLessThanOrEqualTo(0.9);
      }
    }
    assertThat(wished.get("changes")).isNotEmpty();
    for (String wrong : List.of("link", "bend=1", "splice=0", "splice=11", "km=much", "=2")) {
      Ran refused = Ran.here("judge", LIBRARY, "--most", wrong);
      assertThat(refused.code()).as(wrong).isEqualTo(ExitCode.BAD_INPUT);
      assertThat(refused.err().lines()).as(wrong).hasSize(1);
    }
  }

  @Test
  void aSampleIsDrawnTheSameForTheSameSeed() throws IOException {
    Ran ran = Ran.here("sample", LIBRARY, "--fibres", "4", "--seed", "7", "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.DONE);
    JsonNode document = JSON.readTree(ran.out());
    assertThat(document.get("size").asInt()).isEqualTo(4);
    assertThat(document.get("drawn_by_lot").asInt()).isEqualTo(1);
    assertThat(document.get("fibres")).hasSize(4);
    assertThat(Ran.here("sample", LIBRARY, "--fibres", "4", "--seed", "7", "--json").out())
        .isEqualTo(ran.out());
    assertThat(Ran.here("sample", LIBRARY, "--seed", "7").out()).contains("seed 7");
    for (String[] wrong :
        List.of(
            new String[] {"sample", LIBRARY, "--bad", "0"},
            new String[] {"sample", LIBRARY, "--confidence", "101"},
            new String[] {"sample", LIBRARY, "--fibres", "-1"},
            new String[] {"sample", "no-such-thing"})) {
      Ran refused = Ran.here(wrong);
      assertThat(refused.code()).isEqualTo(ExitCode.BAD_INPUT);
      assertThat(refused.err().lines()).hasSize(1);
    }
  }

  @Test
  void everyCommandHasHelpAndAPlaceInTheManual() {
    String manual = Ran.here("manual").out();
    for (String command :
        List.of(
            "demo",
            "new",
            "add",
            "join",
            "history",
            "backup",
            "plan",
            "judge",
            "cords",
            "faces",
            "sample",
            "record",
            "audit",
            "desk",
            "manual",
            "completion")) {
      Ran help = Ran.here(command, "--help");
      assertThat(help.code()).isZero();
      assertThat(help.out()).contains("Usage: ferrule " + command);
      assertThat(manual).contains(".SS ferrule " + command);
    }
    assertThat(Ran.here("completion").out()).contains("complete").contains("judge");
  }

  private Path copyOfLibrary() throws IOException {
    Path folder = Files.createDirectory(temp.resolve("copy"));
    try (Stream<Path> files = Files.list(Path.of(LIBRARY))) {
      for (Path file : files.toList()) {
        Files.copy(file, folder.resolve(file.getFileName()));
      }
    }
    return folder;
  }
}
