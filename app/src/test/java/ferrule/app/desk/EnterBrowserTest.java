package ferrule.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.ColorScheme;
import ferrule.app.Chromium;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The pages for typing in a real browser: axe-core, both schemes, gloves, keys, two at once. */
class EnterBrowserTest {

  private static final Path SHOTS = Path.of("target", "desk-shots");

  /** Two browsers see each other's entries within this. */
  private static final double TOGETHER_MS = 2_000;

  private static Playwright playwright;
  private static Browser browser;
  private static final List<String> COMPLAINTS = new ArrayList<>();

  private final Path temp;
  private Path job;
  private JobFileSource source;
  private DeskServer desk;

  EnterBrowserTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeAll
  static void openBrowser() throws Exception {
    playwright = Chromium.driver();
    browser = Chromium.launch(playwright);
    Files.createDirectories(SHOTS);
  }

  @AfterAll
  static void closeBrowser() {
    playwright.close();
    assertThat(COMPLAINTS).as("complaints of the browser").isEmpty();
  }

  @BeforeEach
  void open() throws Exception {
    job = TypingJob.make(temp, 6, "Vat house " + TypingJob.HOSTILE);
    source = JobFileSource.open(job);
    desk = DeskServer.start(source, 0);
  }

  @AfterEach
  void close() {
    // Before the desk: a page whose desk is gone complains.
    browser.contexts().forEach(BrowserContext::close);
    desk.close();
  }

  private static Page page(Browser.NewContextOptions options) {
    BrowserContext context = browser.newContext(options);
    Page page = context.newPage();
    page.onConsoleMessage(
        message -> {
          // The browser reports the status of a form that was refused, as it must be, and what a
          // test cuts off.
          if (message.type().equals("error")
              && !message.text().matches(".*(status of 4(09|22)|net::ERR_FAILED).*")) {
            COMPLAINTS.add(page.url() + ": " + message.text());
          }
        });
    page.onPageError(error -> COMPLAINTS.add(page.url() + ": " + error));
    return page;
  }

  private static Page page() {
    return page(new Browser.NewContextOptions().setViewportSize(1280, 900));
  }

  private void begin(Page page, String shows) {
    page.navigate(desk.address() + "enter");
    page.locator("#place").selectOption("Vat house " + TypingJob.HOSTILE);
    page.locator("#shows").selectOption(shows);
    page.locator("#operator").fill("Teasel");
    page.locator("form.work button").first().click();
    page.locator("#typing").waitFor();
  }

  private static void store(Page page, String first, String second) {
    page.locator("#v1310").fill(first);
    page.locator("#v1550").fill(second);
    page.locator("#typing button[type=submit]").click();
  }

