package ferrule.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import org.junit.jupiter.api.Test;

/** Applications and rulebooks through the command, on the invented examples/library. */
class ApplicationsTest {

  private static final String JOB = Ran.ROOT.resolve("examples/library").toString();

  @Test
  void eachLinkIsComparedByItsMeasuredLoss() throws IOException {
    Ran ran = Ran.here("applications", JOB, "--link", "L01", "--application", "B+", "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.DONE);
    JsonNode check = new ObjectMapper().readTree(ran.out()).at("/checks/0");
    assertThat(check.get("outcome").asText()).isEqualTo("does not");
    assertThat(check.get("term").asText()).isEqualTo("least_loss");
    assertThat(check.at("/loss/origin").asText()).isEqualTo("measured");
    assertThat(check.at("/limits/most_loss/value").asDouble()).isEqualTo(28);
  }

  @Test
  void theTableAndThePageNameTheTermThatDecides() {
    assertThat(Ran.here("applications", JOB).out()).contains("least loss (overload)", "10GBASE-LR");
    assertThat(Ran.here("applications", JOB, "--link", "L01").out())
        .contains("from memory: confirm against the standard");
  }

  @Test
  void wrongNamesGetOneLineEach() {
    Ran link = Ran.here("applications", JOB, "--link", "NOPE");
    assertThat(link.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(link.err().strip().lines()).hasSize(1);
    assertThat(Ran.here("applications", JOB, "--application", "QQ").code())
        .isEqualTo(ExitCode.BAD_INPUT);
  }

  @Test
  void rulebooksAreListedAndCompared() {
    assertThat(Ran.here("rulebook", "list").out()).contains("tia-568.3-d", "tia-568.3-e");
    Ran compared = Ran.here("rulebook", "compare", "tia-568.3-d", "tia-568.3-e");
    assertThat(compared.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    assertThat(compared.out())
        .contains("end connection, reference-grade cord, multimode: 0.30 dB")
        .contains("against 0.50 dB");
    assertThat(Ran.here("rulebook", "compare", "iso-11801-1", "tia-568.3-d").out())
        .contains("fibre OM3 at 850 nm", "fibre OM4 at 850 nm");
    assertThat(Ran.here("rulebook", "compare", "iso-11801-1", "tia-568.3-d", "--job", JOB).out())
        .contains("fibre OM4 at 850 nm")
        .doesNotContain("OM3");
    assertThat(Ran.here("rulebook", "check", "no-such.toml").code()).isEqualTo(ExitCode.BAD_INPUT);
  }
}
