package ferrule.record.pdf;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import ferrule.core.plant.FibreRanges;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Standing;
import ferrule.record.Jobs;
import ferrule.record.page.DoubtEntry;
import ferrule.record.page.RecordPage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

class RecordPdfTest {

  private static final Instant ISSUED = Instant.parse("2026-03-20T09:00:00Z");

  private static byte[] pdf(Judgement judgement, List<Problem> problems, int mostReadings)
      throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    RecordPdf.write(
        out,
        new RecordPage(
            judgement, problems, List.of("A note"), ISSUED, "9.9", DoubtEntry.of(judgement)),
        mostReadings);
    return out.toByteArray();
  }

  private static PDDocument open(Judgement judgement) throws IOException {
    return Loader.loadPDF(pdf(judgement, List.of(), ResultPages.MOST_READINGS));
  }

  /** Text of pages, from 1, with line breaks and doubled spaces taken out. */
  private static String text(PDDocument document, int from, int to) throws IOException {
    PDFTextStripper stripper = new PDFTextStripper();
    stripper.setStartPage(from);
    stripper.setEndPage(to);
    return stripper.getText(document).replaceAll("\\s+", " ");
  }

  private static String text(PDDocument document) throws IOException {
    return text(document, 1, document.getNumberOfPages());
  }

  private static List<PDOutlineItem> parts(PDDocument document) {
    List<PDOutlineItem> parts = new ArrayList<>();
    document.getDocumentCatalog().getDocumentOutline().children().forEach(parts::add);
    return parts;
  }

  private static int pageOf(PDDocument document, PDOutlineItem item) throws IOException {
    return document.getPages().indexOf(item.findDestinationPage(document)) + 1;
  }

  @Test
  void theFirstSheetHoldsTotalsRulesDatesAndTheCautionAndNothingElseStandsBeforePartTwo()
      throws IOException {
    for (Judgement judgement :
        List.of(
            Jobs.mixed(),
            Jobs.mixedGuardedWithFaces(),
            Jobs.tiny(),
            Jobs.named("T".repeat(4000), "O ".repeat(900), "P".repeat(500)))) {
      try (PDDocument document = open(judgement)) {
        String cover = text(document, 1, 1);
        for (Standing standing : Standing.values()) {
          assertThat(cover).contains(judgement.totals().get(standing) + " " + standing.word());
        }
        assertThat(cover)
            .contains("ISO/IEC 11801-1")
            .contains("one-cord")
            .contains("B-A")
            .contains(judgement.ledger().requirement().decision().word() + ":")
            .contains("2026-03-02")
            .contains("from memory: confirm against the standard")
            .contains("Never look into a fibre")
            .contains("licensed practice decide");
        assertThat(text(document, 2, 2)).contains("2 Rulebook and figures used");
      }
    }
  }

  @Test
  void everyDoubtIsTold() throws IOException {
    for (Judgement judgement : List.of(Jobs.mixed(), Jobs.mixedGuardedWithFaces())) {
      try (PDDocument document = open(judgement)) {
        List<PDOutlineItem> parts = parts(document);
        String told =
            text(document, pageOf(document, parts.get(3)), pageOf(document, parts.get(5)));
        for (Doubt doubt : judgement.doubts()) {
          assertThat(told).contains(doubt.kind().headline()).contains(doubt.kind().id() + ";");
          if (doubt.blocking() && !doubt.reach().readings().isEmpty()) {
            String fibre = doubt.reach().fibres().get(0).toString();
            assertThat(told).contains(fibre.substring(0, fibre.indexOf('/') + 1));
          }
        }
        assertThat(told.indexOf("; blocking; ")).isLessThan(told.indexOf("; not blocking; "));
        assertThat(told.lastIndexOf("; blocking; ")).isLessThan(told.indexOf("; not blocking; "));
      }
    }
  }

  @Test
  void theReachOfADoubtIsNamedExactly() throws IOException {
    Judgement judgement = Jobs.mixed();
    Doubt unverified =
        judgement.doubts().stream()
            .filter(d -> d.kind().id().equals("zero-unverified"))
            .findFirst()
            .orElseThrow();
    try (PDDocument document = open(judgement)) {
      assertThat(text(document))
          .contains("Every reading of " + FibreRanges.shown(unverified.reach().fibres(), 60) + ".");
    }
  }

  @Test
  void figuresFromMemoryCarryTheDaggerAndItIsExplained() throws IOException {
    try (PDDocument document = open(Jobs.tiny())) {
      String text = text(document);
      assertThat(text).contains("0.75 dB†").contains("† From memory: confirm against the standard");
      PDOutlineItem results = parts(document).get(5);
      int page = pageOf(document, results);
      assertThat(text(document, page, page)).contains("2.22†").contains("A dagger marks a limit");
    }
  }

  @Test
  void everyFibreHasItsStandingAndEveryReadingItsRow() throws IOException {
    Judgement judgement = Jobs.mixed();
    try (PDDocument document = open(judgement)) {
      List<PDOutlineItem> parts = parts(document);
      String results =
          text(document, pageOf(document, parts.get(5)), pageOf(document, parts.get(6)) - 1);
      for (FibreJudgement fibre : judgement.fibres()) {
        assertThat(results).contains(" " + fibre.fibre() + " " + fibre.standing().word() + " ");
      }
      int decisions =
          results.split("(accept|reject|undecided) R\\d").length
              - 1
              + results.split("replaced; taken").length
              - 1;
      long scheduled = judgement.ledger().readings().stream().filter(r -> r.slot() >= 0).count();
      assertThat(decisions).isEqualTo((int) scheduled);
    }
  }

  @Test
  void partsStandInOrderAndPagesAreNumbered() throws IOException {
    try (PDDocument document = open(Jobs.mixed())) {
      List<PDOutlineItem> parts = parts(document);
      assertThat(parts).hasSize(7);
      List<Integer> pages = new ArrayList<>();
      for (int i = 0; i < parts.size(); i++) {
        String title = parts.get(i).getTitle();
        assertThat(title).startsWith(i + 1 + " ");
        int page = pageOf(document, parts.get(i));
        pages.add(page);
        if (i > 0) {
          assertThat(text(document, page, page)).contains(title);
        }
      }
      List<Integer> sorted = new ArrayList<>(pages);
      Collections.sort(sorted);
      assertThat(pages).isEqualTo(sorted);
      int count = document.getNumberOfPages();
      for (int page = 1; page <= count; page++) {
        assertThat(text(document, page, page))
            .contains("page " + page + " of " + count)
            .contains("Harbour cold store")
            .contains("Record issued 2026-03-20 09:00 UTC");
      }
    }
  }

  @Test
  void everyFontIsEmbedded() throws IOException {
    try (PDDocument document = open(Jobs.mixed())) {
      int fonts = 0;
      for (PDPage page : document.getPages()) {
        for (COSName name : page.getResources().getFontNames()) {
          assertThat(page.getResources().getFont(name).isEmbedded()).isTrue();
          fonts++;
        }
      }
      assertThat(fonts).isGreaterThan(document.getNumberOfPages());
    }
  }

  @Test
  void describesItselfAsAnArchivalDocumentIssuedWhenItWas() throws IOException {
    try (PDDocument document = open(Jobs.tiny())) {
      assertThat(document.getDocumentInformation().getCreationDate().toInstant()).isEqualTo(ISSUED);
      assertThat(document.getDocumentCatalog().getOutputIntents()).hasSize(1);
      assertThat(document.getDocumentCatalog().getLanguage()).isEqualTo("en");
      assertThat(document.getDocumentCatalog().getMarkInfo().isMarked()).isTrue();
      assertThat(
              new String(
                  document.getDocumentCatalog().getMetadata().toByteArray(),
                  StandardCharsets.UTF_8))
          .contains("<pdfaid:part>2</pdfaid:part>")
          .contains("<pdfaid:conformance>U</pdfaid:conformance>")
          .contains("2026-03-20T09:00:00");
    }
  }

  @Test
  void hostileWordsStayWords() throws IOException {
    String evil =
        "<script>alert(1)</script> ]]> --> &amp; \uD83D\uDE00 \u05E9\u05DC\u05D5\u05DD"
            + " \u202Egnp \u0000\u0007 \uD800 x\u0301 \uFFFE";
    Judgement judgement = Jobs.named(evil, evil, evil);
    try (PDDocument document =
        Loader.loadPDF(
            pdf(
                judgement,
                List.of(new Problem(evil, 1, evil, evil, evil, evil)),
                ResultPages.MOST_READINGS))) {
      String cover = text(document, 1, 1);
      assertThat(cover).contains("<script>alert(1)</script> ]]> --> &amp; \uFFFD");
      assertThat(document.getDocumentCatalog().getOpenAction()).isNull();
      assertThat(document.getDocumentCatalog().getNames()).isNull();
      assertThat(document.getNumberOfPages()).isLessThan(12);
    }
  }

  @Test
  void aJobWithNothingInItStillGivesAllParts() throws IOException {
    for (Judgement judgement : List.of(Jobs.empty(), Jobs.untested())) {
      try (PDDocument document = open(judgement)) {
        assertThat(parts(document)).hasSize(7);
        assertThat(text(document)).contains("6 Results by place and link");
      }
    }
  }

  @Test
  void aJobTooLargeToPrintNamesWhatIsNotProvedAndCountsTheRest() throws IOException {
    Judgement judgement = Jobs.mixed();
    try (PDDocument document = Loader.loadPDF(pdf(judgement, List.of(), 100))) {
      List<PDOutlineItem> parts = parts(document);
      String results =
          text(document, pageOf(document, parts.get(5)), pageOf(document, parts.get(6)) - 1);
      assertThat(results).contains("Only fibres that are not proved are printed");
      for (FibreJudgement fibre : judgement.fibres()) {
        String row = " " + fibre.fibre() + " " + fibre.standing().word() + " ";
        if (fibre.standing() == Standing.PROVED) {
          assertThat(results).doesNotContain(row);
        } else {
          assertThat(results).contains(row);
        }
      }
      assertThat(results).contains("Link K001").contains("12 proved; least margin of the proved");
    }
  }

  @Test
  void longListsEndWithACount() throws IOException {
    List<Problem> problems = new ArrayList<>();
    for (int i = 1; i <= 57; i++) {
      problems.add(new Problem("readings.csv", i, "loss_db", "a number", "x" + i, "mend it"));
    }
    try (PDDocument document =
        Loader.loadPDF(pdf(Jobs.tiny(), problems, ResultPages.MOST_READINGS))) {
      assertThat(text(document))
          .contains("57 rows or files of what was handed in")
          .contains("And 17 more:")
          .doesNotContain(" x41 ");
    }
  }

  @Test
  void bothFacesHoldTheSameLetters() {
    for (int c = 0; c < 0x30000; c++) {
      assertThat(Typeface.BOLD.holds(c)).isEqualTo(Typeface.REGULAR.holds(c));
    }
    assertThat(Typeface.REGULAR.holds(Typeface.STAND_IN)).isTrue();
    assertThat(Typeface.REGULAR.holds('…')).isTrue();
  }
}
