package ferrule.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import ferrule.app.Chromium;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The desk in a real browser: accessibility by axe-core (rules of WCAG 2.2 AA), layout, keyboard,
 * and that nothing is asked of any other machine. Needs Chromium; never skipped.
 */
class DeskBrowserTest {

  private static final Map<String, String> PAGES =
      Map.ofEntries(
          Map.entry("today", "/"),
          Map.entry("links", "/links"),
          Map.entry("links-filtered", "/links?standing=purple&order=margin&text=G00"),
          Map.entry("link", "/link/G002"),
          Map.entry("link-failed", "/link/G004"),
          Map.entry("zeros", "/zeros"),
          Map.entry("zero", "/zero/Z6"),
          Map.entry("doubts", "/doubts"),
          Map.entry("plan", "/plan"),
          Map.entry("applications", "/applications"),
          Map.entry("what-if", "/what-if?rulebook=iec-61753-1-grade-b&method=two-cord"),
          Map.entry("rulebook", "/rulebook"),
          Map.entry("message", "/nowhere"));

  private static final Path SHOTS = Path.of("target", "desk-shots");

  private static Playwright playwright;
  private static Browser browser;
  private static DeskServer desk;

  /** What was asked of another machine, and what the browser complained of, in all tests. */
  private static final List<String> FOREIGN = new ArrayList<>();

  private static final List<String> COMPLAINTS = new ArrayList<>();

  @BeforeAll
  static void open() throws Exception {
    desk = DeskServer.start(SampleJob.source(), 0);
    playwright = Chromium.driver();
    browser = Chromium.launch(playwright);
    Files.createDirectories(SHOTS);
  }

  @AfterAll
  static void close() {
    if (playwright != null) {
      playwright.close();
    }
    if (desk != null) {
      desk.close();
    }
    assertThat(FOREIGN).as("requests to other machines").isEmpty();
    assertThat(COMPLAINTS).as("complaints of the browser").isEmpty();
  }

  static Stream<String> names() {
    return PAGES.keySet().stream().sorted();
  }

  private static String path(String name) {
    return PAGES.getOrDefault(name, "/");
  }

  private static Page page(Browser.NewContextOptions options) {
    BrowserContext context = browser.newContext(options);
    Page page = context.newPage();
    String own = desk.address().toString();
    page.onRequest(
        request -> {
          if (!request.url().startsWith(own)) {
            FOREIGN.add(request.url());
          }
        });
    page.onConsoleMessage(
        message -> {
          // The browser reports the status 404 of a page that is meant to be missing.
          if (message.type().equals("error") && !message.text().contains("404")) {
            COMPLAINTS.add(page.url() + ": " + message.text());
          }
        });
    page.onPageError(error -> COMPLAINTS.add(page.url() + ": " + error));
    return page;
  }

  private static Page page(ColorScheme scheme, int width) {
    return page(new Browser.NewContextOptions().setViewportSize(width, 900).setColorScheme(scheme));
  }

  private static void go(Page page, String path) {
    page.navigate("http://127.0.0.1:" + desk.port() + path);
  }

  @Test
  void theAccessibilityCheckFindsWhatIsWrong() {
    Page page = page(ColorScheme.LIGHT, 1280);
    go(page, "/zeros");
    page.evaluate("() => { document.querySelector('h1').style.color = '#ddd'; }");
    assertThat(
            org.assertj.core.api.Assertions.catchThrowable(() -> Chromium.assertAccessible(page)))
        .hasMessageContaining("color-contrast");
    page.context().close();
  }

