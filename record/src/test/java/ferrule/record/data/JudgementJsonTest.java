package ferrule.record.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import ferrule.core.Problem;
import ferrule.core.trust.Action;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Standing;
import ferrule.core.trust.TrustSpan;
import ferrule.core.trust.ZeroTrust;
import ferrule.core.trust.joint.JointEstimate.LevelShift;
import ferrule.core.zero.ZeroLevel;
import ferrule.record.Jobs;
import java.io.IOException;
import java.io.StringWriter;
import java.io.Writer;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

class JudgementJsonTest {

  private static final ObjectMapper MAPPER =
      new ObjectMapper().enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION);

  private static final List<Problem> PROBLEMS =
      List.of(
          new Problem(
              "readings.csv", 12, "loss_db", "a number of dB", "n/a\u0007\n", "correct the cell"));

  private static String text(Judgement judgement, boolean pretty) throws IOException {
    StringWriter out = new StringWriter();
    JudgementJson.write(out, judgement, PROBLEMS, List.of("A note"), pretty);
    return out.toString();
  }

  private static void assertKeys(JsonNode object, String... keys) {
    Set<String> names = new TreeSet<>();
    object.fieldNames().forEachRemaining(names::add);
    assertThat(names).contains(keys);
  }

  @Test
  void holdsEveryKeyOfTheContract() throws IOException {
    JsonNode json = MAPPER.readTree(text(Jobs.mixed(), false));
    assertKeys(
        json,
        "job",
        "totals",
        "fibres",
        "references",
        "doubts",
        "actions",
        "walk",
        "verify_every",
        "proposals",
        "cords",
        "alarm",
        "problems",
        "notes");
    assertKeys(json.get("job"), "title", "rulebook", "edition", "method", "decision");
    assertKeys(json.get("totals"), "fibres", "proved", "failed", "doubtful", "open");
    for (JsonNode fibre : json.get("fibres")) {
      assertKeys(fibre, "fibre", "standing", "reasons", "readings", "replaced");
      for (JsonNode reading : fibre.get("readings")) {
        assertKeys(
            reading,
            "direction",
            "wavelength_nm",
            "loss_db",
            "limit_db",
            "expected_db",
            "expected_sd_db",
            "uncertainty_db",
            "margin_db",
            "p_conforming",
            "decision",
            "reference");
      }
    }
    for (JsonNode reference : json.get("references")) {
      assertKeys(reference, "reference", "trust", "reasons", "shifts", "spans");
      for (JsonNode shift : reference.get("shifts")) {
        assertKeys(shift, "direction", "wavelength_nm", "shift_db", "shift_sd_db");
      }
      for (JsonNode span : reference.get("spans")) {
        assertKeys(span, "from", "to", "trust", "reason");
      }
    }
    for (JsonNode doubt : json.get("doubts")) {
      assertKeys(
          doubt, "kind", "subject", "blocking", "reach", "evidence", "causes", "next", "minutes");
      assertThat(doubt.get("evidence").isObject()).isTrue();
      for (JsonNode cause : doubt.get("causes")) {
        assertKeys(cause, "cause", "weight");
      }
    }
    for (JsonNode action : json.get("actions")) {
      assertKeys(action, "rank", "do", "where", "minutes", "frees", "confirms", "refutes", "stop");
    }
    for (JsonNode stop : json.get("walk")) {
      assertKeys(stop, "stop", "place", "minutes", "actions", "frees");
    }
    for (JsonNode problem : json.get("problems")) {
      assertKeys(problem, "file", "row", "column", "expected", "found");
    }
  }

  @Test
  void shiftsAreTheEstimatesUnroundedAndOnlyWhereSomethingWasRead() throws IOException {
    int shown = 0;
    for (Judgement judgement : List.of(Jobs.shifted(), Jobs.mixed(), Jobs.untested())) {
      JsonNode json = MAPPER.readTree(text(judgement, false));
      for (int i = 0; i < judgement.zeros().size(); i++) {
        ZeroTrust zero = judgement.zeros().get(i);
        JsonNode node = json.get("references").get(i);
        int next = 0;
        for (ZeroLevel level : zero.zero().levels()) {
          Optional<LevelShift> shift = judgement.estimate().shift(level);
          if (shift.isEmpty()) {
            continue;
          }
          JsonNode written = node.get("shifts").get(next++);
          assertThat(written.get("direction").asText()).isEqualTo(level.direction().word());
          assertThat(written.get("wavelength_nm").asInt()).isEqualTo(level.wavelength().nm());
          assertThat(written.get("shift_db").asDouble()).isEqualTo(shift.get().shiftDb());
          assertThat(written.get("shift_sd_db").asDouble()).isEqualTo(shift.get().sdDb());
        }
        assertThat(node.get("shifts")).hasSize(next);
        shown += next;
        assertThat(node.get("spans")).hasSize(zero.spans().size());
        for (int k = 0; k < zero.spans().size(); k++) {
          TrustSpan span = zero.spans().get(k);
          JsonNode written = node.get("spans").get(k);
          assertThat(Instant.parse(written.get("from").asText())).isEqualTo(span.from());
          assertThat(Instant.parse(written.get("to").asText())).isEqualTo(span.to());
          assertThat(written.get("trust").asText()).isEqualTo(span.trust().word());
          assertThat(written.get("reason").asText()).isEqualTo(span.reason());
        }
      }
    }
    assertThat(shown).isGreaterThan(16);
  }

  @Test
  void whatIsConfoundedSaysWhatWouldSeparateIt() throws IOException {
    JsonNode json = MAPPER.readTree(text(Jobs.confounded(), false));
    Set<String> kinds = new TreeSet<>();
    for (JsonNode doubt : json.get("doubts")) {
      kinds.add(doubt.get("kind").asText() + " " + doubt.get("subject").asText());
      assertThat(doubt.get("evidence").get("confounded").asText())
          .startsWith("the readings cannot tell ");
      assertThat(doubt.get("separate").size()).isBetween(1, 4);
      for (JsonNode reading : doubt.get("separate")) {
        assertKeys(
            reading,
            "fibre",
            "direction",
            "wavelength_nm",
            "reference",
            "expect_db",
            "threshold_db",
            "minutes");
        JsonNode expect = reading.get("expect_db");
        assertThat(expect).hasSize(2);
        double zero = expect.get("a shift of zero R3").asDouble();
        double panel = expect.get("a high panel Panel 3").asDouble();
        assertThat(Math.abs(zero - panel)).isBetween(0.12, 0.35);
        assertThat(reading.get("threshold_db").asDouble())
            .isCloseTo((zero + panel) / 2, within(1e-12));
        assertThat(reading.get("minutes").asDouble()).isPositive();
      }
    }
    assertThat(kinds).containsExactly("panel-high Panel 3", "zero-shift R3");
    for (JsonNode reference : json.get("references")) {
      String id = reference.get("reference").asText();
      for (JsonNode shift : reference.get("shifts")) {
        assertThat(shift.get("confounded_with").toString()).contains("panel Panel " + id.charAt(1));
      }
      assertThat(reference.get("separate")).isNotEmpty();
    }
  }

  @Test
  void whatIsNotConfoundedSaysNothingOfIt() throws IOException {
    JsonNode json = MAPPER.readTree(text(Jobs.shifted(), false));
    for (JsonNode doubt : json.get("doubts")) {
      assertThat(doubt.has("separate")).isFalse();
    }
    for (JsonNode reference : json.get("references")) {
      assertThat(reference.has("separate")).isFalse();
      for (JsonNode shift : reference.get("shifts")) {
        assertThat(shift.has("confounded_with")).isFalse();
      }
    }
  }

  @Test
  void cordsAndTheChanceOfAFalseDoubtAreThoseOfTheJudgement() throws IOException {
    Judgement judgement = Jobs.shifted();
    JsonNode json = MAPPER.readTree(text(judgement, false));
    assertThat(json.get("cords")).hasSameSizeAs(judgement.estimate().cords()).isNotEmpty();
    for (JsonNode cord : json.get("cords")) {
      assertKeys(
          cord,
          "cord",
          "roles",
          "references",
          "shift_db",
          "shift_sd_db",
          "confounded_with",
          "matings_in_job");
      assertThat(cord.get("shift_sd_db").asDouble()).isPositive();
    }
    JsonNode alarm = json.get("alarm");
    double sum = 0;
    long looks = 0;
    for (JsonNode share : alarm.get("shares")) {
      sum += share.get("false_alarm_chance").asDouble();
      looks += share.get("looks").asLong();
      assertThat(share.get("kinds")).isNotEmpty();
    }
    assertThat(alarm.get("looks").asLong()).isEqualTo(looks).isPositive();
    assertThat(alarm.get("false_alarm_chance").asDouble()).isCloseTo(sum, within(1e-12));
    assertThat(alarm.get("blocking_false_alarm_chance").asDouble()).isLessThanOrEqualTo(0.0050001);
  }

  @Test
  void aPlantedShiftIsShownCountedAndProposedButReplacesNothing() throws IOException {
    JsonNode json = MAPPER.readTree(text(Jobs.shifted(), false));
    JsonNode every = json.get("verify_every");
    assertKeys(every, "links", "low", "high", "events", "links_tested");
    assertThat(every.get("events").asInt()).isEqualTo(1);
    assertThat(every.get("links_tested").asInt()).isEqualTo(60);
    assertThat(every.get("low").asDouble()).isLessThan(every.get("links").asDouble());
    assertThat(every.get("high").asDouble()).isGreaterThan(every.get("links").asDouble());
    assertThat(json.get("proposals")).hasSize(1);
    JsonNode proposal = json.get("proposals").get(0);
    assertThat(proposal.get("reference").asText()).isEqualTo("R3");
    double sd = proposal.get("shift_sd_db").asDouble();
    assertThat(proposal.get("shift_db").asDouble()).isCloseTo(-0.35, within(3 * sd));
    assertThat(proposal.get("fibres")).hasSize(20);
    Map<String, Integer> standings = new HashMap<>();
    for (JsonNode fibre : proposal.get("fibres")) {
      standings.merge(fibre.get("standing").asText(), 1, Integer::sum);
    }
    for (Standing standing : Standing.values()) {
      assertThat(proposal.get("would_be").get(standing.word()).asInt())
          .isEqualTo(standings.getOrDefault(standing.word(), 0));
    }
    assertThat(standings).containsEntry("proved", 20);
    assertThat(json.get("totals").get("doubtful").asInt()).isEqualTo(20);
    assertThat(json.get("totals").get("proved").asInt()).isEqualTo(100);
  }

  @Test
  void theMixedJobHoldsEveryKindOfDoubtThatAFewFibresCanShowAndEveryStanding() {
    Set<DoubtKind> kinds = EnumSet.noneOf(DoubtKind.class);
    Jobs.mixed().doubts().forEach(d -> kinds.add(d.kind()));
    Jobs.mixedGuardedWithFaces().doubts().forEach(d -> kinds.add(d.kind()));
    Set<DoubtKind> wantManyFibresOrParts =
        EnumSet.of(
            DoubtKind.ZERO_SHIFT,
            DoubtKind.DIRECTION_BIAS,
            DoubtKind.LEVEL_STEP,
            DoubtKind.LEVEL_DRIFT,
            DoubtKind.CORD_WORN,
            DoubtKind.OUTLIER,
            DoubtKind.PANEL_HIGH,
            DoubtKind.POSITION_HIGH,
            DoubtKind.LENGTH_SCALE,
            DoubtKind.LENGTH_OFFSET,
            DoubtKind.CROSSED,
            DoubtKind.PORT_SHIFT,
            DoubtKind.REPEATED_VALUES,
            DoubtKind.TOO_QUICK,
            DoubtKind.CLOCK,
            DoubtKind.SPLITTER_STEP,
            DoubtKind.SPLITTER_HIGH,
            DoubtKind.POLARITY,
            DoubtKind.ARRAY_MATING,
            DoubtKind.TRANSMIT_RECEIVE);
    assertThat(kinds).containsAll(EnumSet.complementOf(EnumSet.copyOf(wantManyFibresOrParts)));
    assertThat(Jobs.mixed().totals().values()).allMatch(count -> count > 0);
  }

  @Test
  void saysWhatTheJudgementSays() throws IOException {
    Judgement judgement = Jobs.mixed();
    JsonNode json = MAPPER.readTree(text(judgement, true));
    assertThat(json.get("totals").get("fibres").asInt()).isEqualTo(judgement.fibres().size());
    for (Standing standing : Standing.values()) {
      assertThat(json.get("totals").get(standing.word()).asInt())
          .isEqualTo(judgement.totals().get(standing));
    }
    for (int i = 0; i < judgement.fibres().size(); i++) {
      FibreJudgement fibre = judgement.fibres().get(i);
      JsonNode node = json.get("fibres").get(i);
      assertThat(node.get("fibre").asText()).isEqualTo(fibre.fibre().toString());
      assertThat(node.get("standing").asText()).isEqualTo(fibre.standing().word());
      List<AssessedReading> current =
          fibre.readings().stream().filter(AssessedReading::current).toList();
      assertThat(node.get("readings")).hasSize(current.size());
      assertThat(node.get("replaced")).hasSize(fibre.readings().size() - current.size());
      for (int r = 0; r < current.size(); r++) {
        JsonNode reading = node.get("readings").get(r);
        assertThat(reading.get("loss_db").asDouble()).isEqualTo(current.get(r).lossDb());
        assertThat(reading.get("margin_db").asDouble()).isEqualTo(current.get(r).marginDb());
        assertThat(reading.get("in_doubt").asBoolean()).isEqualTo(fibre.blocked(current.get(r)));
      }
    }
    for (int i = 0; i < judgement.doubts().size(); i++) {
      Doubt doubt = judgement.doubts().get(i);
      JsonNode node = json.get("doubts").get(i);
      assertThat(node.get("kind").asText()).isEqualTo(doubt.kind().id());
      assertThat(node.get("subject").asText()).isEqualTo(doubt.subject().id());
      assertThat(node.get("reach")).hasSize(doubt.reach().fibres().size());
      assertThat(node.get("reach_readings")).hasSize(doubt.reach().readings().size());
      assertThat(node.get("evidence")).hasSize(doubt.evidence().size());
    }
    assertThat(json.get("actions")).hasSize(judgement.actions().size());
    for (int i = 0; i < judgement.actions().size(); i++) {
      Action action = judgement.actions().get(i);
      JsonNode node = json.get("actions").get(i);
      assertThat(node.get("confirms").asText()).isEqualTo(action.confirms());
      assertThat(node.get("refutes").asText()).isEqualTo(action.refutes());
      JsonNode stop = json.get("walk").get(node.get("stop").asInt() - 1);
      assertThat(stop.get("stop")).isEqualTo(node.get("stop"));
      assertThat(stop.get("place").asText()).isEqualTo(action.place());
      assertThat(stop.get("actions")).contains(node.get("rank"));
    }
    assertThat(json.get("walk")).hasSize(judgement.walk().stops().size());
    assertThat(json.get("unscheduled")).isNotEmpty();
    assertThat(json.get("problems").get(0).get("found").asText()).isEqualTo("n/a··");
    assertThat(json.get("notes").get(0).asText()).isEqualTo("A note");
  }

  @Test
  void everyLimitCanBeAddedUpFromItsTerms() throws IOException {
    JsonNode json = MAPPER.readTree(text(Jobs.mixed(), false));
    Map<Integer, Double> each = new HashMap<>();
    for (JsonNode part : json.get("limit_parts")) {
      each.put(part.get("part").asInt(), part.get("each_db").asDouble());
    }
    int checked = 0;
    for (JsonNode fibre : json.get("fibres")) {
      for (JsonNode reading : fibre.get("readings")) {
        double sum = 0;
        for (JsonNode term : reading.get("limit_terms")) {
          sum +=
              term.get("count").asDouble()
                  * each.getOrDefault(term.get("part").asInt(), Double.NaN);
        }
        assertThat(sum)
            .isCloseTo(
                reading.get("limit_db").asDouble(), org.assertj.core.data.Offset.offset(1e-9));
        checked++;
      }
    }
    assertThat(checked).isGreaterThan(1000);
  }

  @Test
  void namesNoNumberThatIsNone() throws IOException {
    String text = text(Jobs.mixed(), false);
    assertThat(text).contains("null").doesNotContain("NaN").doesNotContain("Infinity");
  }

  /** Strict JSON has no other numbers than finite ones; the parser takes no others. */
  @Test
  void wildValuesAreWrittenAsNumbers() throws IOException {
    Judgement judgement = Jobs.wild();
    String text = text(judgement, false);
    assertThat(text).contains("1.0E300");
    assertThat(text).doesNotContain("NaN").doesNotContain("Infinity");
    JsonNode json = MAPPER.readTree(text);
    assertThat(json.get("doubts")).isNotEmpty();
    assertThat(json.get("totals").get("proved").asInt())
        .isLessThan(json.get("totals").get("fibres").asInt());
  }

  @Test
  void standsOnOneLineUnlessIndented() throws IOException {
    Judgement judgement = Jobs.named("two\nlines \u2028 \uD83D\uDE00", "o", "p\r\nq");
    assertThat(text(judgement, false)).doesNotContain("\n").doesNotContain("\r");
    assertThat(text(judgement, true)).contains("\n  \"job\"").doesNotContain("\r");
    assertThat(MAPPER.readTree(text(judgement, true)))
        .isEqualTo(MAPPER.readTree(text(judgement, false)));
  }

  @Test
  void theSameJudgementGivesTheSameText() throws IOException {
    assertThat(text(Jobs.mixed(), false)).isEqualTo(text(Jobs.mixed(), false));
  }

  @Test
  void aJobWithoutReadingsOrLinksIsWritten() throws IOException {
    assertThat(MAPPER.readTree(text(Jobs.empty(), false)).get("fibres")).isEmpty();
    JsonNode untested = MAPPER.readTree(text(Jobs.untested(), false));
    assertThat(untested.get("totals").get("open").asInt()).isEqualTo(4);
  }

  @Test
  void writesAsItGoes() throws IOException {
    List<Integer> chunks = new ArrayList<>();
    Writer counting =
        new Writer() {
          @Override
          public void write(char[] chars, int from, int count) {
            chunks.add(count);
          }

          @Override
          public void flush() {}

          @Override
          public void close() {
            throw new AssertionError("the caller's writer was closed");
          }
        };
    JudgementJson.write(counting, Jobs.large(1200), List.of(), List.of(), false);
    assertThat(chunks).hasSizeGreaterThan(100);
    assertThat(chunks).allMatch(count -> count <= 16_384);
  }
}
