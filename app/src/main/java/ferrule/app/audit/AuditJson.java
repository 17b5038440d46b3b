package ferrule.app.audit;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import ferrule.record.About;
import ferrule.record.audit.Difference;
import java.io.IOException;
import java.io.Writer;
import org.jspecify.annotations.Nullable;

/** An audit as JSON. Keys are a contract: they may be added, never renamed. */
public final class AuditJson {

  private static final JsonFactory FACTORY =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private AuditJson() {}

  /**
   * Writes it on one line. The writer stays open.
   *
   * @throws IOException if {@code out} fails
   */
  public static void write(Writer out, AuditReport report) throws IOException {
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      json.writeStartObject();
      json.writeBooleanField("agrees", report.agrees());
      about(json, report.about().orElse(null));
      json.writeObjectFieldStart("signature");
      json.writeStringField("state", report.seal().signature().word());
      text(json, "fingerprint", report.seal().fingerprint().orElse(null));
      json.writeEndObject();
      json.writeNumberField("files", report.seal().files());
      json.writeBooleanField("chain_whole", report.chain());
      recomputed(json, report.recomputed().orElse(null));
      json.writeBooleanField("compared_whole", report.whole());
      json.writeArrayFieldStart("differences");
      for (Difference difference : report.differences()) {
        json.writeStartObject();
        json.writeStringField("kind", difference.kind().word());
        json.writeStringField("file", difference.file());
        json.writeNumberField("line", difference.line());
        json.writeStringField("place", difference.place());
        json.writeStringField("says", difference.says());
        json.writeStringField("follows", difference.follows());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeNumberField("differences_not_listed", report.beyond());
      json.writeArrayFieldStart("notes");
      for (String note : report.notes()) {
        json.writeString(note);
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    out.write('\n');
    out.flush();
  }

  private static void about(JsonGenerator json, @Nullable About about) throws IOException {
    if (about == null) {
      json.writeNullField("record");
      return;
    }
    json.writeObjectFieldStart("record");
    json.writeNumberField("format", about.format());
    json.writeStringField("title", about.title());
    json.writeStringField("issued_at", about.issuedAt().toString());
    json.writeStringField("ferrule_version", about.ferruleVersion());
    json.writeStringField("made_from", about.origin().word());
    json.writeNumberField("issue", about.issue());
    json.writeEndObject();
  }

  private static void recomputed(JsonGenerator json, AuditReport.@Nullable Recomputed recomputed)
      throws IOException {
    if (recomputed == null) {
      json.writeNullField("recomputed");
      return;
    }
    json.writeObjectFieldStart("recomputed");
    json.writeNumberField("entries", recomputed.entries());
    json.writeStringField("head", recomputed.head());
    json.writeNumberField("fibres", recomputed.fibres());
    json.writeNumberField("readings", recomputed.readings());
    json.writeNumberField("references", recomputed.zeros());
    json.writeNumberField("doubts", recomputed.doubts());
    json.writeEndObject();
  }

  private static void text(JsonGenerator json, String key, @Nullable String value)
      throws IOException {
    if (value == null) {
      json.writeNullField(key);
    } else {
      json.writeStringField(key, value);
    }
  }
}
