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
      if (word.length() == length && same(word, chars, start)) {
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

  private static int spread(int hash) {
    int mixed = hash * 0x9E3779B9; // 2^32 over the golden ratio: near hashes fall far apart
    return mixed ^ (mixed >>> 16);
  }

  private static boolean same(String word, char[] chars, int start) {
    for (int i = 0; i < word.length(); i++) {
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
