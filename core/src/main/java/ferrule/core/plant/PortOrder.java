package ferrule.core.plant;

import java.util.Comparator;

/** The order in which people count ports: "1:2" before "1:10", "A9" before "B1". */
public final class PortOrder implements Comparator<String> {

  /** Upper and lower case are apart, and ports written differently are never equal. */
  public static final PortOrder NATURAL = new PortOrder(true);

  /**
   * Upper and lower case are alike, and so are "1:2" and "1:02": a sort leaves them as they are.
   */
  public static final PortOrder ANY_CASE = new PortOrder(false);

  private final boolean exact;

  private PortOrder(boolean exact) {
    this.exact = exact;
  }

  @Override
  public int compare(String first, String second) {
    int i = 0;
    int j = 0;
    while (i < first.length() && j < second.length()) {
      if (digit(first, i) && digit(second, j)) {
        int endI = endOfNumber(first, i);
        int endJ = endOfNumber(second, j);
        int order = number(first, i, endI, second, j, endJ);
        if (order != 0) {
          return order;
        }
        i = endI;
        j = endJ;
      } else {
        int order = Character.compare(letter(first, i), letter(second, j));
        if (order != 0) {
          return order;
        }
        i++;
        j++;
      }
    }
    int order = Integer.compare(first.length() - i, second.length() - j);
    return order != 0 || !exact ? order : first.compareTo(second);
  }

  private char letter(String text, int at) {
    return exact ? text.charAt(at) : Character.toUpperCase(text.charAt(at));
  }

  private static boolean digit(String text, int at) {
    return text.charAt(at) >= '0' && text.charAt(at) <= '9';
  }

  private static int endOfNumber(String text, int from) {
    int end = from;
    while (end < text.length() && digit(text, end)) {
      end++;
    }
    return end;
  }

  private static int number(String first, int i, int endI, String second, int j, int endJ) {
    int a = i;
    int b = j;
    while (a < endI - 1 && first.charAt(a) == '0') {
      a++;
    }
    while (b < endJ - 1 && second.charAt(b) == '0') {
      b++;
    }
    if (endI - a != endJ - b) {
      return Integer.compare(endI - a, endJ - b);
    }
    for (; a < endI; a++, b++) {
      int order = Character.compare(first.charAt(a), second.charAt(b));
      if (order != 0) {
        return order;
      }
    }
    return 0;
  }

  /**
   * Whether two ports are on one panel, which is what stands before the number that a port ends
   * with: "1:07" is on "1:".
   */
  public static boolean samePanel(String first, String second) {
    int end = endOfPanel(first);
    return end == endOfPanel(second) && first.regionMatches(0, second, 0, end);
  }

  private static int endOfPanel(String port) {
    int end = port.length();
    while (end > 0 && digit(port, end - 1)) {
      end--;
    }
    return end;
  }
}
