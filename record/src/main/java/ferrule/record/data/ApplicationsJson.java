package ferrule.record.data;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import ferrule.core.application.ApplicationCheck;
import ferrule.core.application.Carriage;
import ferrule.core.application.JobApplications;
import ferrule.core.application.LossSpan;
import ferrule.core.rulebook.Figure;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.Optional;

/**
 * Applications of a job's links as JSON, as {@code ferrule applications --json} gives them. Keys
 * are a contract: they may be added, never renamed. Numbers are unrounded.
 */
public final class ApplicationsJson {

  private static final JsonFactory FACTORY =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private ApplicationsJson() {}

  /**
   * Writes checks on one line. The writer is flushed and stays open.
   *
   * @param all of the job
   * @param shown the checks to write
   * @throws IOException if {@code out} fails
   */
  public static void write(Writer out, JobApplications all, List<ApplicationCheck> shown)
      throws IOException {
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      json.writeStartObject();
      names(json, "wanted", all.wanted());
      names(json, "wanted_unknown", all.unknown());
      json.writeArrayFieldStart("checks");
      for (ApplicationCheck check : shown) {
        check(json, check, all.wants(check.application()));
      }
      json.writeEndArray();
      json.writeEndObject();
    }
  }

  private static void names(JsonGenerator json, String key, List<String> names) throws IOException {
    json.writeArrayFieldStart(key);
    for (String name : names) {
      json.writeString(name);
    }
    json.writeEndArray();
  }

  private static void check(JsonGenerator json, ApplicationCheck check, boolean wanted)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("link", check.link().id());
    json.writeStringField("family", check.application().family());
    json.writeStringField("application", check.application().name());
    json.writeBooleanField("wanted", wanted);
    json.writeStringField("outcome", check.carriage().word());
    if (check.carriage() instanceof Carriage.Carries yes) {
      decided(json, check, yes.term(), "room", yes.room());
    } else if (check.carriage() instanceof Carriage.DoesNot no) {
      decided(json, check, no.term(), "by", no.by());
    } else if (check.carriage() instanceof Carriage.CannotBeTold open) {
      json.writeStringField("why", open.why());
    }
    json.writeNumberField("length_m", check.link().lengthM());
    if (check.loss().isPresent()) {
      loss(json, check.loss().get());
    } else {
      json.writeNullField("loss");
    }
    json.writeObjectFieldStart("limits");
    for (Carriage.Term term : Carriage.Term.values()) {
      figure(json, key(term), check.figure(term));
    }
    json.writeEndObject();
    json.writeStringField("note", check.application().note());
    json.writeEndObject();
  }

  private static void decided(
      JsonGenerator json, ApplicationCheck check, Carriage.Term term, String key, double amount)
      throws IOException {
    json.writeStringField("term", key(term));
    json.writeNumberField(key, amount);
    json.writeStringField("unit", term.unit());
    json.writeBooleanField(
        "confirm_against_standard",
        check.figure(term).map(f -> f.provenance().fromMemory()).orElse(false));
  }

  private static void loss(JsonGenerator json, LossSpan loss) throws IOException {
    json.writeObjectFieldStart("loss");
    json.writeStringField("origin", loss.origin().word());
    json.writeNumberField("least_db", loss.leastDb());
    json.writeNumberField("most_db", loss.mostDb());
    json.writeArrayFieldStart("windows_nm");
    for (int window : loss.windowsNm()) {
      json.writeNumber(window);
    }
    json.writeEndArray();
    json.writeNumberField("fibres", loss.fibres());
    json.writeEndObject();
  }

  private static void figure(JsonGenerator json, String key, Optional<Figure> figure)
      throws IOException {
    if (figure.isEmpty()) {
      json.writeNullField(key);
      return;
    }
    json.writeObjectFieldStart(key);
    json.writeNumberField("value", figure.get().value());
    json.writeStringField("standard", figure.get().provenance().standard());
    json.writeStringField("clause", figure.get().provenance().clause());
    json.writeStringField("confidence", figure.get().provenance().confidence().id());
    json.writeStringField("seen_in", figure.get().provenance().seenIn());
    json.writeEndObject();
  }

  private static String key(Carriage.Term term) {
    return switch (term) {
      case MOST_LOSS -> "most_loss";
      case LEAST_LOSS -> "least_loss";
      case LENGTH -> "most_length";
      case LEAST_LENGTH -> "least_length";
    };
  }
}
