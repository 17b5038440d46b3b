package ferrule.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Access trees through the command, on the invented examples/access. */
class AccessTest {

  private static final Path EXAMPLE = Ran.ROOT.resolve("examples/access");

  private static Map<String, String> doubts(Ran ran) throws IOException {
    Map<String, String> found = new TreeMap<>();
    for (JsonNode doubt : new ObjectMapper().readTree(ran.out()).get("doubts")) {
      found.put(doubt.get("subject").asText(), doubt.get("kind").asText());
    }
    return found;
  }

  @Test
  void theLegOnAnotherSplitterAndTheHighSplitterAreNamedAndNothingElse() throws IOException {
    Ran ran = Ran.here("judge", EXAMPLE.toString(), "--json");
    assertThat(doubts(ran))
        .containsExactlyInAnyOrderEntriesOf(Map.of("A3", "splitter-step", "B", "splitter-high"));
    assertThat(new ObjectMapper().readTree(ran.out()).at("/totals/doubtful").asInt()).isEqualTo(1);
  }

  @Test
  void everyLegCarriesTheWantedClassAndFeedersAreNotAsked() {
    Ran ran = Ran.here("applications", EXAMPLE.toString(), "--application", "B+");
    assertThat(ran.code()).isEqualTo(ExitCode.DONE);
    assertThat(ran.out()).contains("GPON class B+").doesNotContain("F1");
  }

  @Test
  void aLoopAndAnUnknownFeederAreOneLineEachAndHoldTheirReadingsBack(@TempDir Path temp)
      throws IOException {
    for (Path file : Files.list(EXAMPLE).toList()) {
      Files.copy(file, temp.resolve(file.getFileName().toString()));
    }
    Path links = temp.resolve("links.csv");
    Files.writeString(
        links,
        Files.readString(links)
            .replace("splitter-1x8,F1\nB,", "splitter-1x8,A1\nB,")
            .replace(",,B\n", ",,Bee\n"));
    Ran ran = Ran.here("judge", temp.toString());
    assertThat(ran.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(ran.err()).contains("links.csv, row 3, fed_by", "a loop: A fed by A1 fed by A");
    assertThat(ran.err()).contains("fed_by: expected a link of the schedule; found Bee");
    assertThat(ran.err().strip().lines().count()).isEqualTo(6);
    assertThat(ran.out()).contains("doubtful");
  }
}
