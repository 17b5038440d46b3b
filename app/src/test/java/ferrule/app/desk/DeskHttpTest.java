package ferrule.app.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.app.desk.page.Urls;
import ferrule.app.desk.page.WhatIfPage;
import ferrule.core.Problem;
import ferrule.core.application.JobApplications;
import ferrule.core.application.ShippedApplications;
import ferrule.core.job.Job;
import ferrule.core.plan.JobPlan;
import ferrule.core.plan.ShippedLimits;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Rejudged;
import ferrule.core.trust.Standing;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What the desk answers over HTTP. */
class DeskHttpTest {

  private static final HttpClient CLIENT = HttpClient.newHttpClient();
  private static final List<String> PAGES =
      List.of(
          "/",
          "/?actions=all",
          "/links",
          "/link/G004",
          "/zeros",
          "/zero/Z3",
          "/doubts",
          "/plan",
          "/applications",
          "/what-if",
          "/what-if?rulebook=iec-61753-1-grade-b&decision=guarded&method=two-cord",
          "/rulebook");

  private static final List<String> PARTS =
      List.of(
          "/",
          "/links",
          "/zeros",
          "/doubts",
          "/plan",
          "/applications",
          "/what-if?rulebook=tia-568.3-e",
          "/rulebook");

  private static DeskServer desk;
  private static Judgement judgement;

  @BeforeAll
  static void open() throws DeskUnavailable {
    DeskSource source = SampleJob.source();
    judgement = source.judgement();
    desk = DeskServer.start(source, 0);
  }

  @AfterAll
  static void close() {
    desk.close();
  }

  private static HttpResponse<String> get(DeskServer server, String path)
      throws IOException, InterruptedException {
    URI uri = URI.create("http://127.0.0.1:" + server.port() + path);
    return CLIENT.send(
        HttpRequest.newBuilder(uri).header("Accept", "text/html,*/*;q=0.8").build(),
        HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
  }

  private static HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return get(desk, path);
  }

