package ferrule.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.WaitForSelectorState;
import ferrule.app.Chromium;
import ferrule.core.zero.Reading;
import ferrule.store.job.JobFile;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Readings typed through a real browser while the desk is killed and started again: none is lost
 * and none is stored twice. {@code -Dferrule.typed=300 -Dferrule.kills=10} types more and kills
 * oftener; the seed is {@code -Dferrule.seed}.
 */
class UnsentTest {

  private static final int READINGS = Integer.getInteger("ferrule.typed", 30);
  private static final int KILLS = Integer.getInteger("ferrule.kills", 3);
  private static final long SEED = Long.getLong("ferrule.seed", 20L);
  private static final double PATIENCE_MS = 60_000;

  private static Playwright playwright;
  private static Browser browser;

  @BeforeAll
  static void open() {
    playwright = Chromium.driver();
    browser = Chromium.launch(playwright);
  }

  @AfterAll
  static void close() {
    playwright.close();
  }

  private static int freePort() throws Exception {
    try (ServerSocket socket = new ServerSocket(0)) {
      return socket.getLocalPort();
    }
  }

  private static String begin(RunningDesk desk) {
    return desk.address()
        + "enter?place=Vat+house&direction=A-B&zero=Z1&shows=loss&operator=Teasel";
  }

  private static List<Reading> stored(Path job) throws Exception {
    try (JobFile file = JobFile.open(job, Clock.systemUTC(), new Random(1))) {
      return file.load().job().readings();
    }
  }

  private static String fibre(Page page) {
    return String.valueOf(page.locator("#typing").getAttribute("data-fibre"));
  }

  /** Types one fibre by the keyboard alone and waits until the page has gone on. */
  private static String type(Page page, String first, String second) {
    String fibre = fibre(page);
    page.locator("#v1310").focus();
    page.keyboard().type(first);
    page.keyboard().press("Enter");
    assertThat(page.evaluate("() => document.activeElement.id")).isEqualTo("v1550");
    page.keyboard().type(second);
    page.keyboard().press("Enter");
    page.waitForFunction(
        "was => !document.getElementById('typing')"
            + " || document.getElementById('typing').dataset.fibre !== was",
        fibre,
        new Page.WaitForFunctionOptions().setTimeout(PATIENCE_MS));
    return fibre;
  }

  private static void awaitAllSent(Page page) {
    page.locator("#unsent")
        .waitFor(
            new Locator.WaitForOptions()
                .setState(WaitForSelectorState.HIDDEN)
                .setTimeout(PATIENCE_MS));
  }

  @Test
  void readingsTypedWhileTheDeskIsKilledAndStartedAgainAreEachStoredOnce(@TempDir Path temp)
      throws Exception {
    int fibres = READINGS / 2;
    Path job = TypingJob.make(temp, fibres / 2 + 2);
    Random random = new Random(SEED);
    TreeSet<Integer> killAt = new TreeSet<>();
    while (killAt.size() < Math.min(KILLS, fibres - 1)) {
      killAt.add(random.nextInt(fibres - 1));
    }
    Map<String, String> typed = new HashMap<>();
    int offline = 0;
    try (RunningDesk desk = new RunningDesk(job, freePort());
        BrowserContext context = browser.newContext()) {
      Page page = context.newPage();
      page.navigate(begin(desk));
      List<CompletableFuture<Void>> restarts = new ArrayList<>();
      for (int i = 0; i < fibres; i++) {
        if (killAt.contains(i)) {
          restarts.forEach(CompletableFuture::join);
          restarts.clear();
          long after = random.nextInt(120);
          long dead = 300 + random.nextInt(1500);
          restarts.add(CompletableFuture.runAsync(() -> killAndStart(desk, after, dead)));
        }
        String first = String.format(Locale.ROOT, "0.%04d", 2000 + 2 * i);
        String second = String.format(Locale.ROOT, "0,%04d", 2001 + 2 * i);
        String fibre = type(page, first, second);
        assertThat(typed.put(fibre + " 1310", first)).as("%s offered twice", fibre).isNull();
        typed.put(fibre + " 1550", second.replace(',', '.'));
        if (page.locator("#unsent").isVisible()) {
          offline++;
        }
      }
      restarts.forEach(CompletableFuture::join);
      awaitAllSent(page);
    }
    Map<String, String> found = new HashMap<>();
    for (Reading reading : stored(job)) {
      String value = String.format(Locale.ROOT, "%.4f", reading.lossDb());
      assertThat(found.put(reading.fibreId() + " " + reading.wavelength().nm(), value))
          .as("%s stored twice", reading)
          .isNull();
    }
    assertThat(found).isEqualTo(typed).hasSize(2 * fibres);
    assertThat(offline).as("fibres typed while the desk could not be reached").isPositive();
  }

  private static void killAndStart(RunningDesk desk, long afterMs, long deadMs) {
    try {
      TimeUnit.MILLISECONDS.sleep(afterMs);
      desk.kill();
      TimeUnit.MILLISECONDS.sleep(deadMs);
      desk.startAgain();
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void whatWasNotSentOutlivesItsPageAndIsSentByTheNext(@TempDir Path temp) throws Exception {
    Path job = TypingJob.make(temp, 3);
    try (RunningDesk desk = new RunningDesk(job, freePort());
        BrowserContext context = browser.newContext()) {
      Page page = context.newPage();
      page.navigate(begin(desk));
      desk.kill();
      type(page, "0.41", "0.36");
      assertThat(page.locator("#unsent").textContent())
          .contains("1 entry not yet stored", "D001/1 A-B: 1310 nm 0.41, 1550 nm 0.36");
      page.close();
      desk.startAgain();
      assertThat(stored(job)).isEmpty();
      Page next = context.newPage();
      next.navigate(desk.address());
      next.waitForFunction("() => document.getElementById('now').textContent.includes('added')");
      awaitAllSent(next);
    }
    assertThat(stored(job)).extracting(Reading::lossDb).containsExactly(0.41, 0.36);
  }

  @Test
  void anEntryThatTheDeskRefusesLaterWaitsForAnAnswer(@TempDir Path temp) throws Exception {
    Path job = TypingJob.make(temp, 3);
    try (RunningDesk desk = new RunningDesk(job, freePort());
        BrowserContext context = browser.newContext()) {
      Page page = context.newPage();
      page.navigate(begin(desk));
      desk.kill();
      type(page, "0.4l", "0.36");
      desk.startAgain();
      Locator look = page.locator("#unsent button").first();
      look.waitFor(new Locator.WaitForOptions().setTimeout(PATIENCE_MS));
      assertThat(stored(job)).isEmpty();
      look.click();
      page.locator("#typing .wrong").first().waitFor();
      assertThat(page.locator("#v1310").inputValue()).isEqualTo("0.4l");
      page.locator("#v1310").fill("0.41");
      page.locator("#typing button[type=submit]").click();
      awaitAllSent(page);
      page.locator("#stored li").first().waitFor();
    }
    assertThat(stored(job)).extracting(Reading::lossDb).containsExactly(0.41, 0.36);
  }
}
