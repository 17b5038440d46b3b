package ferrule.store.intake;

import java.util.Arrays;

/**
 * The characters of one row and where its fields begin and end. One instance serves a whole file,
 * so that a cell becomes a text only if somebody wants one.
 */
final class RowBuffer {

  private char[] chars = new char[512];
  private int used;
  private int[] ends = new int[32];
  private int[] trimmedStarts = new int[32];
  private int[] trimmedEnds = new int[32];
  private int count;
  private long row;

  /** Forgets the row before. */
  void begin(long number) {
    row = number;
    used = 0;
    count = 0;
  }

  /** Adds a field. */
  void add(char[] source, int offset, int length) {
    if (used + length > chars.length) {
      chars = Arrays.copyOf(chars, Math.max(chars.length * 2, used + length));
    }
    System.arraycopy(source, offset, chars, used, length);
    close(length);
  }

  /** Adds a field. */
  void add(String field) {
    int length = field.length();
    if (used + length > chars.length) {
      chars = Arrays.copyOf(chars, Math.max(chars.length * 2, used + length));
    }
    field.getChars(0, length, chars, used);
    close(length);
  }

  private void close(int length) {
    if (count == ends.length) {
      ends = Arrays.copyOf(ends, count * 2);
      trimmedStarts = Arrays.copyOf(trimmedStarts, count * 2);
      trimmedEnds = Arrays.copyOf(trimmedEnds, count * 2);
    }
    int start = used;
    used += length;
    int end = used;
    ends[count] = end;
    while (start < end && isBlank(chars[start])) {
      start++;
    }
    while (end > start && isBlank(chars[end - 1])) {
      end--;
    }
    trimmedStarts[count] = start;
    trimmedEnds[count] = end;
    count++;
  }

  /** Row number in the file. */
  long row() {
    return row;
  }

  /** Number of characters of all fields. */
  int length() {
    return used;
  }

  /** Whether no field holds anything but white space. */
  boolean isBlank() {
    for (int i = 0; i < used; i++) {
      if (!isBlank(chars[i])) {
        return false;
      }
    }
    return true;
  }

  /** Number of fields. */
  int count() {
    return count;
  }

  /** The characters of the row; those of a field lie from {@link #start} to {@link #end}. */
  char[] chars() {
    return chars;
  }

  /** First character of a field, white space before it left out. */
  int start(int field) {
    return trimmedStarts[field];
  }

  /** Behind the last character of a field, white space after it left out. */
  int end(int field) {
    return trimmedEnds[field];
  }

  private static boolean isBlank(char c) {
    return c <= ' ' ? c == ' ' || c == '\t' || c == '\n' || c == '\r' : c >= 0xA0 && isWideBlank(c);
  }

  private static boolean isWideBlank(char c) {
    return c == 0xA0 || c == 0xFEFF || Character.isWhitespace(c);
  }

  /** Every field as text, as it stands. */
  String[] texts() {
    String[] texts = new String[count];
    for (int i = 0; i < count; i++) {
      int start = i == 0 ? 0 : ends[i - 1];
      texts[i] = new String(chars, start, ends[i] - start);
    }
    return texts;
  }
}
