package ferrule.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.plant.FibreId;
import ferrule.core.zero.Reading;
import ferrule.store.job.JobFile;
import ferrule.store.job.KeptReading;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Readings typed through the desk's forms, without a script. */
class EnterHttpTest {

  private static final HttpClient CLIENT = HttpClient.newHttpClient();
  private static final FibreId FIRST = new FibreId("D001", 1);

  private final Path temp;
  private Path job;
  private JobFileSource source;
  private DeskServer desk;

  EnterHttpTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeEach
  void open() throws Exception {
    job = TypingJob.make(temp, 4);
    source = JobFileSource.open(job);
    desk = DeskServer.start(source, 0);
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private static String encoded(Map<String, String> fields) {
    return fields.entrySet().stream()
        .map(e -> encoded(e.getKey()) + "=" + encoded(e.getValue()))
        .collect(Collectors.joining("&"));
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  private HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return CLIENT.send(
        HttpRequest.newBuilder(desk.address().resolve(path)).build(),
        HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
  }

  private HttpRequest.Builder request(String path, String body) {
    return HttpRequest.newBuilder(desk.address().resolve(path))
        .header("Content-Type", "application/x-www-form-urlencoded")
        .POST(HttpRequest.BodyPublishers.ofString(body));
  }

  private HttpResponse<String> post(String path, Map<String, String> fields)
      throws IOException, InterruptedException {
    return CLIENT.send(
        request(path, encoded(fields))
            .header("Origin", "http://127.0.0.1:" + desk.port())
            .header("Sec-Fetch-Site", "same-origin")
            .build(),
        HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
  }

  private Map<String, String> form(String... more) {
    Map<String, String> fields = new LinkedHashMap<>();
    fields.put("job", source.id());
    fields.put("key", UUID.randomUUID().toString());
    fields.put("fibre", "D001/1");
    fields.put("place", "Vat house");
    fields.put("direction", "A-B");
    fields.put("zero", "Z1");
    fields.put("shows", "level");
    fields.put("operator", "Teasel");
    fields.put("k1310", "0");
    fields.put("k1550", "0");
    for (int i = 0; i < more.length; i += 2) {
      fields.put(more[i], more[i + 1]);
    }
    return fields;
  }

  private List<Reading> readings() throws Exception {
    try (JobFile file = JobFile.open(job, Clock.systemUTC(), new Random(1))) {
      return file.load().job().readings();
    }
  }

  private String key(int wavelength) {
    return Long.toString(
        source.readings(FIRST).stream()
            .filter(KeptReading::stands)
            .filter(k -> k.reading().wavelength().nm() == wavelength)
            .mapToLong(KeptReading::seq)
            .max()
            .orElse(0));
  }

  @Test
  void levelsAreStoredAndTheNextFibreIsOfferedWithDecisionAndMargin() throws Exception {
    HttpResponse<String> answer = post("/enter", form("v1310", "−5,60", "v1550", "-5.9 dBm"));
    assertThat(answer.statusCode()).isEqualTo(303);
    String next = answer.headers().firstValue("Location").orElseThrow();
    assertThat(readings()).hasSize(2);
    Reading first = readings().get(0);
    assertThat(first.powerDbm()).isEqualTo(-5.6);
    assertThat(first.hasLoss()).isFalse();
    assertThat(first.reference()).isEqualTo("Z1");
    assertThat(first.operator()).isEqualTo("Teasel");
    assertThat(first.measuredAt()).isBetween(Instant.now().minusSeconds(60), Instant.now());
    assertThat(get(next).body())
        .contains("-5.60 dBm, a loss of 0.48 dB", "Accept: limit ", "Fibre <bdi>D001/2</bdi>")
        .contains("Still to read here: 7 fibres");
  }

  @Test
  void whatIsSentTwiceIsStoredOnceAndAnsweredAlike() throws Exception {
    Map<String, String> form = form("v1310", "-5.60");
    String first = post("/enter", form).headers().firstValue("Location").orElseThrow();
    String second = post("/enter", form).headers().firstValue("Location").orElseThrow();
    assertThat(second).isEqualTo(first);
    assertThat(readings()).hasSize(1);
  }

  @Test
  void theSecondOfTwoTabsIsToldWhatIsThereAndKeepsWhatItTyped() throws Exception {
    post("/enter", form("v1310", "-5.60"));
    HttpResponse<String> second = post("/enter", form("v1310", "-5.71"));
    assertThat(second.statusCode()).isEqualTo(409);
    assertThat(second.body())
        .contains("Somebody else has entered a reading of this fibre")
        .contains("There already: <b>-5.60 dBm</b>", "value=\"-5.71\"", "Why, in a few words");
    assertThat(readings()).hasSize(1);
    HttpResponse<String> unreasoned = post("/enter", form("v1310", "-5.71", "k1310", key(1310)));
    assertThat(unreasoned.statusCode()).isEqualTo(422);
    assertThat(unreasoned.body()).contains("say why another one is entered", "value=\"-5.71\"");
    HttpResponse<String> reasoned =
        post(
            "/enter",
            form(
                "v1310",
                "-5.71",
                "k1310",
                key(1310),
                "how",
                "again",
                "why",
                "cleaned, read again"));
    assertThat(reasoned.statusCode()).isEqualTo(303);
    assertThat(readings()).extracting(Reading::powerDbm).containsExactly(-5.6, -5.71);
  }

  @Test
  void aReadingEnteredWronglyIsSupersededWithAReason() throws Exception {
    post("/enter", form("v1310", "-56", "sure1310", "-56"));
    post(
        "/enter",
        form("v1310", "-5.6", "k1310", key(1310), "how", "wrong", "why", "decimal point left out"));
    assertThat(readings()).extracting(Reading::powerDbm).containsExactly(-5.6);
    assertThat(source.readings(FIRST)).hasSize(2);
    assertThat(source.readings(FIRST).get(0).end().orElseThrow().why())
        .isEqualTo("decimal point left out");
  }

  @Test
  void aReadingIsWithdrawnOnItsOwnPageWithAReasonOnly() throws Exception {
    post("/enter", form("v1310", "-5.60"));
    String page = "/reading/" + key(1310);
    Map<String, String> form = new LinkedHashMap<>();
    form.put("job", source.id());
    form.put("key", UUID.randomUUID().toString());
    form.put("do", "withdraw");
    HttpResponse<String> unreasoned = post(page, form);
    assertThat(unreasoned.statusCode()).isEqualTo(422);
    assertThat(unreasoned.body()).contains("Say why: the reason stays with the entry.");
    form.put("why", "typed at the wrong port");
    HttpResponse<String> done = post(page, form);
    assertThat(done.statusCode()).isEqualTo(303);
    assertThat(post(page, form).statusCode()).isEqualTo(303);
    assertThat(readings()).isEmpty();
    assertThat(get(done.headers().firstValue("Location").orElseThrow()).body())
        .contains("Withdrawn: typed at the wrong port", "Stored.")
        .doesNotContain("Withdraw it");
    form.put("key", UUID.randomUUID().toString());
    assertThat(post(page, form).statusCode()).isEqualTo(409);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "level; 5.60; Was the minus sign left out?",
        "level; -5.6O; type the number alone",
        "level; 0.42 dB; choose loss above if the meter shows dB",
        "level; 512; look for the decimal mark",
        "level; -99; hardly any light arrives",
        "loss; -3; more light than went in",
        "loss; 1.234,5; type one decimal mark only",
        "loss; ; Nothing was typed",
      })
  void whatCannotBeIsAskedAboutAtItsFieldAndNothingTypedIsLost(
      String shows, String typed, String said) throws Exception {
    String value = typed == null ? "" : typed;
    HttpResponse<String> answer = post("/enter", form("shows", shows, "v1310", value));
    assertThat(answer.statusCode()).isEqualTo(422);
    assertThat(answer.body()).contains(said, "value=\"" + value + "\"");
    assertThat(readings()).isEmpty();
  }

  @Test
  void whatIsAskedAboutIsStoredOnceItIsAffirmed() throws Exception {
    assertThat(post("/enter", form("v1310", "-50", "sure1310", "-50")).statusCode()).isEqualTo(303);
    assertThat(post("/enter", form("v1550", "-51", "sure1550", "-50")).statusCode()).isEqualTo(422);
    assertThat(readings()).hasSize(1);
  }

  @Test
  void aLevelWithoutALevelOfTheZeroIsRefusedAndALossIsTaken() throws Exception {
    HttpResponse<String> answer = post("/enter", form("direction", "B-A", "v1550", "-5.9"));
    assertThat(answer.body()).contains("Zero Z1 has no level at 1550 nm B-A");
    assertThat(
            post("/enter", form("direction", "B-A", "shows", "loss", "v1550", "0.4")).statusCode())
        .isEqualTo(303);
  }

  @Test
  void aBrowserWhoseClockIsAheadIsToldAndOneThatSendsLateKeepsItsTime() throws Exception {
    String ahead = Instant.now().plus(Duration.ofHours(3)).toString();
    HttpResponse<String> answer = post("/enter", form("v1310", "-5.6", "at", ahead));
    assertThat(answer.statusCode()).isEqualTo(422);
    assertThat(answer.body()).contains("The clock of this browser is ahead", "value=\"-5.6\"");
    post("/enter", form("v1310", "-5.6", "at", "2026-10-05T09:00:00.123Z"));
    assertThat(readings().get(0).measuredAt()).isEqualTo(Instant.parse("2026-10-05T09:00:00Z"));
  }

  @Test
  void aFormOfAnotherJobIsNotTakenIntoThisOne() throws Exception {
    HttpResponse<String> answer = post("/enter", form("v1310", "-5.6", "job", "another"));
    assertThat(answer.statusCode()).isEqualTo(409);
    assertThat(answer.body()).contains("of another job");
    assertThat(readings()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "http://evil.example,",
    "null,",
    "http://evil.example,same-origin",
    ",cross-site",
    ",same-site",
    ",none",
    ",",
    "http://localhost:1,same-origin",
  })
  void onlyTheDesksOwnPagesMayEnterSomething(String origin, String site) throws Exception {
    String head = origin == null ? "" : "Origin: " + origin + "\r\n";
    head += site == null ? "" : "Sec-Fetch-Site: " + site + "\r\n";
    assertThat(raw(head, encoded(form("v1310", "-5.6")), "/enter"))
        .startsWith("HTTP/1.1 403")
        .contains("only from the desk's own pages");
    assertThat(readings()).isEmpty();
  }

  private String raw(String head, String body, String path) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), desk.port())) {
      socket
          .getOutputStream()
          .write(
              ("POST "
                      + path
                      + " HTTP/1.1\r\nHost: 127.0.0.1:"
                      + desk.port()
                      + "\r\n"
                      + head
                      + "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: "
                      + body.length()
                      + "\r\nConnection: close\r\n\r\n"
                      + body)
                  .getBytes(StandardCharsets.ISO_8859_1));
      socket.getOutputStream().flush();
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void whatIsTooLargeOrNoFormIsRefused() throws Exception {
    String own = "Origin: http://127.0.0.1:" + desk.port() + "\r\n";
    assertThat(raw(own, "v1310=" + "1".repeat(70_000), "/enter")).startsWith("HTTP/1.1 413");
    assertThat(raw(own, "a=%zz", "/enter"))
        .startsWith("HTTP/1.1 413")
        .contains("could not be read");
    HttpResponse<String> json =
        CLIENT.send(
            HttpRequest.newBuilder(URI.create(desk.address() + "enter"))
                .header("Origin", "http://127.0.0.1:" + desk.port())
                .header("Content-Type", "application/json")
                .POST(HttpRequest.BodyPublishers.ofString("{}"))
                .build(),
            HttpResponse.BodyHandlers.ofString());
    assertThat(json.statusCode()).isEqualTo(415);
    HttpResponse<String> chunked =
        CLIENT.send(
            HttpRequest.newBuilder(URI.create(desk.address() + "enter"))
                .header("Origin", "http://127.0.0.1:" + desk.port())
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(
                    HttpRequest.BodyPublishers.ofInputStream(
                        () -> new java.io.ByteArrayInputStream(new byte[200_000])))
                .build(),
            HttpResponse.BodyHandlers.ofString());
    assertThat(chunked.statusCode()).isEqualTo(413);
    assertThat(readings()).isEmpty();
  }

  @Test
  void aDeskOnTablesOnlyReadsAndSaysSo() throws Exception {
    try (DeskServer reading = DeskServer.start(SampleJob.source(), 0)) {
      HttpResponse<String> page =
          CLIENT.send(
              HttpRequest.newBuilder(reading.address().resolve("/enter")).build(),
              HttpResponse.BodyHandlers.ofString());
      assertThat(page.statusCode()).isEqualTo(200);
      assertThat(page.body())
          .contains("it only shows what was found", "ferrule new JOB --from DIR");
      HttpResponse<String> typed =
          CLIENT.send(
              HttpRequest.newBuilder(reading.address().resolve("/enter"))
                  .header("Origin", "http://127.0.0.1:" + reading.port())
                  .header("Content-Type", "application/x-www-form-urlencoded")
                  .POST(HttpRequest.BodyPublishers.ofString(encoded(form("v1310", "-5.6"))))
                  .build(),
              HttpResponse.BodyHandlers.ofString());
      assertThat(typed.statusCode()).isEqualTo(405);
    }
  }

  @Test
  void theJudgementFollowsWhatIsTyped() throws Exception {
    assertThat(get("/link/D001").body()).doesNotContain("0.48 dB");
    post("/enter", form("v1310", "-5.60"));
    assertThat(get("/changes").body()).contains("\"entries\":" + source.entries());
    assertThat(get("/link/D001").body()).contains("0.48 dB");
  }

  @Test
  void hostileNamesAreShownAsText() throws Exception {
    Path folder = temp.resolve("hostile");
    Path hostile = TypingJob.make(folder, 2, TypingJob.HOSTILE);
    JobFileSource other = JobFileSource.open(hostile);
    try (DeskServer server = DeskServer.start(other, 0)) {
      String operator = "</b><script>alert(2)</script>";
      Map<String, String> form = form("v1310", "<img src=x onerror=alert(3)>");
      form.put("job", other.id());
      form.put("place", TypingJob.HOSTILE);
      form.put("operator", operator);
      HttpRequest.Builder request =
          HttpRequest.newBuilder(server.address().resolve("/enter"))
              .header("Content-Type", "application/x-www-form-urlencoded")
              .header("Origin", "http://127.0.0.1:" + server.port());
      HttpResponse<String> refused =
          CLIENT.send(
              request.POST(HttpRequest.BodyPublishers.ofString(encoded(form))).build(),
              HttpResponse.BodyHandlers.ofString());
      form.put("v1310", "-5.6");
      HttpResponse<String> stored =
          CLIENT.send(
              request.POST(HttpRequest.BodyPublishers.ofString(encoded(form))).build(),
              HttpResponse.BodyHandlers.ofString());
      assertThat(stored.statusCode()).isEqualTo(303);
      String next =
          CLIENT
              .send(
                  HttpRequest.newBuilder(
                          server
                              .address()
                              .resolve(stored.headers().firstValue("Location").orElseThrow()))
                      .build(),
                  HttpResponse.BodyHandlers.ofString())
              .body();
      for (String body : List.of(refused.body(), next)) {
        assertThat(body).contains("&lt;script&gt;alert(1)", "&lt;/b&gt;&lt;script&gt;alert(2)");
        assertThat(body).doesNotContain("<script>alert", "<img src=x", "</b><script");
      }
      assertThat(refused.body()).contains("found &lt;img src=x onerror=alert(3)&gt;");
    }
  }

  @Test
  void noPageForWorkHoldsInlineStyleInlineScriptOrAForeignAddress() throws Exception {
    String next =
        post("/enter", form("v1310", "-5.60")).headers().firstValue("Location").orElseThrow();
    for (String path : List.of("/enter", next, "/reading/" + key(1310), "/set-zero")) {
      HttpResponse<String> answer = get(path);
      String body = answer.body();
      assertThat(answer.statusCode()).as(path).isEqualTo(200);
      assertThat(body)
          .contains("<html lang=\"en\">", "<main ", "/assets/work.js")
          .containsOnlyOnce("<h1>")
          .containsOnlyOnce("class=\"help\"")
          .doesNotContain(" style=", "<style", "javascript:")
          .doesNotContainPattern("(?i)\\son[a-z]+\\s*=")
          .doesNotContainPattern("<script(?! src=\"/assets/)")
          .doesNotContainPattern("(?:href|src|action)=\"(?!/|#)");
      assertThat(answer.headers().firstValue("Content-Security-Policy").orElse(""))
          .contains("script-src 'self'", "connect-src 'self'", "form-action 'self'")
          .doesNotContain("unsafe");
    }
    assertThat(get("/assets/work.js").statusCode()).isEqualTo(200);
  }

  @ParameterizedTest
  @CsvSource({"/reading/0", "/reading/1", "/reading/x", "/reading/99999999999999999999"})
  void anEntryThatIsNoReadingIsNotFound(String path) throws Exception {
    assertThat(get(path).statusCode()).isEqualTo(404);
  }
}
