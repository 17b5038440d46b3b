package ferrule.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Array links through the command, on the invented examples/arrays. */
class ArraysTest {

  private static final Path EXAMPLE = Ran.ROOT.resolve("examples/arrays");

  @Test
  void aCrossedPositionIsNamedWithItsPartAndReachesItsFibresOnly() throws IOException {
    Ran ran = Ran.here("judge", EXAMPLE.toString(), "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    JsonNode judged = new ObjectMapper().readTree(ran.out());
    assertThat(judged.at("/totals/doubtful").asInt()).isEqualTo(2);
    assertThat(judged.at("/totals/proved").asInt()).isEqualTo(22);
    List<JsonNode> found = new ArrayList<>();
    for (JsonNode doubt : judged.get("doubts")) {
      if (doubt.get("kind").asText().equals("polarity")) {
        found.add(doubt);
      }
    }
    assertThat(found).hasSize(1);
    JsonNode polarity = found.get(0);
    assertThat(polarity.get("subject").asText()).isEqualTo("H2");
    assertThat(polarity.get("blocking").asBoolean()).isTrue();
    assertThat(polarity.get("reach")).hasToString("[\"H2/3\",\"H2/4\"]");
    assertThat(polarity.at("/evidence/faulty_part").asText()).startsWith("cassette 7B");
    assertThat(judged.at("/arrays/1/measured/2").asInt()).isEqualTo(4);
    assertThat(judged.at("/arrays/0/method").asText()).isEqualTo("A");
    assertThat(judged.at("/arrays/2/transmit_receive").asText()).isEqualTo("meets");
  }

  @Test
  void thePlanAsksAboutTheTwoPinnedEnds() {
    Ran ran = Ran.here("plan", EXAMPLE.toString());
    assertThat(ran.out()).contains("array-mating", "two pinned ends meet");
  }

  private static List<String> asked(Path folder) throws IOException {
    List<String> kinds = new ArrayList<>();
    JsonNode plan =
        new ObjectMapper().readTree(Ran.here("plan", folder.toString(), "--json").out());
    for (JsonNode question : plan.get("questions")) {
      kinds.add(question.get("kind").asText());
    }
    return kinds;
  }

  @Test
  void plantedConflictsAreAskedAboutAndNoneOnTheCleanTwin(@TempDir Path temp) throws IOException {
    try (var files = Files.list(EXAMPLE)) {
      for (Path file : files.toList()) {
        Files.copy(file, temp.resolve(file.getFileName().toString()));
      }
    }
    Path parts = temp.resolve("parts.csv");
    String clean =
        Files.readString(parts)
            .replace("unpinned,up,pinned,up", "unpinned,up,unpinned,up")
            .replace("array_at,a_pins", "array_at,a_polish,b_polish,a_pins")
            .replaceAll("(cassette,12,straight,b),", "$1,,flat,")
            .replaceAll("(cassette,12,straight,a),", "$1,flat,,")
            .replaceAll("(trunk,12,[AB],),", "$1,flat,flat,");
    Files.writeString(parts, clean);
    assertThat(asked(temp)).doesNotContain("array-mating", "transmit-receive");
    Files.writeString(parts, clean.replace("T-17,trunk,12,A,,flat", "T-17,trunk,12,A,,angled"));
    assertThat(asked(temp)).contains("array-mating").doesNotContain("transmit-receive");
    Files.writeString(parts, clean.replace("9A,cassette,12,straight", "9A,cassette,12,universal"));
    assertThat(asked(temp)).contains("transmit-receive").doesNotContain("array-mating");
  }

  @Test
  void aJobFileKeepsPartsAndMapAndTheRecordCarriesThem(@TempDir Path temp) throws IOException {
    String file = temp.resolve("hall.ferrule").toString();
    assertThat(Ran.here("new", file, "--from", EXAMPLE.toString()).code()).isEqualTo(ExitCode.DONE);
    String fromFile = Ran.here("judge", file, "--json").out();
    assertThat(fromFile).contains("\"method\":\"A\"", "faulty_part");
    assertThat(new ObjectMapper().readTree(fromFile).get("arrays"))
        .isEqualTo(
            new ObjectMapper()
                .readTree(Ran.here("judge", EXAMPLE.toString(), "--json").out())
                .get("arrays"));
    Path record = temp.resolve("record");
    Ran ran = Ran.here("record", file, "-o", record.toString());
    assertThat(ran.err()).isEmpty();
    assertThat(Files.readString(record.resolve("judgement.json"))).contains("\"arrays\"");
    try (PDDocument document = Loader.loadPDF(record.resolve("record.pdf").toFile())) {
      assertThat(new PDFTextStripper().getText(document)).contains("Array links", "trunk T-18");
    }
  }
}
