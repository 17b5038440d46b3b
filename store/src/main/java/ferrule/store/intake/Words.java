package ferrule.store.intake;

import org.jspecify.annotations.Nullable;

/**
 * Texts that come again and again, each kept once and found by its characters without making a new
 * text. Open addressing; at most half full.
 */
final class Words {

  /** Texts made to share one place in the table must not make the search for each of them long. */
  private static final int FARTHEST = 64;

  private @Nullable String[] table = new String[256];
  private int size;

  /** The text of some characters. */
  String of(char[] chars, int start, int end) {
    int length = end - start;
    if (length == 0) {
      return "";
    }
    int hash = 0;
    for (int i = start; i < end; i++) {
      hash = 31 * hash + chars[i];
    }
    int mask = table.length - 1;
    int at = spread(hash) & mask;
    int steps = 0;
    for (String word = table[at]; word != null; word = table[at]) {
      if (++steps > FARTHEST) {
        return new String(chars, start, length);
      }
      if (same(word, chars, start, length)) {
        return word;
      }
      at = (at + 1) & mask;
    }
    String word = new String(chars, start, length);
    table[at] = word;
    if (++size * 2 > table.length) {
      grow();
    }
    return word;
  }

  /** Names that count up have neighbouring hashes; Fibonacci hashing scatters them. */
  private static int spread(int hash) {
    int mixed = hash * 0x9E3779B9;
    return mixed ^ (mixed >>> 16);
  }

  /** Whether a word consists of these characters. */
  static boolean same(String word, char[] chars, int start, int length) {
    if (word.length() != length) {
      return false;
    }
    // Names mostly differ at their end.
    for (int i = length - 1; i >= 0; i--) {
      if (word.charAt(i) != chars[start + i]) {
        return false;
      }
    }
    return true;
  }

  private void grow() {
    @Nullable String[] old = table;
    table = new String[old.length * 2];
    int mask = table.length - 1;
    for (String word : old) {
      if (word != null) {
        int at = spread(word.hashCode()) & mask;
        while (table[at] != null) {
          at = (at + 1) & mask;
        }
        table[at] = word;
      }
    }
  }
}
