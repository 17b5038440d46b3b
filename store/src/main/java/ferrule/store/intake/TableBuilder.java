package ferrule.store.intake;

import ferrule.core.Problem;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Collects the rows of one table: each ends among the understood rows or among the problems. */
final class TableBuilder {

  private final String name;
  private final Header header;
  private final Cells cells;
  private final RowParser parser;
  private final List<Problem> problems = new ArrayList<>();
  private final List<TableRow> rows = new ArrayList<>();
  private final RowNumbers numbers = new RowNumbers();
  private final Map<String, Long> firstRowOfKey = new HashMap<>();
  private long rowCount;

  TableBuilder(String name, Header header, boolean decimalComma) {
    this.name = name;
    this.header = header;
    this.cells = new Cells(name, header, decimalComma, problems);
    this.parser = new RowParser(cells);
  }

  /** Adds a row. One without any text is a blank line, not a row. */
  void add(RowBuffer buffer) {
    if (buffer.isBlank()) {
      return;
    }
    rowCount++;
    cells.turnTo(buffer);
    TableRow row = cells.bad() ? null : parser.parse(header.kind());
    if (row != null && isFirstOfItsKey(buffer.row(), row)) {
      rows.add(row);
      numbers.add(buffer.row());
    }
  }

  /**
   * Adds what another builder took from a later part of the same file. Only for tables whose rows
   * have no key.
   *
   * @param rowsBefore rows of the file before that part
   */
  void append(TableBuilder part, long rowsBefore) {
    for (int i = 0; i < part.rows.size(); i++) {
      numbers.add(part.numbers.get(i) + rowsBefore);
    }
    rows.addAll(part.rows);
    for (Problem problem : part.problems) {
      problems.add(
          new Problem(
              problem.file(),
              problem.row() + rowsBefore,
              problem.column(),
              problem.expected(),
              problem.found(),
              problem.action()));
    }
    rowCount += part.rowCount;
  }

  private boolean isFirstOfItsKey(long number, TableRow row) {
    String key = row.key();
    if (key.isEmpty()) {
      return true;
    }
    Long first = firstRowOfKey.putIfAbsent(key, number);
    if (first == null) {
      return true;
    }
    cells.problem(
        keyColumn(),
        "each " + keyColumn() + " once",
        key + " again, first in row " + first,
        "give it another name or take one of the rows out");
    return false;
  }

  private String keyColumn() {
    return switch (header.kind()) {
      case REFERENCES -> "reference, direction and wavelength_nm";
      case PARTS -> "link and order";
      case POLARITY -> "link, position and after";
      case MATINGS -> "ends, wavelength_nm and measured_at";
      default -> header.kind().columns().get(0);
    };
  }

  TableFile build(String sha256, List<String> unreadSheets) {
    return new TableFile(
        name,
        header.kind(),
        sha256,
        rows,
        numbers,
        rowCount,
        problems,
        header.unknown(),
        unreadSheets);
  }
}
