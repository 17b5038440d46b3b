package ferrule.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.optics.LossDb;
import ferrule.core.zero.Method;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.io.IOException;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A zero set step by step through the forms as the desk makes them. */
class SetZeroTest {

  private static final HttpClient CLIENT = HttpClient.newHttpClient();
  private static final Pattern FIELD =
      Pattern.compile("<input[^>]*? name=\"([^\"]*)\"[^>]*? value=\"([^\"]*)\"");
  private static final Pattern CHOSEN =
      Pattern.compile(
          "<select id=\"([^\"]*)\".*?<option value=\"([^\"]*)\" selected", Pattern.DOTALL);

  private final Path temp;
  private JobFileSource source;
  private DeskServer desk;

  SetZeroTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeEach
  void open() throws Exception {
    source = JobFileSource.open(TypingJob.make(temp, 2));
    desk = DeskServer.start(source, 0);
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private HttpResponse<String> send(HttpRequest.Builder request)
      throws IOException, InterruptedException {
    return CLIENT.send(request.build(), HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
  }

  private Map<String, String> begin() throws IOException, InterruptedException {
    return fields(send(HttpRequest.newBuilder(desk.address().resolve("/set-zero"))).body());
  }

  /** What a browser would send of a page: its fields as they stand. */
  private static Map<String, String> fields(String body) {
    Map<String, String> fields = new LinkedHashMap<>();
    Matcher field = FIELD.matcher(body);
    while (field.find()) {
      if (!field.group().contains("checkbox")) {
        fields.put(field.group(1), field.group(2));
      }
    }
    Matcher chosen = CHOSEN.matcher(body);
    while (chosen.find()) {
      fields.put(chosen.group(1), chosen.group(2));
    }
    return fields;
  }

  private HttpResponse<String> post(Map<String, String> fields)
      throws IOException, InterruptedException {
    String body =
        fields.entrySet().stream()
            .map(e -> encoded(e.getKey()) + "=" + encoded(e.getValue()))
            .collect(Collectors.joining("&"));
    return send(
        HttpRequest.newBuilder(desk.address().resolve("/set-zero"))
            .header("Content-Type", "application/x-www-form-urlencoded")
            .header("Origin", "http://127.0.0.1:" + desk.port())
            .POST(HttpRequest.BodyPublishers.ofString(body)));
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  private Map<String, String> line() throws Exception {
    Map<String, String> line = begin();
    assertThat(line).containsEntry("reference", "Z2").containsEntry("method", "one-cord");
    line.put("launch", "L7");
    line.put("receive", "R7");
    line.put("operator", "Teasel");
    return line;
  }

  private Map<String, String> powers() throws Exception {
    HttpResponse<String> faces = post(line());
    assertThat(faces.body())
        .contains("Step 2 of 4", "Launch cord L7, one end.", "never look into a fibre")
        .contains("fibre is dark", "Local codes");
    Map<String, String> set = fields(post(fields(faces.body())).body());
    set.put("power-A-B-1310", "−5,20");
    set.put("power-A-B-1550", "-5.5");
    set.put("power-B-A-1310", "-5.1");
    set.put("power-B-A-1550", "-5.4");
    return set;
  }

  @Test
  void aZeroSetInFourStepsIsStoredOnceWithAllItsLevels() throws Exception {
    HttpResponse<String> verify = post(powers());
    assertThat(verify.body()).contains("Step 4 of 4", "Expected -0.03 to 0.20 dB.");
    assertThat(source.job().zeros()).hasSize(1);
    Map<String, String> last = fields(verify.body());
    last.put("verification-A-B-1310", "0.07");
    last.put("verification-A-B-1550", "0,06");
    HttpResponse<String> stored = post(last);
    assertThat(stored.statusCode()).isEqualTo(303);
    assertThat(stored.headers().firstValue("Location")).hasValue("/zero/Z2");
    assertThat(post(last).statusCode()).isEqualTo(303);
    List<Zero> zeros = source.job().zeros();
    assertThat(zeros).hasSize(2);
    Zero zero = zeros.get(1);
    assertThat(zero.method()).isEqualTo(Method.ONE_CORD);
    assertThat(zero.levels()).hasSize(4);
    ZeroLevel first = zero.levels().get(0);
    assertThat(first.power().value()).isEqualTo(-5.2);
    assertThat(first.verification()).hasValue(new LossDb(0.07));
    assertThat(first.launchCord()).isEqualTo("L7");
    assertThat(first.operator()).isEqualTo("Teasel");
    assertThat(zero.levels().get(3).verification()).isEmpty();
  }

  @Test
  void aPowerThatIsNotAsExpectedIsAskedAboutAndTakenWhenAffirmed() throws Exception {
    Map<String, String> set = powers();
    set.put("power-A-B-1310", "-9.4");
    HttpResponse<String> asked = post(set);
    assertThat(asked.statusCode()).isEqualTo(422);
    assertThat(asked.body())
        .contains("-9.40 dBm is outside -9.00 to -3.00 dBm", "value=\"-9.4\"", "value=\"-5.4\"");
    set.put("surepower-A-B-1310", "-9.4");
    assertThat(post(set).body()).contains("Step 4 of 4");
  }

  @Test
  void aVerificationOutsideItsWindowSaysWhatToDo() throws Exception {
    Map<String, String> last = fields(post(powers()).body());
    last.put("verification-A-B-1310", "-0.2");
    HttpResponse<String> asked = post(last);
    assertThat(asked.statusCode()).isEqualTo(422);
    assertThat(asked.body()).contains("-0.20 dB is outside -0.03 to 0.20 dB", "set the zero anew");
    assertThat(source.job().zeros()).hasSize(1);
  }

  @Test
  void whatIsMissingOrTakenIsSaidAtItsFieldAndTheRestIsKept() throws Exception {
    Map<String, String> line = line();
    line.put("reference", "Z1");
    line.put("meter", "");
    HttpResponse<String> again = post(line);
    assertThat(again.statusCode()).isEqualTo(422);
    assertThat(again.body())
        .contains("A zero of this name is there already", "Fill it in", "value=\"L7\"");
    line.put("step", "VERIFY");
    assertThat(post(line).body()).contains("Step 1 of 4");
    line.put("category", "<script>alert(1)</script>");
    assertThat(post(line).body()).contains("Choose the fibre category").doesNotContain("<script>a");
  }

  @Test
  void backLeadsToTheStepBeforeWithEverythingKept() throws Exception {
    Map<String, String> last = fields(post(powers()).body());
    last.put("go", "back");
    assertThat(post(last).body()).contains("Step 3 of 4", "value=\"−5,20\"");
  }
}
