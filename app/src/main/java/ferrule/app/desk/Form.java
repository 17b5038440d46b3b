package ferrule.app.desk;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/** What a form holds: fields by name, each once, of a form of bounded size. */
final class Form {

  /** Largest form taken, bytes. */
  static final int LARGEST = 64 * 1024;

  /** The kind of form that is taken. */
  static final String TYPE = "application/x-www-form-urlencoded";

  private static final int MOST_FIELDS = 300;

  private final Map<String, String> fields;

  private Form(Map<String, String> fields) {
    this.fields = fields;
  }

  /**
   * Reads a form.
   *
   * @return empty if it is too large, or not a form
   */
  static Optional<Form> read(Context ctx) throws IOException {
    byte[] bytes;
    try (InputStream in = ctx.req().getInputStream()) {
      bytes = in.readNBytes(LARGEST + 1);
    }
    if (bytes.length > LARGEST) {
      return Optional.empty();
    }
    return parse(new String(bytes, StandardCharsets.UTF_8));
  }

  /** The fields of an encoded form; of a name given twice the first counts. */
  static Optional<Form> parse(String body) {
    Map<String, String> fields = new LinkedHashMap<>();
    for (String pair : body.split("&", -1)) {
      int equals = pair.indexOf('=');
      try {
        String name = decoded(equals < 0 ? pair : pair.substring(0, equals));
        fields.putIfAbsent(name, equals < 0 ? "" : decoded(pair.substring(equals + 1)));
      } catch (IllegalArgumentException e) {
        return Optional.empty();
      }
      if (fields.size() > MOST_FIELDS) {
        return Optional.empty();
      }
    }
    return Optional.of(new Form(fields));
  }

  private static String decoded(String text) {
    return URLDecoder.decode(text, StandardCharsets.UTF_8);
  }

  /** A field; empty if it is not there. */
  String get(String name) {
    return fields.getOrDefault(name, "");
  }

  /** A field without white space around it. */
  String text(String name) {
    return get(name).strip();
  }
}
