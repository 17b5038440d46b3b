package ferrule.record.data;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import ferrule.core.face.FacePicture;
import ferrule.core.face.FibreOutcome;
import ferrule.core.face.GradedFace;
import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.List;
import java.util.Map;

/** Grades of end faces as JSON Lines: one object a line for each grade, in the order handed in. */
public final class GradesJsonl {

  private static final JsonFactory FACTORY =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private GradesJsonl() {}

  /**
   * Writes them. The writer stays open.
   *
   * @param files the file of each picture in the record, by hash; those that are missing are null
   * @throws IOException if {@code out} fails
   */
  public static void write(Writer out, List<GradedFace> graded, Map<String, String> files)
      throws IOException {
    for (GradedFace face : graded) {
      try (JsonGenerator json = FACTORY.createGenerator(out)) {
        FacePicture listed = face.listed();
        json.writeStartObject();
        json.writeStringField("picture", listed.picture());
        json.writeStringField("subject", listed.subject());
        json.writeStringField("stage", listed.stage());
        text(json, "taken_at", listed.takenAt().map(Instant::toString).orElse(""));
        json.writeStringField("operator", listed.operator());
        json.writeStringField("sha256", face.sha256());
        text(json, "file", files.getOrDefault(face.sha256(), ""));
        json.writeStringField("criteria", face.criteria());
        json.writeStringField("class", face.faceClass().id());
        json.writeStringField("outcome", face.outcome().word());
        json.writeBooleanField("close", face.close());
        json.writeArrayFieldStart("reasons");
        for (String reason : face.reasons()) {
          json.writeString(reason);
        }
        json.writeEndArray();
        fibres(json, face.fibres());
        json.writeEndObject();
      }
      out.write('\n');
    }
  }

  /** Of a row each fibre's outcome; nothing for a single fibre. */
  private static void fibres(JsonGenerator json, List<FibreOutcome> fibres) throws IOException {
    if (fibres.isEmpty()) {
      return;
    }
    json.writeArrayFieldStart("fibres");
    for (int i = 0; i < fibres.size(); i++) {
      json.writeStartObject();
      json.writeNumberField("fibre", i + 1);
      json.writeStringField("outcome", fibres.get(i).outcome().word());
      json.writeBooleanField("close", fibres.get(i).close());
      json.writeStringField("reason", fibres.get(i).reason());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void text(JsonGenerator json, String name, String text) throws IOException {
    if (text.isEmpty()) {
      json.writeNullField(name);
    } else {
      json.writeStringField(name, text);
    }
  }
}
