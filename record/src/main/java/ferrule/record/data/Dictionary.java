package ferrule.record.data;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;

/**
 * What every column of the tables and every key of the JSON files of a record means: the one table
 * from which the record's own dictionary is written.
 *
 * <p>A key inside another is written {@code outer.inner}, inside a list {@code list[].inner}; a
 * star stands for names that depend on the case.
 */
public final class Dictionary {

  /**
   * One column or key.
   *
   * @param file of the record
   * @param name column, or path of the key
   * @param type text, number, whole number, yes or no, time, list, object
   * @param unit of numbers; empty where there is none
   * @param meaning in a sentence
   */
  public record Item(String file, String name, String type, String unit, String meaning) {}

  private static final List<Item> ITEMS = all();

  private Dictionary() {}

  /** Every column and key, file by file. */
  public static List<Item> items() {
    return ITEMS;
  }

  /** The dictionary as a table. */
  public static String csv() {
    StringWriter out = new StringWriter();
    CsvWriter csv = Cells.table(out);
    csv.writeRecord("file", "name", "type", "unit", "meaning");
    for (Item item : ITEMS) {
      csv.writeRecord(
          Cells.text(item.file()),
          Cells.text(item.name()),
          Cells.text(item.type()),
          Cells.text(item.unit()),
          Cells.text(item.meaning()));
    }
    try {
      csv.flush();
    } catch (java.io.IOException e) {
      throw new IllegalStateException("A text in memory can be written", e);
    }
    return out.toString();
  }

  private static List<Item> all() {
    List<Item> items = new ArrayList<>();
    add(items, "fibres.csv", "", DictionaryText.FIBRES);
    add(items, "readings.csv", "", "fibre | text | | fibre, LINK/N");
    add(items, "readings.csv", "", DictionaryText.READING);
    add(items, "readings.csv", "", DictionaryText.READING_ROW);
    add(items, "applications.csv", "", DictionaryText.APPLICATIONS);
    add(items, "changes.csv", "", DictionaryText.CHANGES);
    add(items, "dictionary.csv", "", DictionaryText.DICTIONARY);
    add(items, "record.json", "", DictionaryText.ABOUT);
    add(items, "faces.jsonl", "", DictionaryText.GRADES);
    add(items, "entries.jsonl", "", DictionaryText.ENTRIES);
    add(items, "judgement.json", "", DictionaryText.JUDGEMENT);
    for (String place : List.of("fibres[].readings[].", "fibres[].replaced[].", "unscheduled[].")) {
      boolean scheduled = place.startsWith("fibres");
      if (!scheduled) {
        add(items, "judgement.json", place, "fibre | text | | fibre, LINK/N");
      }
      add(items, "judgement.json", place, DictionaryText.READING);
      if (scheduled) {
        add(items, "judgement.json", place, DictionaryText.IN_DOUBT);
        add(items, "judgement.json", place, DictionaryText.LIMIT_TERM);
      } else {
        add(items, "judgement.json", place, DictionaryText.NO_LIMIT_TERMS);
      }
    }
    return List.copyOf(items);
  }

  private static void add(List<Item> items, String file, String before, String lines) {
    for (String line : lines.strip().split("\n", -1)) {
      String[] cells = line.split("\\|", -1);
      if (cells.length != 4) {
        throw new IllegalStateException("A line of the dictionary has four cells: " + line);
      }
      items.add(
          new Item(
              file,
              before + cells[0].strip(),
              cells[1].strip(),
              cells[2].strip(),
              cells[3].strip()));
    }
  }
}
