package ferrule.app;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import ferrule.store.job.HistoryEntry;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;

/**
 * A history as JSON, as {@code ferrule history --json} gives it, entry by entry. Keys are a
 * contract: they may be added, never renamed.
 */
public final class HistoryJson {

  private static final JsonFactory FACTORY =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private final JsonGenerator json;
  private final Writer out;
  private long count;

  /**
   * Begins the document.
   *
   * @throws IOException if {@code out} fails
   */
  public HistoryJson(Writer out, String job) throws IOException {
    this.out = out;
    this.json = FACTORY.createGenerator(out);
    json.writeStartObject();
    json.writeStringField("job", job);
    json.writeArrayFieldStart("history");
  }

  /** Writes an entry. */
  public void entry(HistoryEntry entry) {
    count++;
    try {
      json.writeStartObject();
      json.writeNumberField("entry", entry.seq());
      json.writeStringField("id", entry.id());
      json.writeStringField("kind", entry.kind());
      json.writeStringField("name", entry.name());
      json.writeFieldName("content");
      json.writeRawValue(entry.content());
      json.writeStringField("intake", entry.intake());
      json.writeStringField("file", entry.file());
      json.writeNumberField("row", entry.row());
      json.writeStringField("entered_at", entry.enteredAt());
      text("entered_by", entry.enteredBy());
      number("supersedes", entry.supersedes());
      text("why", entry.why());
      number("superseded_by", entry.supersededBy());
      text("superseded_why", entry.supersededWhy());
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void text(String key, String value) throws IOException {
    if (value.isEmpty()) {
      json.writeNullField(key);
    } else {
      json.writeStringField(key, value);
    }
  }

  private void number(String key, long value) throws IOException {
    if (value == 0) {
      json.writeNullField(key);
    } else {
      json.writeNumberField(key, value);
    }
  }

  /** Number of entries written. */
  public long count() {
    return count;
  }

  /**
   * Ends the document.
   *
   * @throws IOException if the writer fails
   */
  public void end(HistoryEntry.Log log) throws IOException {
    json.writeEndArray();
    json.writeNumberField("entries", log.entries());
    json.writeStringField("head", log.head());
    json.writeEndObject();
    json.close();
    out.write(System.lineSeparator());
  }
}
