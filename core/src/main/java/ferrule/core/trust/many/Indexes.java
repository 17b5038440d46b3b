package ferrule.core.trust.many;

import java.util.Arrays;

/** A list of whole numbers that grows. */
final class Indexes {

  private int[] values = new int[16];
  private int size;

  void add(int value) {
    if (size == values.length) {
      values = Arrays.copyOf(values, 2 * size);
    }
    values[size++] = value;
  }

  int get(int place) {
    return values[place];
  }

  int size() {
    return size;
  }

  int[] toArray() {
    return Arrays.copyOf(values, size);
  }
}
