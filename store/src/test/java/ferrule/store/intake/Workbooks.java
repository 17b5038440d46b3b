package ferrule.store.intake;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;

/** Makes workbooks: orderly ones with a library, disorderly ones part by part. */
final class Workbooks {

  private static final String SHEET =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?><worksheet"
          + " xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData>";
  private static final String SHEET_END = "</sheetData></worksheet>";

  private Workbooks() {}

  /** The rows of a kept CSV file that has no quotes. */
  static List<List<String>> csv(Path file) {
    try {
      List<List<String>> rows = new ArrayList<>();
      for (String line : Files.readAllLines(file)) {
        rows.add(List.of(line.split(",", -1)));
      }
      return rows;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Writes tables as sheets: numbers as numbers, days as dates, everything else as text. */
  static void typed(Path path, Map<String, List<List<String>>> sheets) throws IOException {
    try (OutputStream out = Files.newOutputStream(path);
        Workbook workbook = new Workbook(out, "Ferrule test", "1.0")) {
      for (Map.Entry<String, List<List<String>>> sheet : sheets.entrySet()) {
        Worksheet worksheet = workbook.newWorksheet(sheet.getKey());
        for (int r = 0; r < sheet.getValue().size(); r++) {
          List<String> row = sheet.getValue().get(r);
          for (int c = 0; c < row.size(); c++) {
            put(worksheet, r, c, row.get(c));
          }
        }
        worksheet.finish();
      }
    }
  }

  private static void put(Worksheet worksheet, int row, int column, String cell) {
    if (cell.matches("[-+]?\\d+([.]\\d+)?")) {
      worksheet.value(row, column, Double.valueOf(cell));
    } else if (cell.matches("\\d{4}-\\d\\d-\\d\\d")) {
      worksheet.value(row, column, LocalDate.parse(cell));
      worksheet.style(row, column).format("yyyy-mm-dd").set();
    } else if (!cell.isEmpty()) {
      worksheet.value(row, column, cell);
    }
  }

  /** The XML of a sheet with these rows. */
  static String sheet(String... rows) {
    return SHEET + String.join("", rows) + SHEET_END;
  }

  /** A row of text cells. */
  static String row(int number, String... cells) {
    StringBuilder row = new StringBuilder("<row r=\"" + number + "\">");
    for (int i = 0; i < cells.length; i++) {
      row.append(
          cells[i].startsWith("<")
              ? cells[i]
              : "<c r=\""
                  + (char) ('A' + i)
                  + number
                  + "\" t=\"inlineStr\"><is><t>"
                  + cells[i]
                  + "</t></is></c>");
    }
    return row.append("</row>").toString();
  }

  /** The parts of a workbook with one sheet called "readings". */
  static Map<String, String> parts(String sheetXml) {
    String schemas = "http://schemas.openxmlformats.org/";
    Map<String, String> parts = new LinkedHashMap<>();
    parts.put(
        "[Content_Types].xml",
        "<Types xmlns=\""
            + schemas
            + "package/2006/content-types\"><Default Extension=\"xml\" ContentType="
            + "\"application/xml\"/><Override PartName=\"/xl/workbook.xml\" ContentType="
            + "\"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml\"/>"
            + "<Override PartName=\"/xl/worksheets/sheet1.xml\" ContentType="
            + "\"application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml\"/>"
            + "<Override PartName=\"/xl/styles.xml\" ContentType="
            + "\"application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml\"/>"
            + "<Override PartName=\"/xl/sharedStrings.xml\" ContentType="
            + "\"application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml\"/>"
            + "</Types>");
    String relation = schemas + "officeDocument/2006/relationships";
    String relations = "<Relationships xmlns=\"" + schemas + "package/2006/relationships\">";
    parts.put(
        "_rels/.rels",
        relations
            + "<Relationship Id=\"rId1\" Type=\""
            + relation
            + "/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>");
    parts.put(
        "xl/workbook.xml",
        "<workbook xmlns=\""
            + schemas
            + "spreadsheetml/2006/main\" xmlns:r=\""
            + relation
            + "\"><sheets><sheet name=\"readings\" sheetId=\"1\" r:id=\"rId1\"/></sheets>"
            + "</workbook>");
    parts.put(
        "xl/_rels/workbook.xml.rels",
        relations
            + "<Relationship Id=\"rId1\" Type=\""
            + relation
            + "/worksheet\" Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"rId2\" Type=\""
            + relation
            + "/styles\" Target=\"styles.xml\"/><Relationship Id=\"rId3\" Type=\""
            + relation
            + "/sharedStrings\" Target=\"sharedStrings.xml\"/></Relationships>");
    parts.put(
        "xl/styles.xml",
        "<styleSheet xmlns=\""
            + schemas
            + "spreadsheetml/2006/main\"><cellXfs count=\"2\"><xf numFmtId=\"0\"/>"
            + "<xf numFmtId=\"14\"/><xf numFmtId=\"22\"/></cellXfs></styleSheet>");
    parts.put(
        "xl/sharedStrings.xml",
        "<sst xmlns=\"" + schemas + "spreadsheetml/2006/main\"><si><t>Wren</t></si></sst>");
    parts.put("xl/worksheets/sheet1.xml", sheetXml);
    return parts;
  }

  /** Packs parts. */
  static Path pack(Path path, Map<String, String> parts) throws IOException {
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(path))) {
      for (Map.Entry<String, String> part : parts.entrySet()) {
        zip.putNextEntry(new ZipEntry(part.getKey()));
        zip.write(part.getValue().getBytes(StandardCharsets.UTF_8));
      }
    }
    return path;
  }

  /** Packs a workbook whose sheet holds more than 512 MiB of blanks. */
  static void packBomb(Path path) throws IOException {
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(path))) {
      zip.setLevel(Deflater.BEST_SPEED);
      for (Map.Entry<String, String> part : parts("").entrySet()) {
        zip.putNextEntry(new ZipEntry(part.getKey()));
        zip.write(part.getValue().getBytes(StandardCharsets.UTF_8));
      }
      zip.write(SHEET.getBytes(StandardCharsets.UTF_8));
      byte[] blanks = " ".repeat(1 << 20).getBytes(StandardCharsets.UTF_8);
      for (int i = 0; i <= 512; i++) {
        zip.write(blanks);
      }
      zip.write(SHEET_END.getBytes(StandardCharsets.UTF_8));
    }
  }
}