  /** Sends bytes as they are: what no well-behaved client would send. */
  private static String raw(String request) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), desk.port())) {
      socket.setSoTimeout(10_000);
      socket.getOutputStream().write(request.getBytes(StandardCharsets.ISO_8859_1));
      socket.getOutputStream().flush();
      socket.shutdownOutput();
      try (InputStream in = socket.getInputStream()) {
        return new String(in.readAllBytes(), StandardCharsets.UTF_8);
      }
    }
  }

  private static String withHost(String host) throws IOException {
    return raw("GET / HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n");
  }

  static List<String> pages() {
    return PAGES;
  }

  @ParameterizedTest
  @MethodSource("pages")
  void everyPageIsAWholeDocumentWithOneHeadingAndLandmarks(String path) throws Exception {
    HttpResponse<String> answer = get(path);
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.headers().firstValue("Content-Type").orElse(""))
        .startsWith("text/html")
        .containsIgnoringCase("utf-8");
    assertThat(answer.body())
        .startsWith("<!doctype html>")
        .contains("<html lang=\"en\">", "<main ", "<nav ", "Skip to the content", "</html>")
        .containsOnlyOnce("<h1>")
        .containsOnlyOnce("class=\"help\"");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/",
        "/links",
        "/link/none",
        "/nowhere",
        "/assets/desk.css",
        "/assets/none",
        "/%zz"
      })
  void everyAnswerForbidsSniffingReferrersFramesAndForeignContent(String path) throws Exception {
    String head =
        raw("GET "
                + path
                + " HTTP/1.1\r\nHost: localhost:"
                + desk.port()
                + "\r\nConnection: close\r\n\r\n")
            .split("\r\n\r\n", 2)[0];
    assertThat(head)
        .containsIgnoringCase("X-Content-Type-Options: nosniff")
        .containsIgnoringCase("Referrer-Policy: no-referrer")
        .containsIgnoringCase("Content-Security-Policy: default-src 'none';")
        .contains("frame-ancestors 'none'", "style-src 'self';", "script-src 'self';")
        .doesNotContain("unsafe-inline", "http:", "https:", "*")
        .doesNotContainIgnoringCase("Server:")
        .doesNotContainIgnoringCase("Set-Cookie");
  }

  @ParameterizedTest
  @MethodSource("pages")
  void noPageHoldsInlineStyleInlineScriptOrAForeignAddress(String path) throws Exception {
    String body = get(path).body();
    assertThat(body).doesNotContain(" style=", "<style", "javascript:");
    assertThat(body).doesNotContainPattern("(?i)\\son[a-z]+\\s*=");
    assertThat(body).doesNotContainPattern("<script(?! src=\"/assets/)");
    assertThat(body).doesNotContainPattern("(?:href|src|action)=\"(?!/|#)");
    assertThat(body).doesNotContainPattern("(?:href|src|action)=\"//");
  }

  @Test
  void everyLinkOnEveryPageLeadsSomewhere() throws Exception {
    Pattern href = Pattern.compile("href=\"([^\"#]*)(?:#([^\"]*))?\"");
    java.util.Map<String, String> seen = new java.util.HashMap<>();
    for (String path : PAGES) {
      Matcher matcher = href.matcher(get(path).body());
      while (matcher.find()) {
        String target = matcher.group(1).replace("&amp;", "&");
        if (target.isEmpty()) {
          continue;
        }
        String body = seen.get(target);
        if (body == null) {
          HttpResponse<String> answer = get(target);
          assertThat(answer.statusCode()).as("%s on %s", target, path).isEqualTo(200);
          body = answer.body();
          seen.put(target, body);
        }
        if (matcher.group(2) != null) {
          assertThat(body)
              .as("%s on %s", matcher.group(), path)
              .contains("id=\"" + matcher.group(2) + "\"");
        }
      }
    }
    assertThat(seen).hasSizeGreaterThan(40);
  }

  @ParameterizedTest
  @ValueSource(strings = {"localhost", "127.0.0.1", "[::1]", "LOCALHOST"})
  void answersToThisMachinesOwnNames(String name) throws Exception {
    assertThat(withHost(name + ":" + desk.port())).startsWith("HTTP/1.1 200");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "evil.example:%d",
        "localhost.evil.example:%d",
        "evil.example",
        "localhost",
        "localhost:1",
        "127.0.0.1.evil.example:%d",
        "127.0.0.2:%d",
        "[::2]:%d"
      })
  void refusesEveryOtherNameAndPort(String host) throws Exception {
    String answer = withHost(String.format(host, desk.port()));
    assertThat(answer).startsWith("HTTP/1.1 403").contains("localhost");
    assertThat(answer).doesNotContain("Saltmarsh");
  }

  @Test
  void refusesAForeignNameInTheRequestLineToo() throws Exception {
    String answer =
        raw(
            "GET http://evil.example/ HTTP/1.1\r\nHost: localhost:"
                + desk.port()
                + "\r\nConnection: close\r\n\r\n");
    assertThat(answer).startsWith("HTTP/1.1 4").doesNotContain("Saltmarsh");
  }

  @ParameterizedTest
  @ValueSource(strings = {"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "BREW"})
  void takesInNothing(String method) throws Exception {
    for (String path : List.of("/", "/nowhere")) {
      String answer =
          raw(
              method
                  + " "
                  + path
                  + " HTTP/1.1\r\nHost: localhost:"
                  + desk.port()
                  + "\r\nContent-Length: 0\r\nConnection: close\r\n\r\n");
      assertThat(answer).startsWith("HTTP/1.1 405").contains("Allow: GET, HEAD");
    }
  }

  @Test
  void headAnswersLikeGetWithoutABody() throws Exception {
    for (String path : List.of("/", "/links", "/assets/desk.css")) {
      HttpResponse<String> head =
          CLIENT.send(
              HttpRequest.newBuilder(desk.address().resolve(path))
                  .method("HEAD", HttpRequest.BodyPublishers.noBody())
                  .build(),
              HttpResponse.BodyHandlers.ofString());
      assertThat(head.statusCode()).isEqualTo(200);
      assertThat(head.body()).isEmpty();
      assertThat(head.headers().firstValue("Content-Type"))
          .isEqualTo(get(path).headers().firstValue("Content-Type"));
    }
    HttpResponse<String> missing =
        CLIENT.send(
            HttpRequest.newBuilder(desk.address().resolve("/nowhere"))
                .method("HEAD", HttpRequest.BodyPublishers.noBody())
                .build(),
            HttpResponse.BodyHandlers.ofString());
    assertThat(missing.statusCode()).isEqualTo(404);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/nowhere",
        "/link/none",
        "/link",
        "/zero/none",
        "/link/%3Cscript%3E",
        "/assets/none",
        "/assets/../Routes.class",
        "/assets/fonts%2F..%2F..%2Fferrule",
        "/link/G004/more"
      })
  void whatIsNotThereIsSaidInPlainWords(String path) throws Exception {
    HttpResponse<String> answer = get(path);
    assertThat(answer.statusCode()).isEqualTo(404);
    assertThat(answer.body())
        .contains("<h1>Not found</h1>", "<nav ")
        .doesNotContain("Exception", "javalin", "jetty", "at ferrule", "<script>");
  }

  @Test
  void whatCannotBeUnderstoodIsSaidInPlainWords() throws Exception {
    for (String request :
        List.of(
            "GET /%zz HTTP/1.1\r\nHost: localhost:" + desk.port() + "\r\n\r\n",
            "GET /%2e%2e/%2e%2e/ HTTP/1.1\r\nHost: localhost:" + desk.port() + "\r\n\r\n",
            "GET / HTTP/1.1\r\n\r\n",
            "nonsense\r\n\r\n")) {
      String answer = raw(request);
      assertThat(answer)
          .startsWith("HTTP/1.1 400")
          .contains("This request could not be understood")
          .doesNotContain("Exception", "jetty", "Jetty", "<html");
    }
  }

  @Test
  void aFaultOfFerrulesIsSaidWithoutItsDetails() throws Exception {
    DeskSource faulty =
        new DeskSource() {
          @Override
          public Judgement judgement() {
            throw new IllegalStateException("secret detail");
          }

          @Override
          public List<Problem> problems() {
            return List.of();
          }

          @Override
          public List<String> notes() {
            return List.of();
          }

          @Override
          public String jobName() {
            return "Broken (invented)";
          }
        };
    try (DeskServer server = DeskServer.start(faulty, 0)) {
      HttpResponse<String> answer = get(server, "/links");
      assertThat(answer.statusCode()).isEqualTo(500);
      assertThat(answer.body())
          .contains("Something went wrong", "the job has not been")
          .doesNotContain("secret detail", "IllegalState", "at ferrule");
    }
  }

  @Test
  void aTakenPortIsSaidWithWhatToDo() throws Exception {
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      assertThatThrownBy(() -> DeskServer.start(SampleJob.source(), taken.getLocalPort()))
          .isInstanceOfSatisfying(
              DeskUnavailable.class,
              e -> {
                assertThat(e.problem().column()).isEqualTo("port");
                assertThat(e.problem().line())
                    .contains("port " + taken.getLocalPort(), "taken", "choose another port");
              });
    }
    assertThatThrownBy(() -> DeskServer.start(SampleJob.source(), 70_000))
        .isInstanceOf(DeskUnavailable.class)
        .hasMessageContaining("65535");
  }

  @Test
  void aClosedDeskFreesItsPort() throws Exception {
    DeskServer first = DeskServer.start(SampleJob.source(), 0);
    int port = first.port();
    first.close();
    try (DeskServer second = DeskServer.start(SampleJob.source(), port)) {
      assertThat(get(second, "/").statusCode()).isEqualTo(200);
    }
  }

  @Test
  void onlyTheLoopbackAddressIsListenedOn() {
    assertThat(desk.address().getHost()).isEqualTo("127.0.0.1");
    assertThatThrownBy(
            () -> {
              try (Socket socket = new Socket("127.0.0.2", desk.port())) {
                socket.getOutputStream().write(1);
              }
            })
        .isInstanceOf(IOException.class);
  }

  @Test
  void filesCarryAnEtagAndAreNotSentTwice() throws Exception {
    HttpResponse<String> first = get("/assets/desk.css");
    String etag = first.headers().firstValue("ETag").orElseThrow();
    HttpResponse<String> again =
        CLIENT.send(
            HttpRequest.newBuilder(desk.address().resolve("/assets/desk.css"))
                .header("If-None-Match", etag)
                .build(),
            HttpResponse.BodyHandlers.ofString());
    assertThat(again.statusCode()).isEqualTo(304);
    assertThat(again.body()).isEmpty();
    assertThat(first.body()).contains("@font-face");
    Matcher font = Pattern.compile("url\\(([^)]+)\\)").matcher(first.body());
    int fonts = 0;
    while (font.find()) {
      fonts++;
      assertThat(get("/assets/" + font.group(1)).statusCode()).isEqualTo(200);
    }
    assertThat(fonts).isEqualTo(2);
  }

  @Test
  void todaySaysTheTotalsOfTheJudgement() throws Exception {
    String body = get("/").body();
    assertThat(body).contains("Of " + judgement.fibres().size() + " fibres, ");
    judgement
        .totals()
        .forEach(
            (standing, count) ->
                assertThat(body).containsPattern(count + "( are)? " + standing.word()));
    assertThat(body).contains("readings.csv, row 412, loss_db", "column remarks is not known");
    assertThat(body).contains("never look into a fibre");
  }

  @Test
  void theListOfLinksHoldsExactlyTheFibresOfAStanding() throws Exception {
    for (Standing standing : Standing.values()) {
      List<String> expected =
          judgement.fibres().stream()
              .filter(f -> f.standing() == standing)
              .map(f -> f.fibre().toString())
              .toList();
      assertThat(expected).as(standing.word()).isNotEmpty();
      assertThat(listed("/links?standing=" + standing.word())).isEqualTo(expected);
    }
  }

  @Test
  void theListOfLinksHoldsExactlyTheFibresOfAPlaceAndAText() throws Exception {
    List<String> expected =
        judgement.fibres().stream()
            .filter(f -> f.link().b().place().equals("Silo 2, plant room"))
            .filter(f -> f.link().b().port().contains("07"))
            .map(f -> f.fibre().toString())
            .toList();
    assertThat(expected).hasSize(2);
    assertThat(listed("/links?place=Silo%202%2C+plant+room&text=1:07")).isEqualTo(expected);
  }

  @Test
  void theListOfLinksCanBeSortedByMargin() throws Exception {
    List<String> sorted = listed("/links?order=margin");
    assertThat(sorted).hasSize(judgement.fibres().size()).startsWith("G004/1");
    assertThat(listed("/links")).containsExactlyInAnyOrderElementsOf(sorted);
  }

  /** Fibre ids listed, over all pages. */
  private static List<String> listed(String path) throws IOException, InterruptedException {
    Pattern heading = Pattern.compile("<h3><a class=\"step\" href=\"/link/[^\"]*\"><bdi>([^<]*)<");
    Pattern next = Pattern.compile("href=\"([^\"]*)\" rel=\"next\"");
    List<String> found = new java.util.ArrayList<>();
    String at = path;
    while (!at.isEmpty()) {
      String body = get(at).body();
      heading.matcher(body).results().forEach(r -> found.add(r.group(1)));
      Matcher matcher = next.matcher(body);
      at = matcher.find() ? matcher.group(1).replace("&amp;", "&") : "";
    }
    return found;
  }

  @Test
  void whatIsNotUnderstoodInAnAddressIsLeftOutAndSaid() throws Exception {
    String body = get("/links?standing=purple%3Cb%3E&place=Mars&order=size&page=x&other=1").body();
    assertThat(body)
        .contains(
            "“purple&lt;b&gt;” is no standing",
            "No link of this job ends at “Mars”",
            "“size” is no order",
            "“x” is no page number")
        .doesNotContain("<b>”");
    assertThat(body).contains("<h2>" + judgement.fibres().size() + " fibres</h2>");
    for (String path :
        List.of("/links?page=0", "/zeros?page=-1", "/doubts?page=1e9", "/link/G004?page=%00")) {
      HttpResponse<String> answer = get(path);
      assertThat(answer.statusCode()).isEqualTo(200);
      assertThat(answer.body()).contains("is no page number");
    }
    assertThat(get("/links?page=9999999").body()).contains("page 6 of 6");
    assertThat(get("/links?text=nothing-like-it").body()).contains("No fibre fits");
  }

  @Test
  void aLinkShowsEveryAttemptAndWhatItsLimitIsMadeOf() throws Exception {
    String body = get("/link/G002").body();
    FibreJudgement fibre = judgement.fibres().get(2);
    assertThat(fibre.fibre().toString()).isEqualTo("G002/1");
    assertThat(fibre.readings()).hasSize(8);
    assertThat(body.split(">replaced</td>", -1)).hasSize(5);
    assertThat(body)
        .contains("Limit, 1310 nm, one-cord", "Expected loss, 1550 nm, one-cord")
        .contains("from memory: confirm against the standard")
        .contains("Uncertainty budget, 1310 nm, one-cord", "source drift between zero and reading");
  }

  /** The same answer as the command gives: every change, and both totals. */
  @Test
  void whatIfShowsEveryFibreThatWouldStandElsewhere() throws Exception {
    Rejudged rejudged =
        Rejudged.of(
            judgement,
            judgement
                .ledger()
                .requirement()
                .by(ShippedRulebooks.find("iec-61753-1-grade-b").orElseThrow()));
    assertThat(rejudged.standingsChanged()).isPositive();
    String body = get(desk, "/what-if?rulebook=iec-61753-1-grade-b").body();
    for (Rejudged.Change change :
        rejudged.changes().stream().limit(WhatIfPage.CHANGES_A_PAGE).toList()) {
      assertThat(body).contains("<bdi>" + change.agreed().fibre() + "</bdi>");
    }
    assertThat(body).contains(rejudged.standingsChanged() + " would stand elsewhere");
    assertThat(get(desk, "/what-if").body()).contains("This is what is agreed");
    assertThat(get(desk, "/what-if?rulebook=nobodys&decision=maybe&method=four-cord").body())
        .contains("“nobodys” is not", "“maybe” is not", "“four-cord” is not");
    String wished = get(desk, "/what-if?most-link=0.5&most-splice=much").body();
    assertThat(wished)
        .contains("“much” is not a number above 0", "but 0.50 dB for a whole link")
        .contains(
            "name=\"most-link\" inputmode=\"decimal\" size=\"6\" autocomplete=\"off\" value=\"0.5\"");
  }

  @Test
  void thePlanAndTheApplicationsAreThoseOfTheJob() throws Exception {
    String plan = get(desk, "/plan").body();
    JobPlan of =
        JobPlan.of(judgement.ledger().job(), LocalDate.now(ZoneOffset.UTC), new ShippedLimits());
    assertThat(plan).contains("Hours by choice", "Limit and expected loss");
    assertThat(plan.split("If found at close-out", -1)).hasSize(of.questions().size() + 1);
    String applications = get(desk, "/applications").body();
    for (JobApplications.Row row :
        JobApplications.rows(JobApplications.of(judgement, ShippedApplications.all()).checks())) {
      assertThat(applications).contains(">" + row.application().name());
    }
    assertThat(get(desk, "/link/G004").body()).contains("10GBASE-LR: carries");
  }

  @Test
  void aDoubtNamesItsReachExactly() throws Exception {
    String body = get("/doubts").body();
    judgement.doubts().stream()
        .filter(d -> d.blocking())
        .limit(3)
        .forEach(d -> assertThat(body).contains(d.kind().headline(), d.next().where()));
    // Z3 was never verified: all its readings, and so all fibres of its links, are in reach.
    long fibres =
        judgement.fibres().stream()
            .filter(
                f ->
                    f.readings().stream()
                        .anyMatch(r -> r.current() && r.reading().reference().equals("Z3")))
            .count();
    assertThat(body).contains(" of " + fibres + " fibres</summary>");
  }

  @Test
  void hostileNamesStayTextAndTheirPagesCanBeReached() throws Exception {
    Job job = SampleJob.hostile();
    DeskSource source =
        SampleJob.source(
            "<h1>\"job\" & 'name'</h1>",
            Judge.judge(job),
            List.of(new Problem("<x>.csv", 1, "<y>", "<z>", "<script>alert(6)</script>", "<w>")),
            List.of("<iframe src=x>"));
    try (DeskServer server = DeskServer.start(source, 0)) {
      List<String> paths = new java.util.ArrayList<>(PARTS);
      paths.add(Urls.zero(job.zeros().get(0).id()));
      SampleJob.HOSTILE_LINKS.forEach(id -> paths.add(Urls.link(id)));
      paths.add(Urls.place("Raum Ä & Ö/1?x=1#y"));
      for (String path : paths) {
        HttpResponse<String> answer = get(server, path);
        assertThat(answer.statusCode()).as(path).isEqualTo(200);
        String body = answer.body();
        assertThat(body).as(path).containsOnlyOnce("<h1>").containsOnlyOnce("<script");
        assertThat(body)
            .as(path)
            .doesNotContainPattern("<[^>]*onfocus")
            .doesNotContain("<b>K4", "<img", "<iframe", "<i>&", "<s>", "<w>", "<b>1x8");
      }
      for (String id : SampleJob.HOSTILE_LINKS) {
        String body = get(server, Urls.link(id)).body();
        Matcher heading = Pattern.compile("<h1>Link <bdi>(.*?)</bdi></h1>").matcher(body);
        assertThat(heading.find()).isTrue();
        assertThat(heading.group(1).replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&"))
            .isEqualTo(id);
      }
    }
  }

  @Test
  void aLinkWithPartsShowsThemAndWhatWasMeasured() throws Exception {
    Job job =
        JobFolder.read(Path.of("../examples/arrays"), Purpose.JUDGE).assemble().job().orElseThrow();
    DeskSource source = SampleJob.source("Hall", Judge.judge(job), List.of(), List.of());
    try (DeskServer server = DeskServer.start(source, 0)) {
      assertThat(get(server, Urls.link("H2")).body())
          .contains("trunk T-18, type A (straight)", "2 elsewhere than computed: cassette 7B");
    }
  }

  @Test
  void anEmptyJobHasPagesToo() throws Exception {
    Job empty =
        new Job(
            SampleJob.requirement("Empty (invented)", DecisionRule.SIMPLE),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of());
    DeskSource source =
        SampleJob.source("Empty (invented)", Judge.judge(empty), List.of(), List.of());
    try (DeskServer server = DeskServer.start(source, 0)) {
      for (String path : PARTS) {
        assertThat(get(server, path).statusCode()).as(path).isEqualTo(200);
      }
      assertThat(get(server, "/").body()).contains("No fibre is scheduled yet");
    }
  }
}
