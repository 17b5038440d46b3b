package ferrule.store.intake;

import ferrule.core.Problem;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.time.DateTimeException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Enumeration;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import java.util.zip.CRC32;
import java.util.zip.CheckedInputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.Sheet;

/**
 * Reads the tables of a workbook. A workbook named after a table holds it on its first sheet; in
 * any other, each sheet is a table, told by the sheet's name or its header.
 *
 * <p>The workbook is unpacked once for measuring before it is read, so that a small file which
 * swells to gigabytes is refused.
 */
final class XlsxTables {

  private static final long MOST_UNPACKED = 1L << 29;
  private static final int MOST_PARTS = 10_000;
  private static final int MOST_COLUMNS = 500;

  private XlsxTables() {}

  static List<TableFile> read(
      Path path, String name, Optional<TableKind> known, Purpose purpose, List<Problem> problems)
      throws IOException {
    if (!isWholeAndBounded(path, name, problems)) {
      return List.of();
    }
    String sha256 = purpose == Purpose.STORE ? sha256(path) : "";
    List<TableFile> tables = new ArrayList<>();
    try (ReadableWorkbook workbook =
        new ReadableWorkbook(path.toFile(), new ReadingOptions(true, false))) {
      List<Sheet> sheets = workbook.getSheets().toList();
      if (known.isPresent() && !sheets.isEmpty()) {
        List<String> unread = new ArrayList<>();
        for (Sheet sheet : sheets.subList(1, sheets.size())) {
          if (holdsText(sheet)) {
            unread.add(sheetName(sheet));
          }
        }
        read(sheets.get(0), name, known, sha256, unread, problems).ifPresent(tables::add);
      } else {
        for (Sheet sheet : sheets) {
          String shown = name + "[" + sheetName(sheet) + "]";
          Optional<TableKind> kind = TableKind.ofFileName(sheetName(sheet));
          read(sheet, shown, kind, sha256, List.of(), problems).ifPresent(tables::add);
        }
      }
    } catch (UncheckedIOException e) {
      throw e.getCause();
    } catch (RuntimeException e) {
      // The library meets damage with whatever exception comes of it; none may escape from here.
      problems.add(damaged(name, String.valueOf(e.getMessage())));
      return List.of();
    } catch (OutOfMemoryError e) {
      // One cell that claims column ZZZZZZ, or holds hundreds of megabytes, is enough for this;
      // what
      // was being built is garbage by now.
      problems.add(damaged(name, "one that needs more memory than there is"));
      return List.of();
    }
    if (tables.isEmpty() && problems.isEmpty()) {
      problems.add(new Problem(name, 0, "", "a sheet with rows", "none", "check the workbook"));
    }
    return tables;
  }

  private static Problem damaged(String name, String why) {
    return new Problem(
        name, 0, "", "a whole XLSX workbook", why, "open it in a spreadsheet and save it again");
  }

  /** Unpacks every part, for its size and, which the library does not, for its checksum. */
  private static boolean isWholeAndBounded(Path path, String name, List<Problem> problems)
      throws IOException {
    long total = 0;
    int parts = 0;
    byte[] buffer = new byte[1 << 16];
    try (ZipFile zip = new ZipFile(path.toFile())) {
      Enumeration<? extends ZipEntry> entries = zip.entries();
      while (entries.hasMoreElements()) {
        parts++;
        ZipEntry entry = entries.nextElement();
        CRC32 sum = new CRC32();
        try (InputStream in = new CheckedInputStream(zip.getInputStream(entry), sum)) {
          for (int n = in.read(buffer); n >= 0 && total <= MOST_UNPACKED; n = in.read(buffer)) {
            total += n;
          }
        }
        if (total > MOST_UNPACKED || parts > MOST_PARTS) {
          problems.add(
              new Problem(
                  name,
                  0,
                  "",
                  "a workbook of at most 512 MiB unpacked",
                  "one that swells beyond that",
                  "split it, or hand it in as CSV"));
          return false;
        }
        if (sum.getValue() != entry.getCrc()) {
          problems.add(damaged(name, "a part with a wrong checksum"));
          return false;
        }
      }
      return true;
    } catch (ZipException | EOFException e) {
      problems.add(damaged(name, TableReader.reason(e)));
      return false;
    }
  }

  private static String sha256(Path path) throws IOException {
    try (DigestInputStream in =
        new DigestInputStream(Files.newInputStream(path), Sha256.digest())) {
      in.transferTo(java.io.OutputStream.nullOutputStream());
      return Sha256.hex(in.getMessageDigest().digest());
    }
  }

