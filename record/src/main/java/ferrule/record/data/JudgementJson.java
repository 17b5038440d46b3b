package ferrule.record.data;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import ferrule.core.Problem;
import ferrule.core.allowance.Allowance;
import ferrule.core.allowance.Part;
import ferrule.core.allowance.Term;
import ferrule.core.job.Requirement;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.Action;
import ferrule.core.trust.Alarm;
import ferrule.core.trust.AlarmShare;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Cause;
import ferrule.core.trust.CordShift;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Proposal;
import ferrule.core.trust.Proposals;
import ferrule.core.trust.Rejudged;
import ferrule.core.trust.SeparatingReading;
import ferrule.core.trust.Separation;
import ferrule.core.trust.Sight;
import ferrule.core.trust.Standing;
import ferrule.core.trust.TrustSpan;
import ferrule.core.trust.VerificationInterval;
import ferrule.core.trust.Walk;
import ferrule.core.trust.ZeroTrust;
import ferrule.core.trust.joint.JointEstimate.Confounded;
import ferrule.core.trust.joint.JointEstimate.LevelShift;
import ferrule.core.zero.Reading;
import ferrule.core.zero.ZeroLevel;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A judgement as JSON, as {@code ferrule judge --json} gives it. Keys are a contract: they may be
 * added, never renamed.
 *
 * <p>Numbers are unrounded; a number that does not exist is {@code null}. The limit of a reading
 * can be added up again: {@code limit_terms} gives a count and the number of a part, and {@code
 * limit_parts}, at the end, gives each part's loss and its source.
 *
 * <p>Written as a stream: memory does not grow with the number of fibres. The same arguments give
 * the same text.
 */
public final class JudgementJson {

  private static final JsonFactory FACTORY =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private static final Confounded NOTHING = new Confounded(List.of(), List.of());

  private final JsonGenerator json;
  private final Judgement judgement;
  private final Map<Part, Integer> parts = new LinkedHashMap<>();

