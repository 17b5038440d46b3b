package ferrule.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Cord isolation through the command, on the invented tables of examples/cords. */
class CordsTest {

  private static final String KIT = Ran.ROOT.resolve("examples/cords/heron-kit.csv").toString();
  private static final String TABLE =
      Ran.ROOT.resolve("examples/cords/launch-against-receive.csv").toString();
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir private Path temp = Path.of("");

  private static JsonNode end(JsonNode wavelength, String name) {
    for (JsonNode end : wavelength.get("ends")) {
      if (end.get("end").asText().equals(name)) {
        return end;
      }
    }
    throw new AssertionError("No end " + name);
  }

  private String table(String text) throws IOException {
    Path file = temp.resolve("kit.csv");
    Files.writeString(file, text);
    return file.toString();
  }

  @Test
  void theBadEndOfTheKitIsFound() throws IOException {
    Ran ran = Ran.here("cords", KIT, "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    assertThat(ran.err()).isEmpty();
    assertThat(ran.out().strip().lines()).hasSize(1);
    JsonNode found = JSON.readTree(ran.out()).at("/wavelengths/0");
    assertThat(found.get("wavelength_nm").asInt()).isEqualTo(1310);
    assertThat(found.get("rank").asInt()).isEqualTo(4);
    // Pairs read twice count by their means 0.10 and 0.35: the closed form of the four-reading set
    // gives L = (0.35 + 0.11 - 0.45 + 0.10)/2 = 0.055 and X1 = 0.35 - L = 0.295.
    assertThat(end(found, "HERON/2").get("loss_db").asDouble()).isCloseTo(0.055, within(1e-9));
    assertThat(end(found, "WREN/1").get("loss_db").asDouble()).isCloseTo(0.295, within(1e-9));
    assertThat(end(found, "WREN/1").get("state").asText()).isEqualTo("bad");
    assertThat(end(found, "WREN/2").get("state").asText()).isEqualTo("in order");
    assertThat(found.at("/spread/from").asText()).isEqualTo("residuals");
    assertThat(found.at("/limit/end_db").asDouble()).isEqualTo(0.10);
    assertThat(found.at("/limit/confidence").asText()).isEqualTo("one-source");
    assertThat(found.get("next").isNull()).isTrue();
  }

  @Test
  void theTextSaysWhatIsBadWhatIsKnownAndHowAndTheCaution() {
    Ran ran = Ran.here("cords", KIT);
    assertThat(ran.out())
        .contains("WREN/1   bad: 0.29 dB")
        .contains("one source")
        .contains("from the residuals, 2 degrees of freedom")
        .contains("Clean and inspect WREN/1")
        .contains("Nothing more needs to be measured")
        .contains("Make sure the")
        .contains("licensed practice decide");
  }

  @Test
  void launchAgainstReceiveTellsDifferencesAndAsksForAnOddRing() throws IOException {
    Ran ran = Ran.here("cords", TABLE, "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    JsonNode document = JSON.readTree(ran.out());
    assertThat(document.get("wavelengths")).hasSize(2);
    JsonNode one = document.at("/wavelengths/0");
    assertThat(one.at("/limit/fibre").asText()).isEqualTo("multimode");
    assertThat(one.at("/sums/0/terms")).hasSize(2);
    assertThat(one.at("/next/further_cord").asBoolean()).isTrue();
    JsonNode nine = document.at("/wavelengths/1");
    assertThat(nine.get("rank").asInt()).isEqualTo(5);
    assertThat(nine.get("groups")).hasSize(2);
    assertThat(end(nine, "KITE3/2").get("state").asText()).isEqualTo("bad");
    assertThat(end(nine, "KITE3/2").get("loss_db").isNull()).isTrue();
    assertThat(end(nine, "KITE1/2").get("state").asText()).isEqualTo("cannot be told");
    assertThat(nine.at("/next/tells")).hasSize(6);
    assertThat(Ran.here("cords", TABLE).out())
        .contains("only the sum of KITE1/2 and ROOK1/1: 0.05 dB")
        .contains("differences inside {KITE1/2, KITE2/2, KITE3/2}")
        .contains("as stated")
        .contains("N being a further cord");
  }

  @Test
  void goodCordsAreDoneAndNothingMoreIsAsked() throws IOException {
    Ran ran = Ran.here("cords", table("ends,loss_db\nA/1+B/1,0.07\nA/1+C/1,0.06\nB/1+C/1,0.08\n"));
    assertThat(ran.code()).isEqualTo(ExitCode.DONE);
    assertThat(ran.err()).isEmpty();
    assertThat(ran.out())
        .contains("single-mode, assumed")
        .contains("assumed, 0.02 dB a mating")
        .contains("Nothing more needs to be measured")
        .doesNotContain("Caution");
  }

  @Test
  void theKindOfFibreCanBeStated() throws IOException {
    String file =
        table("ends,loss_db,sd_db\nA/1+B/1,0.14,0.005\nA/1+C/1,0.14,0.005\nB/1+C/1,0.14,0.005\n");
    assertThat(Ran.here("cords", file).code()).isEqualTo(ExitCode.DONE);
    assertThat(Ran.here("cords", file, "--kind", "multimode").code())
        .isEqualTo(ExitCode.NOT_ALL_PROVED);
    Ran wrong = Ran.here("cords", file, "--kind", "plastic");
    assertThat(wrong.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(wrong.err()).contains("--kind: expected single-mode or multimode; found plastic");
  }

  @Test
  void aSpecialPairIsNamedWithWhatToDo() throws IOException {
    StringBuilder text = new StringBuilder("ends,loss_db,wavelength_nm\n");
    String names = "ABCDE";
    for (int i = 0; i < 5; i++) {
      for (int j = i + 1; j < 5; j++) {
        text.append(names.charAt(i)).append("/1+").append(names.charAt(j)).append("/1,");
        text.append(i == 1 && j == 3 ? "0.28" : "0.08").append(",1310\n");
      }
    }
    Ran ran = Ran.here("cords", table(text.toString()));
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    assertThat(ran.out())
        .contains("One pair behaves specially")
        .contains("B/1+D/1 loses 0.20 dB more than its ends do with others")
        .contains("mate and read again B/1 with D/1")
        .contains("Caution");
  }

  @Test
  void aRowThatCannotBeUsedIsALineAndTheOthersStand() throws IOException {
    String file = table("ends,loss_db\nA/1+B/1,0.07\nA/1+A/2,0.06\nA/1+C/1,0.1\n");
    Ran ran = Ran.here("cords", file, "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err().strip().lines()).hasSize(1);
    assertThat(ran.err()).contains("row 3, ends: expected ends of two cords");
    JsonNode document = JSON.readTree(ran.out());
    assertThat(document.at("/wavelengths/0/readings").asInt()).isEqualTo(2);
    assertThat(document.at("/problems/0/row").asInt()).isEqualTo(3);
  }

  @Test
  void aFileThatIsNoTableIsALine() throws IOException {
    Ran ran = Ran.here("cords", "no-such.csv", "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err().strip().lines()).hasSize(1);
    assertThat(JSON.readTree(ran.out()).get("wavelengths")).isEmpty();
    assertThat(Ran.here("cords").code()).isEqualTo(ExitCode.BAD_INPUT);
  }
}
