package ferrule.record.data;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import ferrule.core.Problem;
import ferrule.core.isolation.Contrast;
import ferrule.core.isolation.EndFinding;
import ferrule.core.isolation.EndId;
import ferrule.core.isolation.EndLimit;
import ferrule.core.isolation.Estimate;
import ferrule.core.isolation.Fit;
import ferrule.core.isolation.Isolation;
import ferrule.core.isolation.MatedPath;
import ferrule.core.isolation.NextMeasurement;
import ferrule.core.isolation.SpecialPair;
import ferrule.core.isolation.ToldSum;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Provenance;
import java.io.IOException;
import java.io.Writer;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Cord isolation as JSON, as {@code ferrule cords --json} gives it. Keys are a contract: they may
 * be added, never renamed. Numbers are unrounded; one that does not exist is {@code null}.
 */
public final class IsolationJson {

  private static final JsonFactory FACTORY =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private final JsonGenerator json;

  private IsolationJson(JsonGenerator json) {
    this.json = json;
  }

  /**
   * Writes the document on one line. The writer is flushed and stays open.
   *
   * @param input the table as the user named it
   * @param found one result a wavelength; none if the table could not be used
   * @param problems what was wrong with the table
   * @param notes what a reader should know besides
   * @throws IOException if {@code out} fails
   */
  public static void write(
      Writer out, String input, List<Isolation> found, List<Problem> problems, List<String> notes)
      throws IOException {
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      json.writeStartObject();
      json.writeStringField("input", input);
      json.writeArrayFieldStart("wavelengths");
      for (Isolation isolation : found) {
        new IsolationJson(json).isolation(isolation);
      }
      json.writeEndArray();
      JudgementJson.problems(json, problems);
      json.writeArrayFieldStart("notes");
      for (String note : notes) {
        json.writeString(note);
      }
      json.writeEndArray();
      json.writeEndObject();
    }
  }

  private void isolation(Isolation isolation) throws IOException {
    json.writeStartObject();
    Optional<Wavelength> wavelength = isolation.wavelength();
    if (wavelength.isPresent()) {
      json.writeNumberField("wavelength_nm", wavelength.get().nm());
    } else {
      json.writeNullField("wavelength_nm");
    }
    limit(isolation.limit());
    json.writeNumberField("readings", isolation.readings().size());
    json.writeNumberField("rank", isolation.rank());
    json.writeObjectFieldStart("spread");
    json.writeStringField("from", isolation.spread().basis().word());
    json.writeNumberField("reading_sd_db", isolation.spread().readingDb());
    number("degrees", isolation.spread().degrees());
    json.writeEndObject();
    fit(isolation.fit());
    json.writeArrayFieldStart("ends");
    for (EndFinding end : isolation.ends()) {
      end(end);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("groups");
    for (List<EndId> group : isolation.groups()) {
      json.writeStartArray();
      for (EndId end : group) {
        json.writeString(end.toString());
      }
      json.writeEndArray();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("sums");
    for (ToldSum sum : isolation.sums()) {
      sum(sum);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("special_pairs");
    for (SpecialPair pair : isolation.specialPairs()) {
      json.writeStartObject();
      json.writeStringField("pair", pair.pair().toString());
      json.writeNumberField("extra_db", pair.extra().db());
      json.writeNumberField("sd_db", pair.extra().sdDb());
      json.writeEndObject();
    }
    json.writeEndArray();
    if (isolation.next().isPresent()) {
      next(isolation.next().get());
    } else {
      json.writeNullField("next");
    }
    json.writeEndObject();
  }

  private void limit(EndLimit limit) throws IOException {
    Provenance provenance = limit.pair().provenance();
    json.writeObjectFieldStart("limit");
    json.writeStringField("fibre", limit.kind().word());
    json.writeStringField("fibre_from", limit.origin().word());
    json.writeNumberField("end_db", limit.db());
    json.writeNumberField("pair_db", limit.pair().value());
    json.writeStringField("source", provenance.line());
    json.writeStringField("confidence", provenance.confidence().id());
    json.writeEndObject();
  }

  private void fit(Optional<Fit> fit) throws IOException {
    if (fit.isEmpty()) {
      json.writeNullField("fit");
      return;
    }
    json.writeObjectFieldStart("fit");
    json.writeNumberField("chi_square", fit.get().chiSquare());
    json.writeNumberField("degrees", fit.get().degrees());
    json.writeNumberField("critical", fit.get().critical());
    json.writeNumberField("probability", fit.get().probability());
    json.writeBooleanField("holds", fit.get().holds());
    json.writeEndObject();
  }

  private void end(EndFinding end) throws IOException {
    json.writeStartObject();
    json.writeStringField("end", end.end().toString());
    json.writeStringField("state", end.state().word());
    json.writeBooleanField("told", end.loss().isPresent());
    number("loss_db", end.loss().map(Estimate::db).orElse(Double.NaN));
    number("sd_db", end.loss().map(Estimate::sdDb).orElse(Double.NaN));
    number("p_over", end.over());
    json.writeNumberField("readings", end.readings());
    if (end.contrast().isPresent()) {
      contrast(end.contrast().get());
    } else {
      json.writeNullField("contrast");
    }
    json.writeEndObject();
  }

  private void contrast(Contrast contrast) throws IOException {
    json.writeObjectFieldStart("contrast");
    ends("fellows", contrast.fellows());
    json.writeNumberField("difference_db", contrast.difference().db());
    json.writeNumberField("sd_db", contrast.difference().sdDb());
    json.writeNumberField("t", contrast.t());
    json.writeNumberField("probability", contrast.probability());
    json.writeBooleanField("stands_out", contrast.standsOut());
    json.writeEndObject();
  }

  private void sum(ToldSum sum) throws IOException {
    json.writeStartObject();
    json.writeArrayFieldStart("terms");
    for (ToldSum.Term term : sum.terms()) {
      json.writeStartObject();
      json.writeStringField("end", term.end().toString());
      json.writeNumberField("factor", term.factor());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeNumberField("loss_db", sum.value().db());
    json.writeNumberField("sd_db", sum.value().sdDb());
    json.writeEndObject();
  }

  private void next(NextMeasurement next) throws IOException {
    json.writeObjectFieldStart("next");
    json.writeStringField("why", next.why().word());
    json.writeStringField("ends", next.path().toString());
    json.writeBooleanField("new_zero", next.newZero());
    json.writeBooleanField("further_cord", next.furtherCord());
    ends("tells", next.tells());
    if (next.worst().isPresent()) {
      json.writeStringField("worst", next.worst().get().toString());
    } else {
      json.writeNullField("worst");
    }
    number("worst_sd_now_db", next.sdNow());
    number("worst_sd_then_db", next.sdThen());
    json.writeArrayFieldStart("then");
    for (MatedPath path : next.then()) {
      json.writeString(path.toString());
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void ends(String name, Collection<EndId> ends) throws IOException {
    json.writeArrayFieldStart(name);
    for (EndId end : ends) {
      json.writeString(end.toString());
    }
    json.writeEndArray();
  }

  private void number(String name, OptionalDouble value) throws IOException {
    number(name, value.orElse(Double.NaN));
  }

  private void number(String name, double value) throws IOException {
    JsonNumbers.write(json, name, value);
  }
}
