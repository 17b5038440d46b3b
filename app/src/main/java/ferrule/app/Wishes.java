package ferrule.app;

import ferrule.core.Problem;
import ferrule.core.entry.TypedNumber;
import ferrule.core.rulebook.Wish;
import ferrule.core.rulebook.Wish.Item;
import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/** Reads the figures an owner wishes, as people write them. */
public final class Wishes {

  private Wishes() {}

  /** A figure of an item; empty if the text is not one that it may have. */
  public static OptionalDouble figure(Item item, String text) {
    return TypedNumber.value(text, TypedNumber.Kind.LOSS)
        .filter(db -> db > 0 && db <= item.mostDb())
        .map(OptionalDouble::of)
        .orElse(OptionalDouble.empty());
  }

  /** What a figure of an item must be. */
  public static String expected(Item item) {
    return "a number above 0 and at most " + (int) item.mostDb() + " " + item.unit();
  }

  /** "link, connection, end, splice or km". */
  public static String words() {
    String all = Arrays.stream(Item.values()).map(Item::word).collect(Collectors.joining(", "));
    int last = all.lastIndexOf(", ");
    return all.substring(0, last) + " or " + all.substring(last + 2);
  }

  /**
   * One "link=2.0" more.
   *
   * @param wish what was read before
   * @throws BadInputException if it is no such pair, or its figure cannot be
   */
  public static Wish read(Wish wish, String option, String text) throws BadInputException {
    int sign = text.indexOf('=');
    String word = sign < 0 ? text : text.substring(0, sign).strip();
    Item item =
        Item.ofWord(word)
            .filter(i -> sign >= 0)
            .orElseThrow(
                () -> problem(option, words() + ", then = and a number", text, "write link=2.0"));
    String number = text.substring(sign + 1);
    OptionalDouble db = figure(item, number);
    if (db.isEmpty()) {
      throw problem(
          option, item.word() + "= " + expected(item), text, "write " + item.word() + "=0.5");
    }
    return wish.with(item, db.getAsDouble());
  }

  private static BadInputException problem(
      String option, String expected, String found, String whatToDo) {
    return new BadInputException(new Problem("", 0, option, expected, found, whatToDo));
  }
}
