package ferrule.core.rulebook;

import ferrule.core.optics.FibreKind;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Writes a rulebook as the text that {@link RulebookReader} reads. */
final class RulebookToml {

  private final StringBuilder text = new StringBuilder();

  private RulebookToml() {}

  /** The whole rulebook, figures in a fixed order: the same rulebook gives the same text. */
  static String of(Rulebook rulebook) {
    RulebookToml toml = new RulebookToml();
    toml.write(rulebook);
    return toml.text.toString();
  }

  private void write(Rulebook book) {
    pair("id", book.id());
    pair("title", book.title());
    pair("edition", book.edition());
    List<String> notes = new ArrayList<>();
    book.notes().forEach(n -> notes.add(quoted(n)));
    text.append("notes = [").append(String.join(", ", notes)).append("]\n");
    pair("faces", book.faces());
    TreeMap<String, Runnable> fibres = new TreeMap<>();
    book.fibre()
        .forEach(
            (key, figure) ->
                fibres.put(
                    key.category().label() + " " + (10_000 + key.wavelength().nm()),
                    () -> {
                      table("fibre");
                      pair("category", key.category().label());
                      pair("wavelength_nm", key.wavelength().nm());
                      figure("limit_db_per_km", figure);
                    }));
    fibres.values().forEach(Runnable::run);
    connections("inner", book.inner());
    TreeMap<String, Runnable> ends = new TreeMap<>();
    book.end()
        .forEach(
            (key, figure) ->
                ends.put(
                    key.kind().word() + " " + key.cord().word(),
                    () -> {
                      table("connection");
                      pair("fibre", key.kind().word());
                      pair("place", "end");
                      pair("cord", key.cord().word());
                      figure("limit_db", figure);
                    }));
    ends.values().forEach(Runnable::run);
    connections("reference-pair", book.referencePair());
    new TreeMap<>(book.splice())
        .forEach(
            (kind, figure) -> {
              table("splice");
              pair("fibre", kind.word());
              figure("limit_db", figure);
            });
    new TreeMap<>(book.device())
        .forEach(
            (name, figure) -> {
              table("device");
              pair("device", name);
              figure("limit_db", figure);
            });
    new TreeMap<>(book.link())
        .forEach(
            (kind, figure) -> {
              table("link");
              pair("fibre", kind.word());
              figure("limit_db", figure);
            });
  }

  private void connections(String place, Map<FibreKind, Figure> figures) {
    new TreeMap<>(figures)
        .forEach(
            (kind, figure) -> {
              table("connection");
              pair("fibre", kind.word());
              pair("place", place);
              figure("limit_db", figure);
            });
  }

  private void table(String name) {
    text.append("\n[[").append(name).append("]]\n");
  }

  private void figure(String key, Figure figure) {
    text.append(key).append(" = ").append(figure.value()).append('\n');
    Provenance source = figure.provenance();
    pair("standard", source.standard());
    if (!source.edition().isEmpty()) {
      pair("edition", source.edition());
    }
    if (!source.clause().isEmpty()) {
      pair("clause", source.clause());
    }
    pair("confidence", source.confidence().id());
    pair("seen_in", source.seenIn());
  }

  private void pair(String key, String value) {
    text.append(key).append(" = ").append(quoted(value)).append('\n');
  }

  private void pair(String key, int value) {
    text.append(key).append(" = ").append(value).append('\n');
  }

  /** A basic string of TOML 1.0: quotes, backslashes and control characters escaped. */
  private static String quoted(String value) {
    StringBuilder quoted = new StringBuilder("\"");
    for (int i = 0; i < value.length(); i++) {
      char c = value.charAt(i);
      if (c == '"' || c == '\\') {
        quoted.append('\\').append(c);
      } else if (c < ' ' || c == 0x7f) {
        quoted.append(String.format("\\u%04X", (int) c));
      } else {
        quoted.append(c);
      }
    }
    return quoted.append('"').toString();
  }
}
