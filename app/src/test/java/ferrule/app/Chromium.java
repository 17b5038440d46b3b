package ferrule.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** A real browser for tests, and what every page in it must hold to. */
public final class Chromium {

  private Chromium() {}

  /** A driver that fetches no browser of its own; whoever asks closes it. */
  public static Playwright driver() {
    return Playwright.create(
        new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
  }

  /** The browser; fails where there is none. */
  public static Browser launch(Playwright driver) {
    return driver
        .chromium()
        .launch(
            new BrowserType.LaunchOptions()
                .setExecutablePath(program())
                .setArgs(List.of("--no-sandbox", "--disable-background-networking")));
  }

  private static Path program() {
    String named = System.getenv("FERRULE_CHROMIUM");
    Stream<String> candidates =
        named == null || named.isBlank()
            ? Stream.of("/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome")
            : Stream.of(named);
    return candidates
        .map(Path::of)
        .filter(Files::isExecutable)
        .findFirst()
        .orElseThrow(
            () ->
                new AssertionError(
                    "The tests of pages need a browser: install Chromium (on Debian: apt-get"
                        + " install chromium), or name its program in FERRULE_CHROMIUM"));
  }

  /** A page is read down, never sideways. */
  public static void assertNoSidewaysScroll(Page page) {
    int wider =
        (Integer)
            page.evaluate(
                "() => document.documentElement.scrollWidth - document.documentElement.clientWidth");
    assertThat(wider).as("%s is wider than its window by", page.url()).isLessThanOrEqualTo(0);
  }

  /** No violation of WCAG 2.2 AA or of good practice that axe-core weighs moderate or more. */
  public static void assertAccessible(Page page) {
    page.evaluate(AxeBuilder.getAxeScript());
    Object bad =
        page.evaluate(
            "async () => { const found = await axe.run(document, {resultTypes: ['violations'],"
                + " runOnly: {type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa',"
                + " 'wcag22aa', 'best-practice']}}); if (found.testEngine.name !== 'axe-core')"
                + " return 'axe-core did not run'; return found.violations"
                + ".filter(v => v.impact !== 'minor').map(v => v.id + ' (' + v.impact + '): ' +"
                + " v.nodes.slice(0, 3).map(n => n.html).join(' | ')).join('; '); }");
    assertThat(bad).as(page.url()).isEqualTo("");
  }
}
