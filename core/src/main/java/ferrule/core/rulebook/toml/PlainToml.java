package ferrule.core.rulebook.toml;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Reads the plain part of TOML, the one job papers and rulebooks are written in, and nothing else:
 * comments; {@code [name]} and {@code [[name]]}; {@code key = value} with lower-case bare keys;
 * texts in double quotes without a backslash; numbers of digits, with a minus or a point; lists of
 * texts and numbers, over as many lines as they like.
 *
 * <p>It never says what is wrong. A text with anything else in it, right or wrong, is not plain,
 * and whoever asked reads it by the library. So it may decline too much; what it must not do is to
 * understand a text otherwise than the library does ({@code PlainTomlTest} holds it to that).
 */
final class PlainToml {

  /** More digits might not fit the type of whole numbers. */
  private static final int MOST_DIGITS = 15;

  /** Thrown, without the cost of a trace, where the text is not plain. */
  private static final class NotPlain extends Exception {
    NotPlain() {
      super(null, null, false, false);
    }
  }

  private final String text;
  private final Section whole = new Section();
  private final Map<String, List<Object>> rows = new HashMap<>();
  private int at;
  private int line = 1;

  private PlainToml(String text) {
    this.text = text;
  }

  /** What the text holds; empty if it is not plain. */
  static Optional<Section> read(String text) {
    PlainToml reader = new PlainToml(text);
    try {
      reader.readAll();
      return Optional.of(reader.whole);
    } catch (NotPlain e) {
      return Optional.empty();
    }
  }

  private void readAll() throws NotPlain {
    Section section = whole;
    skipBlank();
    while (at < text.length()) {
      if (take('[')) {
        section = header();
      } else {
        int keyLine = line;
        String key = key();
        skipSpaces();
        expect('=');
        skipSpaces();
        enter(section, key, value(), keyLine);
      }
      skipSpaces();
      skipComment();
      if (at < text.length() && !atLineEnd()) {
        throw new NotPlain();
      }
      skipBlank();
    }
  }

  private Section header() throws NotPlain {
    Section section = new Section();
    boolean row = take('[');
    String name = key();
    expect(']');
    if (row) {
      expect(']');
      List<Object> before = rows.get(name);
      if (before != null) {
        before.add(section);
      } else {
        List<Object> first = new ArrayList<>(List.of(section));
        rows.put(name, first);
        enter(whole, name, Collections.unmodifiableList(first), line);
      }
    } else {
      enter(whole, name, section, line);
    }
    return section;
  }

  private static void enter(Section section, String key, Object value, int line) throws NotPlain {
    if (!section.enter(key, value, line)) {
      throw new NotPlain();
    }
  }

  private String key() throws NotPlain {
    int from = at;
    while (isKeyLetter(peek())) {
      at++;
    }
    if (from == at) {
      throw new NotPlain();
    }
    return text.substring(from, at);
  }

  private static boolean isKeyLetter(char c) {
    return c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '_' || c == '-';
  }

  private Object value() throws NotPlain {
    if (!take('[')) {
      return textOrNumber();
    }
    List<Object> values = new ArrayList<>();
    skipBlank();
    while (!take(']')) {
      values.add(textOrNumber());
      skipBlank();
      if (take(',')) {
        skipBlank();
      } else if (peek() != ']') {
        throw new NotPlain();
      }
    }
    return Collections.unmodifiableList(values);
  }

  private Object textOrNumber() throws NotPlain {
    return take('"') ? quoted() : number();
  }

  private String quoted() throws NotPlain {
    int from = at;
    while (peek() != '"') {
      if (peek() == '\\' || !isPlain(peek())) {
        throw new NotPlain();
      }
      at++;
    }
    return text.substring(from, at++);
  }

  private Object number() throws NotPlain {
    int from = at;
    take('-');
    int first = at;
    digits();
    if (text.charAt(first) == '0' && at > first + 1) {
      throw new NotPlain();
    }
    if (!take('.')) {
      return Long.valueOf(text.substring(from, at));
    }
    digits();
    return Double.valueOf(text.substring(from, at));
  }

  private void digits() throws NotPlain {
    int from = at;
    while (peek() >= '0' && peek() <= '9') {
      at++;
    }
    if (at == from || at - from > MOST_DIGITS) {
      throw new NotPlain();
    }
  }

  /** Skips spaces, comments and line ends. */
  private void skipBlank() throws NotPlain {
    skipSpaces();
    skipComment();
    while (atLineEnd()) {
      at += peek() == '\n' ? 1 : 2;
      line++;
      skipSpaces();
      skipComment();
    }
  }

  private void skipSpaces() {
    while (peek() == ' ' || peek() == '\t') {
      at++;
    }
  }

  private void skipComment() throws NotPlain {
    if (take('#')) {
      while (isPlain(peek())) {
        at++;
      }
      if (at < text.length() && !atLineEnd()) {
        throw new NotPlain();
      }
    }
  }

  private boolean atLineEnd() {
    return peek() == '\n' || text.startsWith("\r\n", at);
  }

  private void expect(char c) throws NotPlain {
    if (!take(c)) {
      throw new NotPlain();
    }
  }

  private boolean take(char c) {
    if (peek() != c) {
      return false;
    }
    at++;
    return true;
  }

  /** The next character; that of number 0, which no plain text holds, at the end. */
  private char peek() {
    return at < text.length() ? text.charAt(at) : 0;
  }

  /** Whether it may stand in a text or comment: no control character, no half of a pair. */
  private static boolean isPlain(char c) {
    return c >= ' ' && c < 0x7f || c >= 0xa0 && c < Character.MIN_SURROGATE;
  }
}
