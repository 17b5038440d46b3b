package ferrule.store.job;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import ferrule.core.Problem;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * What an entry of kind join says.
 *
 * @param of the files that were joined, by rising head
 * @param conflicts what they say differently, as far as it was not settled
 * @param problems rows that the last intake of each file could not use, of both
 */
record JoinContent(List<Source> of, List<JoinConflict> conflicts, List<Problem> problems) {

  private static final JsonFactory JSON = new JsonFactory();

  /** A file that was joined: its head and its number of entries. */
  record Source(String head, long entries) {}

  @FunctionalInterface
  private interface Writer<T> {
    void write(T item, JsonGenerator json) throws IOException;
  }

  String encode() {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = JSON.createGenerator(text)) {
      json.writeStartObject();
      list(json, "of", of, JoinContent::write);
      list(json, "conflicts", conflicts, JoinContent::write);
      list(json, "problems", problems, JoinContent::write);
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  private static <T> void list(JsonGenerator json, String key, List<T> items, Writer<T> writer)
      throws IOException {
    json.writeArrayFieldStart(key);
    for (T item : items) {
      json.writeStartObject();
      writer.write(item, json);
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void write(Source source, JsonGenerator json) throws IOException {
    json.writeStringField("head", source.head());
    json.writeNumberField("entries", source.entries());
  }

  private static void write(JoinConflict conflict, JsonGenerator json) throws IOException {
    json.writeStringField("kind", conflict.kind().word());
    json.writeStringField("name", conflict.name());
    json.writeStringField("columns", conflict.columns());
    json.writeStringField("one", conflict.one());
    json.writeStringField("other", conflict.other());
    json.writeStringField("one_file", conflict.oneFrom().file());
    json.writeNumberField("one_row", conflict.oneFrom().row());
    json.writeStringField("one_entered_at", conflict.oneFrom().enteredAt());
    json.writeStringField("other_file", conflict.otherFrom().file());
    json.writeNumberField("other_row", conflict.otherFrom().row());
    json.writeStringField("other_entered_at", conflict.otherFrom().enteredAt());
  }

  private static void write(Problem problem, JsonGenerator json) throws IOException {
    json.writeStringField("file", problem.file());
    ProblemJson.write(json, problem);
  }

  static JoinContent decode(String content) {
    Map<String, List<Map<String, String>>> lists = ProblemJson.lists(content, "join");
    try {
      List<Source> of = new ArrayList<>();
      for (Map<String, String> v : lists.getOrDefault("of", List.of())) {
        of.add(new Source(text(v, "head"), number(v, "entries")));
      }
      List<JoinConflict> conflicts = new ArrayList<>();
      lists.getOrDefault("conflicts", List.of()).forEach(v -> conflicts.add(conflict(v)));
      List<Problem> problems = new ArrayList<>();
      lists
          .getOrDefault("problems", List.of())
          .forEach(v -> problems.add(ProblemJson.read(text(v, "file"), v)));
      return new JoinContent(of, conflicts, problems);
    } catch (NumberFormatException e) {
      throw new DamagedEntryException("content that is no join");
    }
  }

  private static String text(Map<String, String> values, String key) {
    return values.getOrDefault(key, "");
  }

  private static long number(Map<String, String> values, String key) {
    return Long.parseLong(values.getOrDefault(key, "0"));
  }

  private static JoinConflict conflict(Map<String, String> v) {
    return new JoinConflict(
        EntryKind.ofWord(text(v, "kind")),
        text(v, "name"),
        text(v, "columns"),
        text(v, "one"),
        text(v, "other"),
        new JoinConflict.From(text(v, "one_file"), number(v, "one_row"), text(v, "one_entered_at")),
        new JoinConflict.From(
            text(v, "other_file"), number(v, "other_row"), text(v, "other_entered_at")));
  }
}
