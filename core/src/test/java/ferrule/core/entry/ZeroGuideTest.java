package ferrule.core.entry;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.zero.Method;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The steps of a zero follow its method. */
class ZeroGuideTest {

  @ParameterizedTest
  @EnumSource(Method.class)
  void asManyFacesAreLookedAtAsTheMethodHasEndsOfCords(Method method) {
    ZeroGuide guide = ZeroGuide.of(method, "L1", "R1", "X1");
    assertThat(guide.faces()).hasSize(method.cordFaces(1)).doesNotHaveDuplicates();
    assertThat(guide.facesForVerification()).doesNotContainAnyElementsOf(guide.faces());
  }

  @ParameterizedTest
  @EnumSource(Method.class)
  void theLaunchCordStaysAtTheSourceAndEveryCordInLineIsNamed(Method method) {
    ZeroGuide guide = ZeroGuide.of(method, "L1", "R1", "X1");
    String setting = String.join(" ", guide.setting());
    assertThat(setting).contains("launch cord L1 to the source, and leave it there");
    assertThat(setting.contains("R1")).isEqualTo(method.cords() >= 2);
    assertThat(setting.contains("X1")).isEqualTo(method.cords() >= 3);
    assertThat(String.join(" ", guide.verifying()))
        .contains(method == Method.ONE_CORD ? "R1" : "X1", "Read the loss.");
  }
}
