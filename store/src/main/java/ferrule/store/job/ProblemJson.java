package ferrule.store.job;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import ferrule.core.Problem;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Problems as entries keep them, and the lists of flat objects in which they stand. */
final class ProblemJson {

  private static final JsonFactory JSON = new JsonFactory();

  private ProblemJson() {}

  /** Writes all of a problem but its file into the object that is open. */
  static void write(JsonGenerator json, Problem problem) throws IOException {
    json.writeNumberField("row", problem.row());
    json.writeStringField("column", problem.column());
    json.writeStringField("expected", problem.expected());
    json.writeStringField("found", problem.found());
    json.writeStringField("action", problem.action());
  }

  /** The problem of a file that was written so. */
  static Problem read(String file, Map<String, String> values) {
    return new Problem(
        file,
        Long.parseLong(values.getOrDefault("row", "0")),
        values.getOrDefault("column", ""),
        values.getOrDefault("expected", ""),
        values.getOrDefault("found", ""),
        values.getOrDefault("action", ""));
  }

  /**
   * The lists of an object by their keys, each of flat objects; everything else is passed over.
   *
   * @param what names the content in the message of what is thrown
   * @throws DamagedEntryException if it is no object, or not well formed
   */
  static Map<String, List<Map<String, String>>> lists(String content, String what) {
    Map<String, List<Map<String, String>>> lists = new HashMap<>();
    try (JsonParser json = JSON.createParser(content)) {
      if (json.nextToken() != JsonToken.START_OBJECT) {
        throw new DamagedEntryException("content that is no " + what);
      }
      while (json.nextToken() == JsonToken.FIELD_NAME) {
        String key = json.currentName();
        if (json.nextToken() == JsonToken.START_ARRAY) {
          lists.put(key, objects(json));
        }
      }
      return lists;
    } catch (IOException e) {
      throw new DamagedEntryException("content that is no " + what);
    }
  }

  private static List<Map<String, String>> objects(JsonParser json) throws IOException {
    List<Map<String, String>> objects = new ArrayList<>();
    while (json.nextToken() == JsonToken.START_OBJECT) {
      Map<String, String> values = new HashMap<>();
      while (json.nextToken() == JsonToken.FIELD_NAME) {
        String key = json.currentName();
        json.nextToken();
        values.put(key, json.getValueAsString(""));
        json.skipChildren();
      }
      objects.add(values);
    }
    return objects;
  }
}