  @ParameterizedTest
  @MethodSource("names")
  void everyPageIsAccessibleAndFitsItsWindow(String name) {
    Page page = page(ColorScheme.LIGHT, 1280);
    for (ColorScheme scheme : List.of(ColorScheme.LIGHT, ColorScheme.DARK)) {
      page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(scheme));
      for (int width : List.of(390, 1280, 1440)) {
        page.setViewportSize(width, 900);
        go(page, path(name));
        assertThat(page.locator("h1").count()).isEqualTo(1);
        Chromium.assertNoSidewaysScroll(page);
        if (width != 1440) {
          page.screenshot(
              new Page.ScreenshotOptions()
                  .setFullPage(true)
                  .setPath(SHOTS.resolve(name + "-" + scheme + "-" + width + ".png")));
        }
        if (width != 1280) {
          page.evaluate(
              "() => document.querySelectorAll('details').forEach(d => { d.open = true; })");
          Chromium.assertNoSidewaysScroll(page);
          Chromium.assertAccessible(page);
        }
      }
    }
    page.context().close();
  }

  @Test
  void everyPageHoldsAtTwiceTheSize() {
    for (ColorScheme scheme : List.of(ColorScheme.LIGHT, ColorScheme.DARK)) {
      // A window 1280 wide, zoomed to 200 %, lays out as 640 wide with two dots to a pixel.
      Page page =
          page(
              new Browser.NewContextOptions()
                  .setViewportSize(640, 450)
                  .setDeviceScaleFactor(2)
                  .setColorScheme(scheme));
      for (String path : PAGES.values()) {
        go(page, path);
        Chromium.assertNoSidewaysScroll(page);
        Chromium.assertAccessible(page);
      }
      page.context().close();
    }
    Page page = page(ColorScheme.LIGHT, 1280);
    for (String path : PAGES.values()) {
      go(page, path);
      page.evaluate("() => { document.documentElement.style.fontSize = '200%'; }");
      Chromium.assertNoSidewaysScroll(page);
    }
    page.context().close();
  }

  /** Tab goes to everything that can be used, and shows where it is. */
  static void assertReachedByTheKey(Page page, String path) {
    Object usable =
        page.evaluate(
            "() => Array.from(document.querySelectorAll('a[href], button, input, select, summary,"
                + " [tabindex=\"0\"]')).filter(e => e.checkVisibility()).length");
    int reached = 0;
    for (; reached < 2_000; reached++) {
      page.keyboard().press("Tab");
      // After the last the browser begins again at the first, the skip link.
      Object here =
          page.evaluate(
              "() => { const e = document.activeElement; if (!e || e === document.body ||"
                  + " (window.begun && e.matches('.skip'))) return 'out'; window.begun = true;"
                  + " const s = getComputedStyle(e); const r = e.getBoundingClientRect();"
                  + " return s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2 &&"
                  + " r.width > 0 && r.left >= 0 ? 'seen' : 'unseen ' + e.outerHTML; }");
      if (here.equals("out")) {
        break;
      }
      assertThat(here).as(path).isEqualTo("seen");
    }
    assertThat(reached).as("things reached on %s", path).isEqualTo(usable);
  }

  @Test
  void everythingThatCanBeUsedIsReachedByTheKeyAndSeenToBe() {
    Page page = page(ColorScheme.LIGHT, 1280);
    for (String path : PAGES.values()) {
      go(page, path);
      assertReachedByTheKey(page, path);
    }
    page.context().close();
  }

  @Test
  void theSkipLinkLeadsToTheContent() {
    Page page = page(ColorScheme.LIGHT, 1280);
    go(page, "/links");
    page.keyboard().press("Tab");
    assertThat(page.evaluate("() => document.activeElement.textContent"))
        .isEqualTo("Skip to the content");
    page.keyboard().press("Enter");
    page.keyboard().press("Tab");
    assertThat(page.evaluate("() => document.activeElement.closest('main') !== null"))
        .isEqualTo(true);
    page.context().close();
  }

  @Test
  void theListIsNarrowedAndWalkedByTheKeyAlone() {
    Page page = page(ColorScheme.LIGHT, 1280);
    go(page, "/links");
    page.locator("#text").focus();
    page.keyboard().type("G004");
    page.keyboard().press("Enter");
    page.waitForURL("**/links?*text=G004*");
    assertThat(page.locator("a.step").allTextContents()).containsExactly("G004/1", "G004/2");
    page.locator("a.step").first().focus();
    page.keyboard().press("ArrowDown");
    assertThat(page.evaluate("() => document.activeElement.textContent")).isEqualTo("G004/2");
    page.keyboard().press("Enter");
    page.waitForURL("**/link/G004#f2");
    page.locator("summary").first().focus();
    page.keyboard().press("Enter");
    assertThat(page.locator("details[open]").count()).isEqualTo(1);
    page.context().close();
  }

  @Test
  void everythingIsThereWithoutScripts() {
    Page page =
        page(
            new Browser.NewContextOptions().setViewportSize(1280, 900).setJavaScriptEnabled(false));
    go(page, "/links");
    page.locator("#standing").selectOption("failed");
    page.locator("button[type=submit]").click();
    page.waitForURL("**/links?standing=failed*");
    assertThat(page.locator(".book > .entry").count()).isEqualTo(1);
    page.locator("a.step").first().click();
    page.waitForURL("**/link/G004#f1");
    page.locator("summary").first().click();
    assertThat(page.locator("details[open] table").first().isVisible()).isTrue();
    assertThat(page.locator("button.fold").count()).isZero();
    page.context().close();
  }

  @Test
  void thePrintedPageLeavesOutWhatPaperCannotDo() {
    Page page = page(ColorScheme.DARK, 1280);
    go(page, "/links");
    page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
    assertThat(page.locator("form.filter").isVisible()).isFalse();
    assertThat(page.locator(".top nav").isVisible()).isFalse();
    assertThat(page.evaluate("() => getComputedStyle(document.documentElement).backgroundColor"))
        .isEqualTo("rgb(255, 255, 255)");
    assertThat(page.locator("svg.band").first().isVisible()).isTrue();
    page.screenshot(new Page.ScreenshotOptions().setPath(SHOTS.resolve("print.png")));
    page.context().close();
  }
}
