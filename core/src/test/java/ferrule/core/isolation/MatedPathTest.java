package ferrule.core.isolation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.core.fixture.Mated;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MatedPathTest {

  private static Mating mating(String first, String second) {
    return new Mating(Mated.end(first), Mated.end(second));
  }

  @Test
  void matingsAreTurnedAsTheLightPassesThem() {
    assertThat(MatedPath.joined(List.of(mating("X/1", "L/2"), mating("R/1", "X/2"))).orElseThrow())
        .hasToString("L/2+X/1; X/2+R/1");
    assertThat(MatedPath.joined(List.of(mating("R/1", "L/2"))).orElseThrow())
        .as("one mating stays as given")
        .hasToString("R/1+L/2");
  }

  @Test
  void noLightPassesMatingsThatDoNotJoin() {
    assertThat(MatedPath.joined(List.of())).isEmpty();
    assertThat(MatedPath.joined(List.of(mating("L/2", "X/1"), mating("X/1", "R/1"))))
        .as("in and out at one end")
        .isEmpty();
    assertThat(MatedPath.joined(List.of(mating("L/2", "X/1"), mating("Y/2", "R/1"))))
        .as("no cord between")
        .isEmpty();
    assertThat(MatedPath.joined(List.of(mating("L/2", "X/1"), mating("X/2", "L/1"))))
        .as("a ring")
        .isEmpty();
  }

  @Test
  void aCordDoesNotMateWithItself() {
    assertThatThrownBy(() -> mating("L/1", "L/2")).isInstanceOf(IllegalArgumentException.class);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "L1", "/1", "L1/", "L1/3", "L1/12", "L1/one", "  /2"})
  void whatIsNoEndIsNotTakenForOne(String text) {
    assertThat(EndId.parse(text)).isEmpty();
  }

  @Test
  void aCordsNameMayHoldSlashesAndBlanks() {
    assertThat(EndId.parse(" van 3/kit/7 / 2 ")).contains(new EndId("van 3/kit/7", 2));
  }
}
