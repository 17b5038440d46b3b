package ferrule.record.data;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;

/** Numbers in JSON, which knows no NaN and no infinity. */
final class JsonNumbers {

  private JsonNumbers() {}

  /** Writes a number unrounded, or null where there is none. */
  static void write(JsonGenerator json, String name, double value) throws IOException {
    if (Double.isFinite(value)) {
      json.writeNumberField(name, value);
    } else {
      json.writeNullField(name);
    }
  }
}