  private static String sheetName(Sheet sheet) {
    return Problem.printable(String.valueOf(sheet.getName()));
  }

  private static boolean holdsText(Sheet sheet) throws IOException {
    try (Stream<Row> rows = sheet.openStream()) {
      return rows.anyMatch(
          row -> !Arrays.stream(cells(row, row.getCellCount())).allMatch(String::isBlank));
    }
  }

  private static Optional<TableFile> read(
      Sheet sheet,
      String name,
      Optional<TableKind> known,
      String sha256,
      List<String> unread,
      List<Problem> problems)
      throws IOException {
    try (Stream<Row> stream = sheet.openStream()) {
      Iterator<Row> rows = stream.iterator();
      while (rows.hasNext()) {
        Row first = rows.next();
        String[] names = cells(first, first.getCellCount());
        if (Arrays.stream(names).allMatch(String::isBlank)) {
          continue;
        }
        return read(rows, first.getRowNum(), names, name, known, sha256, unread, problems);
      }
      return Optional.empty();
    }
  }

  private static Optional<TableFile> read(
      Iterator<Row> rows,
      int headRow,
      String[] names,
      String name,
      Optional<TableKind> known,
      String sha256,
      List<String> unread,
      List<Problem> problems) {
    Optional<TableKind> kind =
        known.or(() -> TableKind.ofHeader(Arrays.stream(names).map(Header::normal).toList()));
    if (kind.isEmpty()) {
      problems.add(TableReader.unknownTable(name, List.of(names)));
      return Optional.empty();
    }
    List<Problem> headerProblems = new ArrayList<>();
    Header header = Header.of(kind.get(), name, headRow, names, headerProblems);
    if (!headerProblems.isEmpty()) {
      problems.addAll(headerProblems);
      return Optional.empty();
    }
    TableBuilder table = new TableBuilder(name, header, true);
    RowBuffer buffer = new RowBuffer();
    while (rows.hasNext()) {
      Row row = rows.next();
      String[] fields = cells(row, Math.max(header.width(), row.getCellCount()));
      buffer.begin(row.getRowNum());
      for (String field : trimmed(fields, header.width())) {
        buffer.add(field);
      }
      table.add(buffer);
    }
    return Optional.of(table.build(sha256, unread));
  }

  /** Cuts empty cells beyond the header. */
  private static String[] trimmed(String[] fields, int width) {
    int length = fields.length;
    while (length > width && fields[length - 1].isBlank()) {
      length--;
    }
    return Arrays.copyOf(fields, length);
  }

  private static String[] cells(Row row, int width) {
    String[] cells = new String[Math.min(width, MOST_COLUMNS)];
    Arrays.fill(cells, "");
    for (Cell cell : row) {
      if (cell != null && cell.getColumnIndex() < cells.length) {
        cells[cell.getColumnIndex()] = text(cell);
      }
    }
    return cells;
  }

  /** A cell as the text that a CSV file would hold. */
  private static String text(Cell cell) {
    if (cell.getType() == CellType.NUMBER) {
      return isDate(cell) ? date(cell) : plain(cell.asNumber());
    }
    if (cell.getType() == CellType.FORMULA || cell.getType() == CellType.ERROR) {
      String raw = cell.getRawValue();
      return raw == null ? Cells.NOT_CALCULATED : raw;
    }
    if (cell.getType() == CellType.STRING && cell.getValue() == null) {
      throw new IllegalStateException("a cell whose text is not there");
    }
    return cell.getText();
  }

  private static String date(Cell cell) {
    try {
      String time = cell.asDate().toString();
      return time.endsWith("T00:00") ? time.substring(0, 10) : time;
    } catch (DateTimeException e) {
      return plain(cell.asNumber());
    }
  }

  private static String plain(BigDecimal number) {
    BigDecimal bare = number.stripTrailingZeros();
    return bare.scale() > 12 || bare.precision() - bare.scale() > 18
        ? Double.toString(number.doubleValue())
        : bare.toPlainString();
  }

  private static boolean isDate(Cell cell) {
    String format = cell.getDataFormatString();
    if (format == null) {
      return false;
    }
    String bare = format.toLowerCase(Locale.ROOT).replaceAll("\\[[^]]*]|\"[^\"]*\"|\\\\.", "");
    return bare.contains("yy")
        || bare.contains("d/m")
        || bare.contains("m/d")
        || bare.contains("h:mm");
  }
}
