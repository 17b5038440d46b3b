package ferrule.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.app.demo.DemoSite;
import ferrule.app.desk.page.JobIndex;
import ferrule.app.desk.page.TodayPage;
import ferrule.app.desk.page.ZeroPage;
import ferrule.app.desk.page.ZerosPage;
import ferrule.core.trust.Judge;
import ferrule.core.trust.VerificationInterval;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the pages say of zeros, on the invented demo site: zero Z07 is shifted, Z05 lapsed. */
class ZeroPagesTest {

  private static final Templates TEMPLATES = new Templates();
  private static JobIndex index;

  @BeforeAll
  static void judge(@TempDir Path temp) throws IOException {
    DemoSite.write(temp, 2026);
    index =
        new JobIndex(
            Judge.judge(JobFolder.read(temp, Purpose.JUDGE).assemble().job().orElseThrow()));
  }

  private static String zero(String id) {
    return TEMPLATES.render("zero", ZeroPage.of("demo", index, index.zero(id).orElseThrow()));
  }

  @Test
  void aShiftedZeroShowsItsEstimateAndAProposalThatReplacesNothing() {
    String page = zero("Z07");
    assertThat(page)
        .contains("Estimated shift", "strip-hollow", "dB, standard deviation 0.06 dB")
        .contains("A proposal: if the shift were taken out", "This replaces nothing.")
        .containsPattern("[0-9]+ fibres would be (proved|doubtful)")
        .contains("settled by a verification of this zero that stands, or by a retest");
  }

  @Test
  void aGoodZeroShowsItsEstimateAndNoProposal() {
    String page = zero("Z01");
    assertThat(page).contains("Estimated shift").doesNotContain("strip-hollow", "A proposal");
    assertThat(page.split("class=\"strip shift\"", -1)).hasSize(5);
  }

  @Test
  void aZeroTellsItsTrustOverTimeInWordsBesideTheLine() {
    assertThat(zero("Z05"))
        .contains("class=\"trust-line\"")
        .contains("2026-10-12 11:05 to 11:22 UTC</span> <b>fresh</b>")
        .contains("2026-10-12 23:10 to 2026-10-13 06:17 UTC</span> <b>doubtful</b>");
    String all = TEMPLATES.render("zeros", ZerosPage.of("demo", index, 1, List.of()));
    assertThat(all)
        .contains(
            "fresh to 11:22, verified to 15:05, ageing to 23:10, doubtful to 2026-10-13 06:17");
    // One line for each zero and one for each trust in the key.
    assertThat(all.split("class=\"trust-line\"", -1)).hasSize(index.judgement().zeros().size() + 6);
  }

  @Test
  void todaySaysAfterHowManyLinksToVerify() {
    VerificationInterval interval = VerificationInterval.of(index.judgement());
    String today =
        TEMPLATES.render("today", TodayPage.of("demo", index, List.of(), List.of(), false));
    assertThat(interval.events()).isEqualTo(1);
    assertThat(today)
        .contains("<b>" + interval.shown() + "</b>", interval.basis(), interval.rangeShown())
        .contains("always before leaving the site");
  }
}
