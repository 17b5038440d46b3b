package ferrule.app.audit;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.ColorScheme;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import ferrule.app.Chromium;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.record.seal.FileIndex;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The page of a record that audits it, in a real browser, opened from the disk as an owner opens
 * it. Needs Chromium; never skipped.
 */
class AuditPageTest {

  private static final Path SHOTS = Path.of("target", "audit-shots");
  private static final Path VECTORS =
      Records.ROOT.resolve("record/src/test/resources/ferrule/record");

  @TempDir private static Path made = Path.of("");
  private static Path record = Path.of("");
  private static Playwright playwright;
  private static Browser browser;
  private static final List<String> COMPLAINTS = new ArrayList<>();

  private final Path temp;

  AuditPageTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeAll
  static void open() throws IOException {
    record = Records.library(made);
    playwright = Chromium.driver();
    browser = Chromium.launch(playwright);
    Files.createDirectories(SHOTS);
  }

  @AfterAll
  static void close() {
    if (playwright != null) {
      playwright.close();
    }
    assertThat(COMPLAINTS).as("complaints of the browser, and requests").isEmpty();
  }

  private static Page page() {
    Page page = browser.newContext().newPage();
    page.setViewportSize(1280, 900);
    page.onConsoleMessage(
        message -> {
          if (message.type().equals("error")) {
            COMPLAINTS.add(message.text());
          }
        });
    page.onPageError(COMPLAINTS::add);
    page.onRequest(
        request -> {
          if (!request.url().startsWith("file:")) {
            COMPLAINTS.add(request.url());
          }
        });
    page.navigate(record.resolve("audit.html").toUri().toString());
    return page;
  }

  private static String audited(Page page, Path folder) {
    page.locator("#folder").setInputFiles(folder);
    page.waitForSelector("#verdict, #result .alert");
    return page.locator("#result").innerText();
  }

  private static List<NamedCsvRecord> rows(String file) throws IOException {
    try (CsvReader<NamedCsvRecord> rows =
        CsvReader.builder().ofNamedCsvRecord(VECTORS.resolve(file))) {
      return rows.stream().toList();
    }
  }

  private static double number(String text) {
    return text.isEmpty() ? Double.NaN : Double.parseDouble(text);
  }

  @Test
  void decisionsOfPageAndOfFerruleAreThoseOfTheSharedVectors() throws IOException {
    Page page = page();
    List<NamedCsvRecord> vectors = rows("audit/decisions.csv");
    assertThat(vectors).hasSizeGreaterThan(12);
    for (NamedCsvRecord vector : vectors) {
      double loss = number(vector.getField("loss_db"));
      double limit = number(vector.getField("limit_db"));
      double expanded = number(vector.getField("uncertainty_db"));
      String rule = vector.getField("rule");
      assertThat(DecisionRule.ofWord(rule).orElseThrow().decide(loss, limit, expanded).word())
          .as(vector.toString())
          .isEqualTo(vector.getField("decision"));
      assertThat(
              page.evaluate(
                  "([l, m, u, rule]) => { const n = t => t === '' ? NaN : Number(t);"
                      + " return audit.decide(n(l), n(m), n(u), rule); }",
                  List.of(
                      vector.getField("loss_db"),
                      vector.getField("limit_db"),
                      vector.getField("uncertainty_db"),
                      rule)))
          .as(vector.toString())
          .isEqualTo(vector.getField("decision"));
    }
    page.context().close();
  }

  @Test
  void signaturesOfRfc8032AreVerified() throws IOException {
    Page page = page();
    for (NamedCsvRecord vector : rows("seal/rfc8032.csv")) {
      String verify =
          "async ([key, message, signature]) => audit.verify(audit.unhex('302a300506032b6570032100'"
              + " + key), audit.unhex(message), audit.unhex(signature))";
      List<String> good =
          List.of(
              vector.getField("public"), vector.getField("message"), vector.getField("signature"));
      assertThat(page.evaluate(verify, good)).as(vector.getField("name")).isEqualTo(true);
      assertThat(page.evaluate(verify, List.of(good.get(0), good.get(1) + "00", good.get(2))))
          .as(vector.getField("name"))
          .isEqualTo(false);
    }
    page.context().close();
  }

  @Test
  void aRecordThatNobodyChangedAgrees() {
    Page page = page();
    String text = audited(page, record);
    assertThat(text)
        .contains("All that this page can check agrees.")
        .contains("It fits, of the key")
        .contains("each fits its hash")
        .contains("in one whole chain")
        .contains("23 readings decided again under the simple rule");
    page.context().close();
  }

  @Test
  void everyRecordOfTheExamplesAgreesAndTheGuardedOneToo() throws IOException {
    Page page = page();
    for (String name : List.of("access", "arrays")) {
      Path folder = Records.record(Records.ROOT.resolve("examples/" + name), temp.resolve(name));
      assertThat(audited(page, folder)).as(name).contains("All that this page can check agrees.");
    }
    Path guarded = Files.createDirectory(temp.resolve("guarded"));
    try (Stream<Path> files = Files.list(Records.LIBRARY)) {
      for (Path file : files.toList()) {
        Files.copy(file, guarded.resolve(String.valueOf(file.getFileName())));
      }
    }
    Path toml = guarded.resolve("job.toml");
    Files.writeString(toml, Files.readString(toml).replace("\"simple\"", "\"guarded\""));
    assertThat(audited(page, Records.record(guarded, temp.resolve("g"))))
        .contains("again under the guarded rule")
        .contains("All that this page can check agrees.");
    page.context().close();
  }

