package ferrule.app;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import ferrule.core.allowance.LossSum;
import ferrule.core.allowance.Term;
import ferrule.core.job.Requirement;
import ferrule.core.plan.Hours;
import ferrule.core.plan.JobPlan;
import ferrule.core.plan.KitList;
import ferrule.core.plan.LinkPlan;
import ferrule.core.plan.Question;
import ferrule.core.plan.Range;
import ferrule.core.plan.WalkOrder;
import ferrule.core.plant.Link;
import java.io.IOException;
import java.io.Writer;
import java.util.List;

/**
 * A plan as JSON, as {@code ferrule plan --json} gives it. Keys are a contract: they may be added,
 * never renamed. Numbers are unrounded; what is not known is null.
 */
public final class PlanJson {

  private static final JsonFactory FACTORY =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private PlanJson() {}

  /**
   * Writes a plan on one line. The writer is flushed and stays open.
   *
   * @throws IOException if {@code out} fails
   */
  public static void write(Writer out, JobPlan plan) throws IOException {
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      json.writeStartObject();
      job(json, plan);
      json.writeArrayFieldStart("questions");
      for (Question question : plan.questions()) {
        question(json, question);
      }
      json.writeEndArray();
      json.writeArrayFieldStart("links");
      for (LinkPlan link : plan.links()) {
        link(json, link);
      }
      json.writeEndArray();
      kit(json, plan.kit());
      faces(json, plan);
      hours(json, plan.hours());
      json.writeObjectFieldStart("verify_every");
      json.writeNumberField("links", plan.verify().links());
      json.writeNumberField("low", plan.verify().low());
      json.writeNumberField("high", plan.verify().high());
      json.writeEndObject();
      walk(json, plan.walk());
      json.writeEndObject();
    }
  }

  private static void job(JsonGenerator json, JobPlan plan) throws IOException {
    Requirement asked = plan.requirement();
    json.writeObjectFieldStart("job");
    json.writeStringField("title", asked.title());
    json.writeStringField("rulebook", asked.rulebook().id());
    json.writeStringField("edition", asked.rulebook().edition());
    json.writeStringField("method", asked.method().word());
    json.writeStringField("directions", asked.directions().word());
    json.writeStringField("on", plan.day().toString());
    json.writeEndObject();
  }

  private static void question(JsonGenerator json, Question question) throws IOException {
    json.writeStartObject();
    json.writeStringField("kind", question.kind().id());
    json.writeStringField("question", question.text());
    json.writeStringField("source", question.source());
    strings(json, "links", question.links());
    json.writeObjectFieldStart("if_late");
    json.writeStringField("what", question.late().what());
    range(json, "minutes", question.late().minutes());
    json.writeEndObject();
    json.writeEndObject();
  }

  private static void link(JsonGenerator json, LinkPlan plan) throws IOException {
    Link link = plan.link();
    json.writeStartObject();
    json.writeStringField("link", link.id());
    json.writeStringField("fibre_category", link.category().label());
    json.writeNumberField("length_m", link.lengthM());
    json.writeObjectFieldStart("advised");
    json.writeStringField("method", plan.advice().method().word());
    json.writeBooleanField("trace", plan.advice().trace());
    json.writeStringField("why", plan.advice().why());
    json.writeStringField("source", plan.advice().source());
    json.writeEndObject();
    json.writeArrayFieldStart("allowances");
    for (LinkPlan.Planned planned : plan.planned()) {
      json.writeStartObject();
      json.writeNumberField("wavelength_nm", planned.wavelength().nm());
      number(json, "limit_db", planned.allowance().limitDb());
      number(json, "expected_db", planned.allowance().expectedDb());
      number(json, "expected_sd_db", planned.allowance().expectedSdDb());
      number(json, "hides_db", planned.hidesDb());
      number(json, "hides_sd_db", planned.hidesSdDb());
      terms(json, "limit_terms", planned.allowance().limitTerms());
      terms(json, "expected_terms", planned.allowance().expectedTerms());
      strings(json, "lacking", planned.allowance().lacking());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void terms(JsonGenerator json, String name, LossSum sum) throws IOException {
    json.writeArrayFieldStart(name);
    for (Term term : sum.terms()) {
      json.writeStartObject();
      json.writeStringField("what", term.part().what());
      json.writeNumberField("count", term.count());
      json.writeStringField("unit", term.part().unit());
      json.writeNumberField("each_db", term.part().eachDb());
      json.writeNumberField("sum_db", term.loss().value());
      json.writeStringField("source", term.part().source().line());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void kit(JsonGenerator json, KitList kit) throws IOException {
    json.writeObjectFieldStart("kit");
    json.writeArrayFieldStart("cord_sets");
    for (KitList.CordSets set : kit.cords()) {
      json.writeStartObject();
      json.writeStringField("for", set.setup().shown());
      json.writeNumberField("cords_in_set", set.cordsInSet());
      json.writeStringField("grade", set.grade());
      json.writeNumberField("links", set.links());
      json.writeNumberField("matings_one_direction", set.matings());
      json.writeNumberField("matings_if_swapped", set.matingsIfSwapped());
      range(json, "sets", set.sets());
      json.writeNumberField("spares", set.spares());
      strings(json, "on_record", set.onRecord());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("items");
    for (KitList.Item item : kit.items()) {
      json.writeStartObject();
      json.writeStringField("what", item.what());
      json.writeStringField("amount", item.amount());
      json.writeStringField("why", item.why());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void faces(JsonGenerator json, JobPlan plan) throws IOException {
    json.writeObjectFieldStart("faces");
    json.writeNumberField("links", plan.faces().linkFaces());
    json.writeNumberField("cords", plan.faces().cordFaces());
    json.writeNumberField("cords_second_direction", plan.faces().secondDirection());
    json.writeNumberField("one_direction", plan.faces().total(1));
    json.writeNumberField("both_directions", plan.faces().total(2));
    json.writeNumberField("cords_each_duplex_zero", plan.zeroFaces());
    json.writeEndObject();
  }

  private static void hours(JsonGenerator json, Hours hours) throws IOException {
    json.writeObjectFieldStart("hours");
    json.writeStringField("pace", hours.pace().origin());
    json.writeArrayFieldStart("choices");
    for (Hours.Row row : hours.rows()) {
      json.writeStartObject();
      json.writeNumberField("directions", row.choice().passes());
      json.writeBooleanField("inspection", row.choice().inspection());
      json.writeBooleanField("pictures", row.choice().pictures());
      json.writeBooleanField("asked", row.equals(hours.required()));
      range(json, "crew_minutes", row.total());
      range(json, "tests", row.tests());
      range(json, "set_up", row.setUp());
      range(json, "zeros", row.zeros());
      range(json, "verification", row.verification());
      range(json, "repairs", row.repairs());
      json.writeEndObject();
    }
    json.writeEndArray();
    range(json, "office_minutes", hours.office());
    json.writeEndObject();
  }

  private static void walk(JsonGenerator json, WalkOrder walk) throws IOException {
    json.writeObjectFieldStart("walk");
    json.writeNumberField("ratio", walk.ratio());
    json.writeBooleanField("proved", walk.proved());
    effort(json, "order", walk.effort());
    effort(json, "schedule", walk.schedule());
    json.writeArrayFieldStart("stops");
    for (WalkOrder.Stop stop : walk.stops()) {
      json.writeStartObject();
      json.writeStringField("place", stop.placeA());
      json.writeStringField("other_place", stop.placeB());
      json.writeStringField("zero", stop.setup().shown());
      strings(json, "links", stop.links().stream().map(Link::id).toList());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void effort(JsonGenerator json, String name, WalkOrder.Effort effort)
      throws IOException {
    json.writeObjectFieldStart(name);
    json.writeNumberField("walks", effort.walks());
    json.writeNumberField("zeros", effort.zeros());
    json.writeNumberField("minutes", effort.minutes());
    json.writeEndObject();
  }

  private static void range(JsonGenerator json, String name, Range range) throws IOException {
    json.writeObjectFieldStart(name);
    json.writeNumberField("low", range.low());
    json.writeNumberField("usual", range.usual());
    json.writeNumberField("high", range.high());
    json.writeEndObject();
  }

  private static void number(JsonGenerator json, String name, double value) throws IOException {
    if (Double.isFinite(value)) {
      json.writeNumberField(name, value);
    } else {
      json.writeNullField(name);
    }
  }

  private static void strings(JsonGenerator json, String name, List<String> values)
      throws IOException {
    json.writeArrayFieldStart(name);
    for (String value : values) {
      json.writeString(value);
    }
    json.writeEndArray();
  }
}
