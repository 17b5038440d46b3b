package ferrule.core.rulebook.toml;

import ferrule.core.Problem;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;

/** Reads TOML text. What is and what is not TOML is decided by the library tomlj. */
public final class TomlText {

  private TomlText() {}

  /**
   * What a text holds, or the reasons why it is no TOML.
   *
   * @param section the whole text; present only if there are no problems
   * @param problems one for each thing wrong, in the order of the text
   */
  public record Outcome(Optional<Section> section, List<Problem> problems) {}

  /**
   * Reads a text.
   *
   * @param file name to show in problems
   * @param text TOML
   */
  public static Outcome read(String file, String text) {
    // The library costs a fresh process a tenth of a second, so plain text does without it.
    Optional<Section> plain = PlainToml.read(text);
    return plain.isPresent() ? new Outcome(plain, List.of()) : readAny(file, text);
  }

  /** Reads any text by the library. */
  static Outcome readAny(String file, String text) {
    TomlParseResult toml = Toml.parse(text);
    List<Problem> problems = new ArrayList<>();
    for (TomlParseError error : toml.errors()) {
      problems.add(
          new Problem(
              file,
              error.position().line(),
              "",
              "TOML",
              String.valueOf(error.getMessage()),
              "correct the line"));
    }
    return new Outcome(
        problems.isEmpty() ? Optional.of(section(toml)) : Optional.empty(), List.copyOf(problems));
  }

  private static Section section(TomlTable table) {
    Section section = new Section();
    for (String key : table.keySet()) {
      // As a path of one: a plain text would be taken apart at its dots, and refused if oddly
      // spelt.
      List<String> path = List.of(key);
      TomlPosition position = table.inputPositionOf(path);
      section.enter(key, value(table.get(path)), position == null ? 0 : position.line());
    }
    return section;
  }

  private static Object value(@Nullable Object value) {
    if (value instanceof TomlTable table) {
      return section(table);
    }
    if (value instanceof TomlArray array) {
      List<Object> values = new ArrayList<>();
      for (int i = 0; i < array.size(); i++) {
        values.add(value(array.get(i)));
      }
      return Collections.unmodifiableList(values);
    }
    if (value == null) {
      throw new IllegalStateException("A key without a value");
    }
    return value;
  }
}