  @Test
  void aLieThatFitsItsHashIsFoundByDecidingAgain() throws IOException {
    Path forged = Records.copy(record, temp.resolve("forged"));
    Path readings = forged.resolve("readings.csv");
    Files.writeString(
        readings,
        Files.readString(readings)
            .replaceFirst(",reject,", ",accept,")
            .replaceFirst(",0.24,1.57", ",0.14,1.57"));
    Files.writeString(
        forged.resolve("index.txt"),
        FileIndex.of(forged).without(List.of("index.txt", "index.sig")).text());
    Page page = page();
    assertThat(audited(page, forged))
        .contains("index.sig: it does not fit")
        .containsPattern(
            "readings.csv, line 3: L01/1 A-B 1550 nm, loss_db: the record says 0.14; 0.24 follows")
        .containsPattern("decision: the record says accept; reject follows");
    page.screenshot(
        new Page.ScreenshotOptions().setFullPage(true).setPath(SHOTS.resolve("differs-1280.png")));
    page.setViewportSize(390, 900);
    page.screenshot(
        new Page.ScreenshotOptions().setFullPage(true).setPath(SHOTS.resolve("differs-390.png")));
    page.context().close();
  }

  @Test
  void flippedBitsAreNamedWithTheirFile() throws IOException {
    Page page = page();
    Random random = new Random(7);
    List<String> names = new ArrayList<>(FileIndex.of(record).hashes().keySet());
    for (int i = 0; i < 30; i++) {
      Path flipped = Records.copy(record, temp.resolve("flip-" + i));
      String name = names.get(i % names.size());
      byte[] bytes = Files.readAllBytes(flipped.resolve(name));
      int bit = random.nextInt(bytes.length * 8);
      bytes[bit / 8] ^= (byte) (1 << (bit % 8));
      Files.write(flipped.resolve(name), bytes);
      assertThat(audited(page, flipped))
          .as("%s, bit %d", name, bit)
          .contains(name)
          .doesNotContain("agrees.\n");
    }
    page.context().close();
  }

  @Test
  void aRecordWithoutWhatItWasMadeFromDoesNotAgree() throws IOException {
    Page page = page();
    for (String file : List.of("entries.jsonl", "judgement.json", "readings.csv")) {
      Path without = Records.copy(record, temp.resolve("without-" + file));
      for (String gone : List.of(file, "index.sig", "public-key.pem")) {
        Files.delete(without.resolve(gone));
      }
      Files.writeString(
          without.resolve("index.txt"), FileIndex.of(without).without(List.of("index.txt")).text());
      assertThat(audited(page, without)).as(file).contains(file + ": ");
    }
    page.context().close();
  }

  @Test
  void anotherKeyThanTheOneAskedForIsSaid() {
    Page page = page();
    page.locator("#key").fill("ab:cd");
    assertThat(audited(page, record)).contains("you asked for abcd");
    page.context().close();
  }

  @Test
  void aBrowserWithoutEd25519SaysSoAndChecksTheRest() {
    Page page = browser.newContext().newPage();
    page.addInitScript(
        "SubtleCrypto.prototype.importKey = async () => { throw new DOMException('', 'NotSupportedError'); };");
    page.navigate(record.resolve("audit.html").toUri().toString());
    assertThat(audited(page, record))
        .contains("This browser has no Ed25519, so the signature was not verified")
        .contains("each fits its hash");
    page.context().close();
  }

  @Test
  void whatIsNoRecordIsSaid() throws IOException {
    Path folder = Files.createDirectory(temp.resolve("holiday"));
    Files.writeString(folder.resolve("beach.txt"), "sand");
    Page page = page();
    assertThat(audited(page, folder)).contains("This folder is not a record");
    page.context().close();
  }

  @Test
  void thePageIsAccessibleAndFitsItsWindowByDayAndNight() {
    Page page = page();
    audited(page, record);
    for (ColorScheme scheme : List.of(ColorScheme.LIGHT, ColorScheme.DARK)) {
      page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(scheme));
      for (int width : List.of(390, 1280)) {
        page.setViewportSize(width, 900);
        Chromium.assertNoSidewaysScroll(page);
        page.screenshot(
            new Page.ScreenshotOptions()
                .setFullPage(true)
                .setPath(SHOTS.resolve("agrees-" + scheme + "-" + width + ".png")));
        Chromium.assertAccessible(page);
      }
    }
    page.context().close();
  }

  /** So that a record's page is the one that can be had from elsewhere. */
  @Test
  void thePageOfARecordIsThePageOfThisFerrule() throws IOException {
    assertThat(
            Files.mismatch(
                record.resolve("audit.html"),
                Records.ROOT.resolve("record/src/main/resources/audit.html")))
        .isEqualTo(-1);
    assertThat(
            new ObjectMapper()
                .readTree(record.resolve("record.json").toFile())
                .get("record_format")
                .asInt())
        .isEqualTo(1);
  }
}
