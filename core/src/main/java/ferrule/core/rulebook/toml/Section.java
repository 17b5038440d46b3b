package ferrule.core.rulebook.toml;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A table of a TOML text, or the whole of it: keys in the order of the text, each with its value
 * and its line.
 *
 * <p>A value is a {@code String}, {@code Long}, {@code Double} or {@code Boolean}, a {@code List}
 * of values, a {@code Section}, or a date or time of {@code java.time}.
 */
public final class Section {

  private record Entry(Object value, int line) {}

  private final Map<String, Entry> entries = new LinkedHashMap<>();

  Section() {}

  /** Enters a value; false, and nothing is done, if there is one under this key. */
  boolean enter(String key, Object value, int line) {
    return entries.putIfAbsent(key, new Entry(value, line)) == null;
  }

  /** The keys, in the order of the text. */
  public Set<String> keys() {
    return Collections.unmodifiableSet(entries.keySet());
  }

  /** Whether there is a value under this key. The key is one name: a dot in it parts nothing. */
  public boolean contains(String key) {
    return entries.containsKey(key);
  }

  /** The value under this key; null if there is none. */
  public @Nullable Object get(String key) {
    Entry entry = entries.get(key);
    return entry == null ? null : entry.value();
  }

  /** 1-based line of this key; 0 if it is not there or has no line of its own. */
  public int line(String key) {
    Entry entry = entries.get(key);
    return entry == null ? 0 : entry.line();
  }

  /** For a problem that shows what was found. */
  @Override
  public String toString() {
    return "a table";
  }
}
