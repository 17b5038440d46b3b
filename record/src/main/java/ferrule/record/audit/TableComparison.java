package ferrule.record.audit;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import ferrule.record.audit.Difference.Kind;
import java.io.IOException;
import java.io.Reader;
import java.util.Iterator;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Collectors;

/** What a table of a record says against what follows: cell by cell, the rows in their order. */
final class TableComparison {

  /** What a row is told by. */
  private static final List<String> NAMED_BY =
      List.of("fibre", "link", "application", "direction", "wavelength_nm", "measured_at", "name");

  private final String file;
  private final boolean sameVersion;
  private final Consumer<Difference> found;

  TableComparison(String file, boolean sameVersion, Consumer<Difference> found) {
    this.file = file;
    this.sameVersion = sameVersion;
    this.found = found;
  }

  /**
   * Compares two tables.
   *
   * @throws IOException if the record's cannot be read as a table
   */
  void compare(Reader record, Reader remade) throws IOException {
    try (CsvReader<CsvRecord> says = CsvReader.builder().ofCsvRecord(record);
        CsvReader<CsvRecord> follows = CsvReader.builder().ofCsvRecord(remade)) {
      compare(says.iterator(), follows.iterator());
    } catch (CsvParseException e) {
      throw new IOException(e.getMessage(), e);
    }
  }

  private void compare(Iterator<CsvRecord> says, Iterator<CsvRecord> follows) {
    List<String> saysHead = says.hasNext() ? says.next().getFields() : List.of();
    List<String> followsHead = follows.hasNext() ? follows.next().getFields() : List.of();
    if (sameVersion && !saysHead.equals(followsHead)) {
      differs(1, "columns", String.join(",", saysHead), String.join(",", followsHead));
    }
    while (says.hasNext() && follows.hasNext()) {
      CsvRecord said = says.next();
      CsvRecord following = follows.next();
      for (int column = 0; column < saysHead.size(); column++) {
        int at = followsHead.indexOf(saysHead.get(column));
        if (at < 0) {
          continue;
        }
        String one = cell(said, column);
        String other = cell(following, at);
        if (!Numbers.same(one, other)) {
          differs(
              said.getStartingLineNumber(),
              place(followsHead, following) + ", " + saysHead.get(column),
              one,
              other);
        }
      }
    }
    while (says.hasNext()) {
      CsvRecord said = says.next();
      differs(said.getStartingLineNumber(), "", "row " + place(saysHead, said), "no such row");
    }
    while (follows.hasNext()) {
      differs(0, "", "no such row", "row " + place(followsHead, follows.next()));
    }
  }

  private static String cell(CsvRecord row, int column) {
    return column < row.getFieldCount() ? row.getField(column) : "";
  }

  private static String place(List<String> head, CsvRecord row) {
    return NAMED_BY.stream()
        .filter(head::contains)
        .map(name -> cell(row, head.indexOf(name)))
        .filter(text -> !text.isEmpty())
        .collect(Collectors.joining(" "));
  }

  private void differs(long line, String place, String says, String follows) {
    found.accept(new Difference(Kind.DIFFERS, file, line, place, says, follows));
  }
}
