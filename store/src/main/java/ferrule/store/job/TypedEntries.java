package ferrule.store.job;

import ferrule.core.zero.Reading;
import ferrule.store.intake.TableRow.ReferenceRow;
import java.util.List;
import java.util.UUID;

/**
 * Entries made by hand, to be stored together or not at all, and once only.
 *
 * @param key made where they were typed, a UUID: what is sent again under it is not stored again
 * @param items what is to be entered, at least one
 */
public record TypedEntries(String key, List<Item> items) {

  /** Stands as the file of an entry that was typed. */
  public static final String TYPED = "typed";

  /** Longest reason, characters. */
  public static final int LONGEST_REASON = 500;

  /** One thing to be entered. */
  public sealed interface Item {}

  /**
   * A reading.
   *
   * @param reading the reading
   * @param known number of the last entry of the same fibre, direction and wavelength that its
   *     author knew of; 0 for none. If there is another one by now, nothing is stored
   * @param why why it was read again; empty where nothing was known
   */
  public record Add(Reading reading, long known, String why) implements Item {}

  /**
   * A reading in the place of one that was entered wrongly.
   *
   * @param reading the reading as it should have been entered
   * @param seq number of the entry that it corrects
   * @param why why
   */
  public record Correct(Reading reading, long seq, String why) implements Item {}

  /**
   * The end of a reading that should not have been entered.
   *
   * @param seq number of its entry
   * @param why why
   */
  public record Withdraw(long seq, String why) implements Item {}

  /**
   * A level of a new zero.
   *
   * @param row the level with the name and the method of its zero
   */
  public record AddLevel(ReferenceRow row) implements Item {}

  /**
   * @throws IllegalArgumentException without items, with a key that is no UUID, or with a
   *     correction without a reason
   */
  public TypedEntries {
    items = List.copyOf(items);
    if (items.isEmpty()) {
      throw new IllegalArgumentException("Nothing to enter");
    }
    if (!isKey(key)) {
      throw new IllegalArgumentException("A key that is no UUID: " + key);
    }
    for (Item item : items) {
      if (!isReasoned(item)) {
        throw new IllegalArgumentException("A correction needs a reason");
      }
    }
  }

  /** Whether a text may be a key: a UUID as it is usually written, lower case. */
  public static boolean isKey(String text) {
    try {
      return UUID.fromString(text).toString().equals(text);
    } catch (IllegalArgumentException e) {
      return false;
    }
  }

  private static boolean isReasoned(Item item) {
    if (item instanceof Add add) {
      return add.known() == 0 || isReason(add.why());
    }
    if (item instanceof Correct correct) {
      return isReason(correct.why());
    }
    return !(item instanceof Withdraw withdraw) || isReason(withdraw.why());
  }

  private static boolean isReason(String why) {
    return !why.isBlank() && why.length() <= LONGEST_REASON;
  }
}