  /**
   * Writes the document of an input that could not be used at all: no job, only problems.
   *
   * @param input as the user named it
   */
  public static void writeUnusable(Writer out, String input, List<Problem> problems)
      throws IOException {
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      json.writeStartObject();
      json.writeNullField("job");
      json.writeStringField("input", input);
      problems(json, problems);
      json.writeEndObject();
    }
  }

  private JudgementJson(JsonGenerator json, Judgement judgement) {
    this.json = json;
    this.judgement = judgement;
  }

  /**
   * Writes a judgement. The writer is flushed and stays open; nothing follows the last brace.
   *
   * @param out takes the text
   * @param judgement what was found
   * @param problems what was wrong with the input
   * @param notes anything a reader of the input must know, each a sentence
   * @param pretty whether to indent; otherwise everything stands on one line
   * @throws IOException if {@code out} fails
   */
  public static void write(
      Writer out, Judgement judgement, List<Problem> problems, List<String> notes, boolean pretty)
      throws IOException {
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      if (pretty) {
        DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
        json.setPrettyPrinter(
            new DefaultPrettyPrinter()
                .withObjectIndenter(indenter)
                .withArrayIndenter(indenter)
                .withSeparators(
                    Separators.createDefaultInstance()
                        .withObjectFieldValueSpacing(Separators.Spacing.AFTER)));
      }
      new JudgementJson(json, judgement).all(problems, notes);
    }
  }

  /**
   * Writes a judgement as UTF-8. The stream is flushed and stays open.
   *
   * @see #write(Writer, Judgement, List, List, boolean)
   */
  public static void write(
      OutputStream out,
      Judgement judgement,
      List<Problem> problems,
      List<String> notes,
      boolean pretty)
      throws IOException {
    Writer writer = new BufferedWriter(new OutputStreamWriter(out, StandardCharsets.UTF_8));
    write(writer, judgement, problems, notes, pretty);
    writer.flush();
  }

  /**
   * Writes what would stand under another requirement, on one line: the judgement as supposed, and
   * with it what was agreed and every fibre of which something changes.
   *
   * @param out takes the text; stays open
   * @throws IOException if {@code out} fails
   */
  public static void write(
      Writer out, Rejudged rejudged, List<Problem> problems, List<String> notes)
      throws IOException {
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      JudgementJson supposed = new JudgementJson(json, rejudged.supposed());
      json.writeStartObject();
      supposed.body(problems, notes);
      json.writeObjectFieldStart("agreed");
      JudgementJson agreed = new JudgementJson(json, rejudged.agreed());
      agreed.job();
      agreed.totals();
      json.writeEndObject();
      json.writeArrayFieldStart("changes");
      for (Rejudged.Change change : rejudged.changes()) {
        supposed.change(change);
      }
      json.writeEndArray();
      json.writeEndObject();
    }
  }

  private void change(Rejudged.Change change) throws IOException {
    json.writeStartObject();
    json.writeStringField("fibre", change.agreed().fibre().toString());
    json.writeStringField("agreed", change.agreed().standing().word());
    json.writeStringField("supposed", change.supposed().standing().word());
    json.writeArrayFieldStart("readings");
    for (Rejudged.ReadingChange reading : change.readings()) {
      AssessedReading agreed = reading.agreed();
      json.writeStartObject();
      json.writeStringField("direction", agreed.reading().direction().word());
      json.writeNumberField("wavelength_nm", agreed.nm());
      number("loss_db", agreed.lossDb());
      number("agreed_limit_db", agreed.limitDb());
      number("supposed_limit_db", reading.supposed().limitDb());
      json.writeStringField("agreed", agreed.decision().word());
      json.writeStringField("supposed", reading.supposed().decision().word());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void all(List<Problem> problems, List<String> notes) throws IOException {
    json.writeStartObject();
    body(problems, notes);
    json.writeEndObject();
  }

  private void body(List<Problem> problems, List<String> notes) throws IOException {
    job();
    totals();
    fibres();
    unscheduled();
    references();
    cords();
    verifyEvery();
    doubts();
    alarm();
    wouldShow();
    proposals();
    actions();
    walk();
    ArraysJson.write(json, judgement.ledger().job());
    problems(json, problems);
    strings("notes", notes);
    limitParts();
  }

  private void job() throws IOException {
    Requirement requirement = judgement.ledger().requirement();
    json.writeObjectFieldStart("job");
    json.writeStringField("title", requirement.title());
    json.writeStringField("rulebook", requirement.rulebook().id());
    json.writeStringField("edition", requirement.rulebook().edition());
    json.writeStringField("method", requirement.method().word());
    json.writeStringField("decision", requirement.decision().word());
    json.writeStringField("owner", requirement.owner());
    json.writeStringField("contractor", requirement.contractor());
    json.writeStringField("rulebook_title", requirement.rulebook().title());
    json.writeArrayFieldStart("wavelengths_nm");
    for (var wavelength : requirement.wavelengths()) {
      json.writeNumber(wavelength.nm());
    }
    json.writeEndArray();
    json.writeStringField("directions", requirement.directions().word());
    strings("applications", requirement.applications());
    json.writeStringField("faces", requirement.faces().word());
    json.writeEndObject();
  }

  private void totals() throws IOException {
    json.writeObjectFieldStart("totals");
    json.writeNumberField("fibres", judgement.fibres().size());
    Map<Standing, Integer> totals = judgement.totals();
    for (Standing standing : Standing.values()) {
      json.writeNumberField(standing.word(), totals.getOrDefault(standing, 0));
    }
    json.writeEndObject();
  }

  private void fibres() throws IOException {
    json.writeArrayFieldStart("fibres");
    for (FibreJudgement fibre : judgement.fibres()) {
      Link link = fibre.link();
      json.writeStartObject();
      json.writeStringField("fibre", fibre.fibre().toString());
      json.writeStringField("standing", fibre.standing().word());
      strings("reasons", fibre.reasons());
      List<AssessedReading> readings = fibre.readings();
      json.writeArrayFieldStart("readings");
      for (AssessedReading reading : readings) {
        if (reading.current()) {
          reading(reading, Optional.of(fibre.blocked(reading)));
        }
      }
      json.writeEndArray();
      json.writeArrayFieldStart("replaced");
      for (AssessedReading reading : readings) {
        if (!reading.current()) {
          reading(reading, Optional.of(fibre.blocked(reading)));
        }
      }
      json.writeEndArray();
      json.writeStringField("fibre_category", link.category().label());
      number("length_m", link.lengthM());
      json.writeStringField("a_place", link.a().place());
      json.writeStringField("a_port", link.a().port());
      json.writeStringField("b_place", link.b().place());
      json.writeStringField("b_port", link.b().port());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /** Readings of fibres that are not in the schedule: kept in sight, though nothing judges them. */
  private void unscheduled() throws IOException {
    json.writeArrayFieldStart("unscheduled");
    for (AssessedReading reading : judgement.ledger().readings()) {
      if (reading.slot() < 0) {
        reading(reading, Optional.empty());
      }
    }
    json.writeEndArray();
  }

  private void reading(AssessedReading assessed, Optional<Boolean> inDoubt) throws IOException {
    Reading reading = assessed.reading();
    json.writeStartObject();
    if (inDoubt.isEmpty()) {
      json.writeStringField("fibre", reading.fibreId().toString());
    }
    json.writeStringField("direction", reading.direction().word());
    json.writeNumberField("wavelength_nm", reading.wavelength().nm());
    number("loss_db", assessed.lossDb());
    number("limit_db", assessed.limitDb());
    Optional<Allowance> allowance = assessed.allowance();
    number("expected_db", allowance.map(Allowance::expectedDb).orElse(Double.NaN));
    number("expected_sd_db", allowance.map(Allowance::expectedSdDb).orElse(Double.NaN));
    number("uncertainty_db", assessed.expandedDb());
    number("margin_db", assessed.marginDb());
    number("p_conforming", assessed.probabilityConforming());
    json.writeStringField("decision", assessed.decision().word());
    json.writeStringField("reference", reading.reference());
    json.writeStringField("measured_at", reading.measuredAt().toString());
    json.writeStringField("operator", reading.operator());
    number("power_dbm", reading.powerDbm());
    number("length_m", reading.lengthM());
    json.writeBooleanField("current", assessed.current());
    if (inDoubt.isPresent()) {
      json.writeBooleanField("in_doubt", inDoubt.get());
    }
    json.writeArrayFieldStart("limit_terms");
    if (allowance.isPresent()) {
      for (Term term : allowance.get().limitTerms().terms()) {
        json.writeStartObject();
        number("count", term.count());
        json.writeNumberField("part", partNumber(term.part()));
        json.writeEndObject();
      }
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private int partNumber(Part part) {
    Integer known = parts.get(part);
    if (known == null) {
      known = parts.size();
      parts.put(part, known);
    }
    return known;
  }

  private void limitParts() throws IOException {
    json.writeArrayFieldStart("limit_parts");
    for (Map.Entry<Part, Integer> entry : parts.entrySet()) {
      Part part = entry.getKey();
      json.writeStartObject();
      json.writeNumberField("part", entry.getValue());
      json.writeStringField("what", part.what());
      json.writeStringField("unit", part.unit());
      number("each_db", part.eachDb());
      json.writeStringField("standard", part.source().standard());
      json.writeStringField("edition", part.source().edition());
      json.writeStringField("clause", part.source().clause());
      json.writeStringField("confidence", part.source().confidence().id());
      json.writeStringField("confidence_shown", part.source().confidence().shown());
      json.writeStringField("seen_in", part.source().seenIn());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void references() throws IOException {
    Map<String, Confounded> confoundedZeros = judgement.estimate().confounded();
    json.writeArrayFieldStart("references");
    for (ZeroTrust trust : judgement.zeros()) {
      json.writeStartObject();
      json.writeStringField("reference", trust.zero().id());
      json.writeStringField("trust", trust.trust().word());
      strings("reasons", trust.reasons());
      Confounded confounded = confoundedZeros.getOrDefault(trust.zero().id(), NOTHING);
      shifts(trust, confounded.with());
      separate(confounded.separations());
      json.writeStringField("method", trust.zero().method().word());
      json.writeNumberField("readings", trust.readings());
      json.writeArrayFieldStart("levels");
      for (ZeroLevel level : trust.zero().levels()) {
        level(level);
      }
      json.writeEndArray();
      spans(trust.spans());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /** A level without readings has no estimate and is left out. */
  private void shifts(ZeroTrust trust, List<String> confoundedWith) throws IOException {
    json.writeArrayFieldStart("shifts");
    for (ZeroLevel level : trust.zero().levels()) {
      Optional<LevelShift> shift = judgement.estimate().shift(level);
      if (shift.isPresent()) {
        json.writeStartObject();
        json.writeStringField("direction", level.direction().word());
        json.writeNumberField("wavelength_nm", level.wavelength().nm());
        number("shift_db", shift.get().shiftDb());
        number("shift_sd_db", shift.get().sdDb());
        if (!confoundedWith.isEmpty()) {
          strings("confounded_with", confoundedWith);
        }
        json.writeEndObject();
      }
    }
    json.writeEndArray();
  }

  /** Only where something is confounded: what would tell the causes apart, the best first. */
  private void separate(List<Separation> separations) throws IOException {
    if (separations.isEmpty()) {
      return;
    }
    json.writeArrayFieldStart("separate");
    for (Separation separation : separations) {
      for (SeparatingReading reading : separation.readings()) {
        json.writeStartObject();
        if (reading.fibre().isPresent()) {
          json.writeStringField("fibre", reading.fibre().get().toString());
        } else {
          strings("cords", reading.cords());
        }
        json.writeStringField("direction", reading.direction().word());
        json.writeNumberField("wavelength_nm", reading.nm());
        json.writeStringField("reference", reading.reference());
        json.writeObjectFieldStart("expect_db");
        number(separation.first(), reading.firstDb());
        number(separation.second(), reading.secondDb());
        json.writeEndObject();
        number("threshold_db", reading.thresholdDb());
        number("expect_sd_db", reading.sdDb());
        number("minutes", reading.minutes());
        json.writeEndObject();
      }
    }
    json.writeEndArray();
  }

  /** The shift of a cord is what the zeros that it stood in have in common. */
  private void cords() throws IOException {
    json.writeArrayFieldStart("cords");
    for (CordShift cord : judgement.estimate().cords()) {
      json.writeStartObject();
      json.writeStringField("cord", cord.cord());
      strings("roles", cord.roles());
      strings("references", cord.zeros());
      number("shift_db", cord.shiftDb());
      number("shift_sd_db", cord.sdDb());
      strings("confounded_with", cord.confoundedWith());
      json.writeNumberField("matings_in_job", cord.matingsInJob());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void alarm() throws IOException {
    Alarm alarm = judgement.alarm();
    json.writeObjectFieldStart("alarm");
    json.writeNumberField("looks", alarm.looks());
    number("false_alarm_chance", alarm.chance());
    number("blocking_false_alarm_chance", alarm.blockingChance());
    json.writeArrayFieldStart("shares");
    for (AlarmShare share : alarm.shares()) {
      json.writeStartObject();
      strings("kinds", share.kinds().stream().map(DoubtKind::id).toList());
      json.writeBooleanField("blocking", share.blocking());
      json.writeNumberField("looks", share.looks());
      number("false_alarm_chance", share.chance());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  /** The smallest trouble that the readings would show with a chance of 98 %. */
  private void wouldShow() throws IOException {
    json.writeArrayFieldStart("would_show");
    for (Sight sight : judgement.sights()) {
      json.writeStartObject();
      json.writeStringField("kind", sight.kind().id());
      json.writeStringField("subject", sight.subject().id());
      number("size_db", sight.shownFromDb());
      number("chance", Sight.SURE);
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void spans(List<TrustSpan> spans) throws IOException {
    json.writeArrayFieldStart("spans");
    for (TrustSpan span : spans) {
      json.writeStartObject();
      json.writeStringField("from", span.from().toString());
      json.writeStringField("to", span.to().toString());
      json.writeStringField("trust", span.trust().word());
      json.writeStringField("reason", span.reason());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void verifyEvery() throws IOException {
    VerificationInterval interval = VerificationInterval.of(judgement);
    json.writeObjectFieldStart("verify_every");
    number("links", interval.links());
    number("low", interval.low());
    number("high", interval.high());
    json.writeNumberField("events", interval.events());
    json.writeNumberField("links_tested", interval.linksTested());
    json.writeEndObject();
  }

  /** They replace nothing: totals and standings above are of the readings as they are. */
  private void proposals() throws IOException {
    json.writeArrayFieldStart("proposals");
    for (Proposal proposal : Proposals.of(judgement)) {
      json.writeStartObject();
      json.writeStringField("reference", proposal.reference());
      number("shift_db", proposal.shiftDb());
      number("shift_sd_db", proposal.shiftSdDb());
      json.writeObjectFieldStart("would_be");
      for (Map.Entry<Standing, Integer> total : proposal.totals().entrySet()) {
        json.writeNumberField(total.getKey().word(), total.getValue());
      }
      json.writeEndObject();
      json.writeArrayFieldStart("fibres");
      for (Proposal.WouldBe fibre : proposal.fibres()) {
        json.writeStartObject();
        json.writeStringField("fibre", fibre.fibre().toString());
        json.writeStringField("standing", fibre.standing().word());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void level(ZeroLevel level) throws IOException {
    json.writeStartObject();
    json.writeStringField("direction", level.direction().word());
    json.writeNumberField("wavelength_nm", level.wavelength().nm());
    json.writeStringField("set_at", level.setAt().toString());
    number("power_dbm", level.power().value());
    number("verification_db", level.verification().map(v -> v.value()).orElse(Double.NaN));
    json.writeStringField("source", level.source());
    json.writeStringField("meter", level.meter());
    json.writeStringField("launch_cord", level.launchCord());
    json.writeStringField("receive_cord", level.receiveCord());
    json.writeStringField("substitution_cord", level.substitutionCord());
    json.writeStringField("fibre_category", level.category().map(c -> c.label()).orElse(""));
    json.writeStringField("operator", level.operator());
    json.writeEndObject();
  }

  private void doubts() throws IOException {
    json.writeArrayFieldStart("doubts");
    for (Doubt doubt : judgement.doubts()) {
      json.writeStartObject();
      json.writeStringField("kind", doubt.kind().id());
      json.writeStringField("subject", doubt.subject().id());
      json.writeBooleanField("blocking", doubt.blocking());
      fibreIds("reach", doubt.reach().fibres());
      evidence(doubt.evidence());
      json.writeArrayFieldStart("causes");
      for (Cause cause : doubt.causes()) {
        json.writeStartObject();
        json.writeStringField("cause", cause.cause());
        number("weight", cause.weight());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeStringField("next", doubt.next().what());
      number("minutes", doubt.next().minutes());
      json.writeStringField("where", doubt.next().where());
      json.writeStringField("subject_type", doubt.subject().type().word());
      json.writeStringField("says", doubt.kind().headline());
      reachReadings(doubt.reach().readings());
      json.writeStringField("confirms", doubt.next().confirms());
      json.writeStringField("refutes", doubt.next().refutes());
      separate(doubt.separations());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void reachReadings(List<AssessedReading> readings) throws IOException {
    json.writeArrayFieldStart("reach_readings");
    for (AssessedReading assessed : readings) {
      Reading reading = assessed.reading();
      json.writeStartObject();
      json.writeStringField("fibre", reading.fibreId().toString());
      json.writeStringField("direction", reading.direction().word());
      json.writeNumberField("wavelength_nm", reading.wavelength().nm());
      json.writeStringField("measured_at", reading.measuredAt().toString());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /** Names of evidence become keys; a name given twice gets a number, so that none is lost. */
  private void evidence(List<Evidence> evidence) throws IOException {
    json.writeObjectFieldStart("evidence");
    Set<String> used = new HashSet<>();
    for (Evidence item : evidence) {
      String name = item.name();
      for (int i = 2; !used.add(name); i++) {
        name = item.name() + "_" + i;
      }
      if (item instanceof Evidence.Measure measure) {
        number(name, measure.value());
      } else {
        json.writeStringField(name, item.shown());
      }
    }
    json.writeEndObject();
  }

  private void actions() throws IOException {
    json.writeArrayFieldStart("actions");
    for (Action action : judgement.actions()) {
      json.writeStartObject();
      json.writeNumberField("rank", action.rank());
      json.writeStringField("do", action.what());
      json.writeStringField("where", action.where());
      number("minutes", action.minutes());
      fibreIds("frees", action.frees());
      json.writeNumberField("helps", action.helps());
      json.writeStringField("confirms", action.confirms());
      json.writeStringField("refutes", action.refutes());
      json.writeNumberField("stop", action.stop());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /** Minutes of a stop hold those for setting up; {@code frees} counts what that stop frees. */
  private void walk() throws IOException {
    json.writeArrayFieldStart("walk");
    for (Walk.Stop stop : judgement.walk().stops()) {
      json.writeStartObject();
      json.writeNumberField("stop", stop.number());
      json.writeStringField("place", stop.place());
      number("minutes", stop.minutes());
      json.writeArrayFieldStart("actions");
      for (int rank : stop.actions()) {
        json.writeNumber(rank);
      }
      json.writeEndArray();
      json.writeNumberField("frees", stop.frees());
      number("set_up_minutes", stop.setUpMinutes());
      number("minutes_by_then", stop.minutesByThen());
      json.writeNumberField("freed_by_then", stop.freedByThen());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  static void problems(JsonGenerator json, List<Problem> problems) throws IOException {
    json.writeArrayFieldStart("problems");
    for (Problem problem : problems) {
      json.writeStartObject();
      json.writeStringField("file", problem.file());
      json.writeNumberField("row", problem.row());
      json.writeStringField("column", problem.column());
      json.writeStringField("expected", problem.expected());
      json.writeStringField("found", problem.found());
      json.writeStringField("action", problem.action());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void strings(String name, List<String> values) throws IOException {
    json.writeArrayFieldStart(name);
    for (String value : values) {
      json.writeString(value);
    }
    json.writeEndArray();
  }

  private void fibreIds(String name, List<FibreId> fibres) throws IOException {
    json.writeArrayFieldStart(name);
    for (FibreId fibre : fibres) {
      json.writeString(fibre.toString());
    }
    json.writeEndArray();
  }

  private void number(String name, double value) throws IOException {
    JsonNumbers.write(json, name, value);
  }
}
