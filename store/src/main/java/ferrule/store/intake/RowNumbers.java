package ferrule.store.intake;

import java.util.Arrays;

/** Row numbers, kept small: one {@code int} each. */
public final class RowNumbers {

  private int[] numbers = new int[64];
  private int size;

  void add(long number) {
    if (size == numbers.length) {
      numbers = Arrays.copyOf(numbers, size * 2);
    }
    numbers[size++] = (int) Math.min(number, Integer.MAX_VALUE);
  }

  /** The row number of the understood row at this place, from 0. */
  public int get(int index) {
    if (index >= size) {
      throw new IndexOutOfBoundsException(index);
    }
    return numbers[index];
  }
}
