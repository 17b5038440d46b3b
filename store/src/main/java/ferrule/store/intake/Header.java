package ferrule.store.intake;

import ferrule.core.Problem;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Where the columns of a table stand in a file.
 *
 * <p>Order is free; upper and lower case and spaces around a name do not matter. Unknown columns
 * are reported and kept nowhere.
 */
final class Header {

  private final TableKind kind;
  private final int[] position;
  private final int width;
  private final List<String> unknown;

  private Header(TableKind kind, int[] position, int width, List<String> unknown) {
    this.kind = kind;
    this.position = position;
    this.width = width;
    this.unknown = unknown;
  }

  /** A column name as it is compared: trimmed, lower case, no byte order mark. */
  static String normal(String name) {
    return name.replace("\uFEFF", "").replace('\u00A0', ' ').strip().toLowerCase(Locale.ROOT);
  }

  /** Reads a header row. Problems are added to the list; with any, the header must not be used. */
  static Header of(TableKind kind, String file, long row, String[] names, List<Problem> problems) {
    List<String> columns = kind.columns();
    int[] position = new int[columns.size()];
    Arrays.fill(position, -1);
    List<String> unknown = new ArrayList<>();
    for (int i = 0; i < names.length; i++) {
      String name = normal(names[i]);
      int at = columns.indexOf(name);
      if (at < 0) {
        if (!name.isEmpty()) {
          unknown.add(Problem.printable(name));
        }
      } else if (position[at] >= 0) {
        problems.add(
            new Problem(
                file, row, name, "each column once", "a second column " + name, "take one out"));
      } else {
        position[at] = i;
      }
    }
    List<String> missing = new ArrayList<>();
    for (String column : kind.required()) {
      if (position[columns.indexOf(column)] < 0) {
        missing.add(column);
      }
    }
    for (String column : missing) {
      String similar = similar(column, unknown);
      problems.add(
          new Problem(
              file,
              row,
              column,
              "a column " + column,
              unknown.isEmpty() ? "none" : "unknown columns " + String.join(", ", unknown),
              similar.isEmpty()
                  ? "add it"
                  : "rename "
                      + similar
                      + (unit(similar).equals(unit(column))
                          ? ""
                          : ", after converting its values to " + unit(column))));
    }
    return new Header(kind, position, names.length, unknown);
  }

  /** An unknown column that begins like the missing one: another unit, most likely. */
  private static String similar(String column, List<String> unknown) {
    String stem = column.replaceFirst("_(m|nm|db|dbm)$", "");
    return unknown.stream()
        .filter(u -> u.equals(stem) || u.startsWith(stem + "_") || u.startsWith(stem + " "))
        .findFirst()
        .orElse("");
  }

  private static String unit(String column) {
    if (column.endsWith("_m")) {
      return "metres";
    }
    if (column.endsWith("_nm")) {
      return "nanometres";
    }
    if (column.endsWith("_dbm")) {
      return "dBm";
    }
    return column.endsWith("_db") ? "dB" : "";
  }

  TableKind kind() {
    return kind;
  }

  /** Columns of the file that are not of this table. */
  List<String> unknown() {
    return unknown;
  }

  /** Number of columns in the file. */
  int width() {
    return width;
  }

  /** Place in the file of the table's column with this number; -1 if the file lacks it. */
  int position(int column) {
    return position[column];
  }
}