  private static void assertGood(Page page, String name) {
    for (ColorScheme scheme : List.of(ColorScheme.LIGHT, ColorScheme.DARK)) {
      page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(scheme));
      for (int width : List.of(390, 1280)) {
        page.setViewportSize(width, 900);
        assertThat(page.locator("h1").count()).isEqualTo(1);
        Chromium.assertNoSidewaysScroll(page);
        page.screenshot(
            new Page.ScreenshotOptions()
                .setFullPage(true)
                .setPath(SHOTS.resolve(name + "-" + scheme + "-" + width + ".png")));
        Chromium.assertAccessible(page);
        assertThat(small(page))
            .as("too small for a glove on %s at %s px", name, width)
            .isEqualTo("");
      }
    }
    page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.LIGHT));
  }

  /** What is touched while working and is lower than 44 px. */
  private static Object small(Page page) {
    return page.evaluate(
        "() => Array.from(document.querySelectorAll('.work button, .work select,"
            + " .work input[type=text], .work label:has(+ input[type=radio]), .setup summary,"
            + " .next a, .readings a, input[type=radio] + label, input[type=checkbox] + label'))"
            + ".filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 44)"
            + ".map(e => e.outerHTML + ' ' + e.getBoundingClientRect().height).join('; ')");
  }

  @Test
  void everyStateOfThePagesIsAccessibleFitsItsWindowAndSuitsGloves() {
    Page page = page();
    page.navigate(desk.address() + "enter");
    assertGood(page, "enter-begin");
    begin(page, "level");
    assertGood(page, "enter-first");
    store(page, "-5.6", "-9,9");
    page.locator("#stored li").first().waitFor();
    assertGood(page, "enter-stored");
    store(page, "5.6", "-5.x");
    page.locator("#typing .wrong").first().waitFor();
    assertGood(page, "enter-wrong");
    page.navigate(page.url() + "&fibre=D001%2F1");
    store(page, "-5.7", "");
    page.locator("#why-wrong").waitFor();
    assertGood(page, "enter-there");
    page.locator("#last .readings a").first().click();
    page.waitForURL("**/reading/**");
    assertGood(page, "reading");
    page.locator("button[value=withdraw]").click();
    page.locator("#why-wrong").waitFor();
    assertGood(page, "reading-wrong");
    page.locator("#why").fill("typed at the wrong port");
    page.locator("button[value=withdraw]").click();
    page.waitForURL("**done=yes**");
    assertGood(page, "reading-withdrawn");
  }

  @Test
  void everyStepOfSettingAZeroIsAccessibleAndGoneByTheKeyAlone() {
    Page page = page();
    page.navigate(desk.address() + "set-zero");
    for (String field : List.of("launch", "receive", "operator")) {
      page.locator("#" + field).focus();
      page.keyboard().press("ControlOrMeta+a");
      page.keyboard().type(field.equals("operator") ? "Teasel" : "cord <b>" + field);
    }
    assertGood(page, "zero-line");
    page.keyboard().press("Enter");
    page.getByText("Step 2 of 4").waitFor();
    assertGood(page, "zero-faces");
    page.locator(".work button").first().click();
    page.getByText("Step 3 of 4").waitFor();
    page.locator("input[type=text]").first().fill("-9,4");
    page.locator(".work button").first().click();
    page.locator(".wrong:not(:empty)").first().waitFor();
    assertGood(page, "zero-set");
    for (Locator field : page.locator("input[type=text]").all()) {
      field.fill("-5.2");
    }
    page.locator(".work button").first().click();
    page.getByText("Step 4 of 4").waitFor();
    assertGood(page, "zero-verify");
    page.locator(".work button").first().click();
    page.waitForURL("**/zero/Z2");
    assertThat(source.job().zeros()).hasSize(2);
  }

  @Test
  void twoBrowsersSeeEachOthersEntriesWithinTwoSeconds() {
    Page one = page();
    Page other = page();
    Page today = page();
    begin(one, "loss");
    begin(other, "loss");
    today.navigate(desk.address().toString());
    other.locator("#v1310").fill("0.5");
    store(one, "0.41", "0.36");
    one.locator("#stored li").first().waitFor();
    double asked = System.nanoTime();
    other
        .locator("#last li", new Page.LocatorOptions().setHasText("0.41 dB"))
        .waitFor(new Locator.WaitForOptions().setTimeout(TOGETHER_MS));
    assertThat((System.nanoTime() - asked) / 1e6).isLessThan(TOGETHER_MS);
    today.locator("#now a").waitFor(new Locator.WaitForOptions().setTimeout(TOGETHER_MS));
    // What the other was typing of the same fibre is still there, beside what came in.
    assertThat(other.locator("#v1310").inputValue()).isEqualTo("0.5");
    assertThat(other.locator("#typing").textContent()).contains("There already: 0.41 dB");
    for (Page page : List.of(one, other, today)) {}
  }

  @Test
  void theSecondOfTwoWhoTypeOneFibreIsToldAndDecides() {
    Page one = page();
    Page other = page();
    begin(one, "loss");
    begin(other, "loss");
    // The other browser does not hear of it before it sends.
    other.route("**/changes", route -> route.abort());
    store(one, "0.41", "0.36");
    one.locator("#stored li").first().waitFor();
    store(other, "0.52", "");
    other.locator("#typing [role=alert]").waitFor();
    assertThat(other.locator("#typing").textContent())
        .contains("Somebody else has entered a reading", "There already: 0.41 dB");
    assertThat(other.locator("#v1310").inputValue()).isEqualTo("0.52");
    other.locator("#why").fill("cleaned and read again");
    other.locator("#typing button[type=submit]").click();
    other.locator("#stored li").first().waitFor();
    assertThat(other.locator("#unsent").isVisible()).isFalse();
    assertThat(source.job().readings()).hasSize(3);
  }

  @Test
  void readingsAreTypedWithoutAScript() {
    Page page =
        page(new Browser.NewContextOptions().setViewportSize(390, 900).setJavaScriptEnabled(false));
    begin(page, "level");
    store(page, "-5,60", "−5.9");
    page.waitForURL("**stored=**");
    assertThat(page.locator("#typing").getAttribute("data-fibre")).isEqualTo("D001/2");
    store(page, "5.6", "");
    page.locator("#typing .wrong").first().waitFor();
    assertThat(page.locator("#v1310").inputValue()).isEqualTo("5.6");
    store(page, "-5.6", "");
    page.waitForURL("**stored=**");
    assertThat(source.job().readings()).hasSize(3);
  }

  @Test
  void everythingIsReachedByTheKeyAndSeenToBe() {
    Page page = page();
    begin(page, "level");
    store(page, "-5.6", "-9.9");
    page.locator("#stored li").first().waitFor();
    page.navigate(page.url());
    DeskBrowserTest.assertReachedByTheKey(page, "/enter");
  }
}
