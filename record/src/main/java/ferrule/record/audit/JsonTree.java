package ferrule.record.audit;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A value of JSON as plain Java: Map, List, String, Double, Boolean, or {@link #NOTHING}. */
final class JsonTree {

  /** JSON's null. */
  static final Object NOTHING =
      new Object() {
        @Override
        public String toString() {
          return "nothing";
        }
      };

  private JsonTree() {}

  /**
   * Reads the value that the parser stands at.
   *
   * @throws IOException if it is not well formed, or cannot be read
   */
  static Object read(JsonParser json) throws IOException {
    JsonToken token = json.currentToken();
    if (token == JsonToken.START_OBJECT) {
      Map<String, Object> object = new LinkedHashMap<>();
      while (json.nextToken() == JsonToken.FIELD_NAME) {
        String key = json.currentName();
        json.nextToken();
        object.put(key, read(json));
      }
      return object;
    }
    if (token == JsonToken.START_ARRAY) {
      List<Object> list = new ArrayList<>();
      while (json.nextToken() != JsonToken.END_ARRAY) {
        list.add(read(json));
      }
      return list;
    }
    if (token == JsonToken.VALUE_NUMBER_FLOAT || token == JsonToken.VALUE_NUMBER_INT) {
      return json.getDoubleValue();
    }
    if (token == JsonToken.VALUE_TRUE || token == JsonToken.VALUE_FALSE) {
      return json.getBooleanValue();
    }
    if (token == JsonToken.VALUE_STRING) {
      return json.getText();
    }
    if (token == JsonToken.VALUE_NULL) {
      return NOTHING;
    }
    throw new IOException("no value where one belongs");
  }
}
