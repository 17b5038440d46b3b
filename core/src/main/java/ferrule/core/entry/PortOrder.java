package ferrule.core.entry;

import java.util.Comparator;

/**
 * The order of ports along a panel: digits count as numbers, so that 1:2 stands before 1:10; other
 * characters by their code, upper and lower case alike.
 */
final class PortOrder implements Comparator<String> {

  @Override
  public int compare(String one, String other) {
    int i = 0;
    int j = 0;
    while (i < one.length() && j < other.length()) {
      char a = one.charAt(i);
      char b = other.charAt(j);
      if (isDigit(a) && isDigit(b)) {
        int endOne = endOfDigits(one, i);
        int endOther = endOfDigits(other, j);
        int order = compareDigits(one.substring(i, endOne), other.substring(j, endOther));
        if (order != 0) {
          return order;
        }
        i = endOne;
        j = endOther;
      } else {
        int order = Character.compare(Character.toUpperCase(a), Character.toUpperCase(b));
        if (order != 0) {
          return order;
        }
        i++;
        j++;
      }
    }
    return Integer.compare(one.length() - i, other.length() - j);
  }

  private static boolean isDigit(char c) {
    return c >= '0' && c <= '9';
  }

  private static int endOfDigits(String text, int from) {
    int end = from;
    while (end < text.length() && isDigit(text.charAt(end))) {
      end++;
    }
    return end;
  }

  /** By value; any number of digits. */
  private static int compareDigits(String one, String other) {
    String a = withoutZeros(one);
    String b = withoutZeros(other);
    return a.length() == b.length() ? a.compareTo(b) : Integer.compare(a.length(), b.length());
  }

  private static String withoutZeros(String digits) {
    int first = 0;
    while (first < digits.length() - 1 && digits.charAt(first) == '0') {
      first++;
    }
    return digits.substring(first);
  }
}
