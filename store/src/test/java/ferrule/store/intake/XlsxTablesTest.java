package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import ferrule.core.job.Job;
import ferrule.store.Children;
import ferrule.store.Fixtures;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.SocketTimeoutException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class XlsxTablesTest {

  private static final String[] HEADER = {
    "link",
    "fibre",
    "direction",
    "wavelength_nm",
    "power_dbm",
    "reference",
    "measured_at",
    "operator"
  };

  private final Path temp;

  XlsxTablesTest(@TempDir Path temp) {
    this.temp = temp;
  }

  private static List<Object> contents(Job job) {
    return List.of(
        job.links(), job.instruments(), job.cords(), job.zeros(), job.readings(), job.faces());
  }

  private static Job job(Path folder) {
    JobFolder.Assembled assembled = JobFolder.read(folder, Purpose.JUDGE).assemble();
    assertThat(assembled.problems()).isEmpty();
    return assembled.job().orElseThrow();
  }

  private TableReader.Outcome read(Map<String, String> parts) throws IOException {
    Path path = Workbooks.pack(temp.resolve("readings.xlsx"), parts);
    return TableReader.read(path, "readings.xlsx", Optional.empty(), Purpose.STORE);
  }

  private static String[] good(String... changes) {
    String[] cells = {
      "K001", "1", "A-B", "1310", "-5.42", "Z1", "2026-10-05T09:02:00+01:00", "Wren"
    };
    for (int i = 0; i < changes.length; i += 2) {
      cells[Arrays.asList(HEADER).indexOf(changes[i])] = changes[i + 1];
    }
    return cells;
  }

  private static List<String> lines(List<Problem> problems) {
    return problems.stream().map(Problem::line).toList();
  }

  @Test
  void aFolderOfWorkbooksIsTheSameJobAsTheFolderOfTablesInText() throws IOException {
    Path folder = Fixtures.mill(temp);
    Job fromText = job(folder);
    for (TableKind kind : Arrays.stream(TableKind.values()).filter(TableKind::inJob).toList()) {
      Path csv = folder.resolve(kind.stem() + ".csv");
      if (!Files.exists(csv)) {
        continue; // the mill has no array links; see ArrayTablesTest
      }
      Workbooks.typed(folder.resolve(kind.stem() + ".xlsx"), Map.of("Sheet1", Workbooks.csv(csv)));
      Files.delete(csv);
    }
    assertThat(contents(job(folder))).isEqualTo(contents(fromText));
  }

  @Test
  void oneWorkbookHoldsTablesOnSheetsToldByNameOrByColumns() throws IOException {
    Path folder = Fixtures.mill(temp);
    Map<String, List<List<String>>> sheets = new LinkedHashMap<>();
    sheets.put("Readings", Workbooks.csv(folder.resolve("readings.csv")));
    sheets.put("what was built", Workbooks.csv(folder.resolve("links.csv")));
    Path path = temp.resolve("site.xlsx");
    Workbooks.typed(path, sheets);
    TableReader.Outcome outcome =
        TableReader.read(path, "site.xlsx", Optional.empty(), Purpose.STORE);
    assertThat(outcome.problems()).isEmpty();
    assertThat(outcome.tables())
        .extracting(TableFile::name)
        .containsExactly("site.xlsx[Readings]", "site.xlsx[what was built]");
    assertThat(outcome.tables())
        .extracting(TableFile::kind)
        .containsExactly(TableKind.READINGS, TableKind.LINKS);
    assertThat(outcome.tables().get(0).sha256())
        .hasSize(64)
        .isEqualTo(outcome.tables().get(1).sha256());
  }

  @Test
  void aSheetThatIsNoTableIsOneProblem() throws IOException {
    Path path = temp.resolve("site.xlsx");
    Workbooks.typed(path, Map.of("Notes", List.of(List.of("What we saw"), List.of("Rain"))));
    TableReader.Outcome outcome =
        TableReader.read(path, "site.xlsx", Optional.empty(), Purpose.JUDGE);
    assertThat(outcome.tables()).isEmpty();
    assertThat(lines(outcome.problems()))
        .containsExactly(
            "site.xlsx[Notes], row 1: expected a table of links, instruments, cords, references,"
                + " readings, faces, parts or polarity; found columns What we saw; name the file after its table"
                + " (readings.csv) and give it the table's columns");
  }

  @Test
  void furtherSheetsOfAWorkbookNamedAfterATableAreNoted() throws IOException {
    Path path = temp.resolve("links.xlsx");
    Map<String, List<List<String>>> sheets = new LinkedHashMap<>();
    sheets.put("Sheet1", Workbooks.csv(Fixtures.path("folders/mill/links.csv")));
    sheets.put("Sheet2", List.of());
    sheets.put("More links", Workbooks.csv(Fixtures.path("folders/mill/links.csv")));
    Workbooks.typed(path, sheets);
    TableReader.Outcome outcome =
        TableReader.read(path, "links.xlsx", Optional.empty(), Purpose.JUDGE);
    assertThat(outcome.problems()).isEmpty();
    assertThat(JobFolder.notes(outcome.tables().get(0)))
        .containsExactly("links.xlsx: only the first sheet is read; kept nowhere: More links");
  }

  @Test
  void emptyRowsAndEmptyCellsAtTheEndAreNothing() throws IOException {
    String[] long1 = Arrays.copyOf(good(), 12);
    Arrays.fill(long1, 8, 12, " ");
    TableReader.Outcome outcome =
        read(
            Workbooks.parts(
                Workbooks.sheet(
                    Workbooks.row(1, "", " "),
                    Workbooks.row(3, HEADER),
                    "<row r=\"4\"/>",
                    Workbooks.row(5, long1),
                    Workbooks.row(6, "", "", " "),
                    Workbooks.row(7, Arrays.copyOf(good(), 7)),
                    Workbooks.row(9, "", "", "", "", "", "", "", "", "", ""))));
    TableFile table = outcome.tables().get(0);
    assertThat(lines(table.problems())).isEmpty();
    assertThat(table.rowCount()).isEqualTo(2);
    assertThat(table.rowNumbers().get(1)).isEqualTo(7);
  }

  @Test
  void aCellBeyondTheHeaderIsOneProblem() throws IOException {
    String[] wide = Arrays.copyOf(good(), 10);
    wide[8] = "";
    wide[9] = "stray";
    TableReader.Outcome outcome =
        read(Workbooks.parts(Workbooks.sheet(Workbooks.row(1, HEADER), Workbooks.row(2, wide))));
    assertThat(lines(outcome.tables().get(0).problems()))
        .containsExactly(
            "readings.xlsx, row 2: expected 8 fields, as in the header; found 10 fields; put quotes"
                + " around a field that holds the separator; a decimal comma splits a field");
  }

  @Test
  void errorsAndFormulasCountByTheirStoredResult() throws IOException {
    TableReader.Outcome outcome =
        read(
            Workbooks.parts(
                Workbooks.sheet(
                    Workbooks.row(1, HEADER),
                    Workbooks.row(
                        2, good("power_dbm", "<c r=\"E2\"><f>1-6.42</f><v>-5.42</v></c>")),
                    Workbooks.row(3, good("power_dbm", "<c r=\"E3\"><f>1-6.42</f></c>")),
                    Workbooks.row(4, good("power_dbm", "<c r=\"E4\" t=\"e\"><v>#DIV/0!</v></c>")),
                    Workbooks.row(
                        5, good("power_dbm", "<c r=\"E5\" t=\"e\"><f>1/0</f><v>#DIV/0!</v></c>")),
                    Workbooks.row(6, good("link", "<c r=\"A6\" t=\"e\"><v>#REF!</v></c>")),
                    Workbooks.row(
                        7, good("link", "<c r=\"A7\" t=\"str\"><f>A2</f><v>K001</v></c>")),
                    Workbooks.row(8, good("operator", "<c r=\"H8\"><f>A2</f></c>")),
                    Workbooks.row(9, good("operator", "<c r=\"H9\" t=\"s\"><v>0</v></c>")),
                    Workbooks.row(10, good("power_dbm", "<c r=\"E10\" t=\"b\"><v>1</v></c>")),
                    Workbooks.row(
                        11, good("measured_at", "<c r=\"G11\" s=\"2\"><v>46300.375</v></c>")))));
    TableFile table = outcome.tables().get(0);
    assertThat(lines(table.problems()))
        .containsExactly(
            "readings.xlsx, row 3, power_dbm: expected a number from -100 to 40 dBm; found #formula"
                + " without a result; correct it",
            "readings.xlsx, row 4, power_dbm: expected a number from -100 to 40 dBm; found #DIV/0!;"
                + " correct it",
            "readings.xlsx, row 5, power_dbm: expected a number from -100 to 40 dBm; found #DIV/0!;"
                + " correct it",
            "readings.xlsx, row 6, link: expected a name; found #REF!; correct the formula in the"
                + " spreadsheet and save it again",
            "readings.xlsx, row 8, operator: expected a text; found #formula without a result;"
                + " correct the formula in the spreadsheet and save it again",
            "readings.xlsx, row 10, power_dbm: expected a number from -100 to 40 dBm; found true;"
                + " correct it",
            "readings.xlsx, row 11, measured_at: expected a time with its offset, such as"
                + " 2026-10-05T14:30:00+02:00; found 2026-10-05T09:00; add the offset from UTC:"
                + " +02:00, or Z for UTC");
    assertThat(table.rows()).hasSize(3);
    assertThat(table.rows()).containsOnly(table.rows().get(0));
  }

  @Test
  void aDateThatIsNoneIsAProblemOfItsRow() throws IOException {
    TableReader.Outcome outcome =
        read(
            Workbooks.parts(
                Workbooks.sheet(
                    Workbooks.row(1, HEADER),
                    Workbooks.row(2, good("measured_at", "<c r=\"G2\" s=\"2\"><v>1e300</v></c>")),
                    Workbooks.row(
                        3, good("measured_at", "<c r=\"G3\" s=\"2\"><v>46300.99999999999</v></c>")),
                    Workbooks.row(4, good("measured_at", "<c r=\"G4\" s=\"2\"><v>-1</v></c>")))));
    assertThat(outcome.problems()).isEmpty();
    assertThat(outcome.tables().get(0).problems())
        .extracting(Problem::row)
        .containsExactly(2L, 3L, 4L);
  }

  @Test
  void aWorkbookThatSwellsBeyondHalfAGibibyteIsRefused() throws IOException {
    Path path = temp.resolve("readings.xlsx");
    Workbooks.packBomb(path);
    assertThat(Files.size(path)).isLessThan(8 << 20);
    TableReader.Outcome outcome =
        TableReader.read(path, "readings.xlsx", Optional.empty(), Purpose.JUDGE);
    assertThat(outcome.tables()).isEmpty();
    assertThat(lines(outcome.problems()))
        .containsExactly(
            "readings.xlsx: expected a workbook of at most 512 MiB unpacked; found one that swells"
                + " beyond that; split it, or hand it in as CSV");
  }

  @Test
  void aCellThatClaimsAColumnBeyondAllMemoryIsRefused() throws IOException, InterruptedException {
    Path path =
        Workbooks.pack(
            temp.resolve("readings.xlsx"),
            Workbooks.parts(
                Workbooks.sheet(
                    Workbooks.row(1, HEADER), "<row r=\"2\"><c r=\"ZZZZZZ2\"><v>1</v></c></row>")));
    assertThat(Children.run(ReadTable.class, 48, path.toString()))
        .containsExactly(
            "readings.xlsx: expected a whole XLSX workbook; found one that needs more memory than"
                + " there is; open it in a spreadsheet and save it again");
  }

  @Test
  void entitiesAndDocumentTypesAreNeverFollowed() throws IOException {
    Path secret = temp.resolve("secret.txt");
    Files.writeString(secret, "SECRET");
    try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      server.setSoTimeout(50);
      String far = "http://127.0.0.1:" + server.getLocalPort() + "/x.dtd";
      List<String> types =
          List.of(
              "<!DOCTYPE x [<!ENTITY x SYSTEM \"" + secret.toUri() + "\">]>",
              "<!DOCTYPE x SYSTEM \"" + far + "\" [<!ENTITY x SYSTEM \"" + far + "\">]>",
              "<!DOCTYPE x [<!ENTITY % p SYSTEM \"" + far + "\"> %p;]>",
              "<!DOCTYPE x [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">"
                  + "<!ENTITY x \"&b;&b;&b;&b;&b;&b;&b;&b;&b;\">]>");
      for (String type : types) {
        for (String part : List.of("xl/worksheets/sheet1.xml", "xl/sharedStrings.xml")) {
          Map<String, String> parts =
              Workbooks.parts(
                  Workbooks.sheet(
                      Workbooks.row(1, HEADER),
                      Workbooks.row(2, good()),
                      Workbooks.row(3, good("operator", "<c r=\"H3\" t=\"s\"><v>0</v></c>"))));
          parts.compute(
              part,
              (name, xml) ->
                  String.valueOf(xml)
                      .replace("<?xml version=\"1.0\" encoding=\"UTF-8\"?>", "")
                      .replaceFirst("^", java.util.regex.Matcher.quoteReplacement(type))
                      .replace("Wren", "&x;"));
          TableReader.Outcome outcome = read(parts);
          assertThat(outcome.toString()).doesNotContain("SECRET", "aaaaaaaaaa");
          assertThat(outcome.problems()).as(type).hasSize(1);
          assertThat(outcome.tables()).isEmpty();
        }
      }
      Optional<Boolean> called = Optional.empty();
      try {
        server.accept().close();
        called = Optional.of(true);
      } catch (SocketTimeoutException e) {
        // nobody called, as it should be
      }
      assertThat(called).isEmpty();
    }
  }

  @Test
  void damageInsideAWorkbookIsOneProblem() throws IOException {
    String head = Workbooks.row(1, HEADER);
    List<String> damaged =
        List.of(
            Workbooks.sheet(head, Workbooks.row(2, good())).replace("</row>", "</wor>"),
            Workbooks.sheet(head, "<row r=\"2\"><c r=\"A2\" t=\"s\"><v>-1</v></c></row>"),
            Workbooks.sheet(head, "<row r=\"2\"><c r=\"A2\" t=\"s\"><v>x</v></c></row>"),
            Workbooks.sheet(head, "<row r=\"two\"><c r=\"A2\"><v>1</v></c></row>"),
            Workbooks.sheet(head, "<row r=\"2\"><c r=\"2A\"><v>1</v></c></row>"),
            Workbooks.sheet(head, "<row r=\"2\"><c r=\"ZZZZZZZ2\"><v>1</v></c></row>"),
            Workbooks.sheet(head, "<row r=\"2\"><c r=\"A2\" t=\"zz\"><v>1</v></c></row>"),
            Workbooks.sheet(head, "<row r=\"2\"><c r=\"A2\" s=\"x\"><v>1</v></c></row>"),
            Workbooks.sheet(head, "<row r=\"2\"><c r=\"A2\"><v>1.2.3</v></c></row>"),
            Workbooks.sheet(
                head, "<row r=\"2\"><c r=\"A2\"><f t=\"shared\" si=\"7\"/><v>1</v></c></row>"),
            Workbooks.sheet(head).substring(0, 300));
    for (String xml : damaged) {
      TableReader.Outcome outcome = read(Workbooks.parts(xml));
      assertThat(outcome.tables()).as(xml).isEmpty();
      assertThat(lines(outcome.problems()))
          .as(xml)
          .singleElement()
          .asString()
          .startsWith("readings.xlsx: expected a whole XLSX workbook; found ")
          .endsWith("; open it in a spreadsheet and save it again")
          .doesNotContain("\n");
    }
  }

  @Test
  void aTextBeyondTheSharedTextsIsNoText() throws IOException {
    TableReader.Outcome outcome =
        read(
            Workbooks.parts(
                Workbooks.sheet(
                    Workbooks.row(1, HEADER),
                    Workbooks.row(2, good("link", "<c r=\"A2\" t=\"s\"><v>999</v></c>")),
                    Workbooks.row(3, good("operator", "<c r=\"H3\" t=\"s\"><v>0</v></c>")))));
    assertThat(lines(outcome.tables().get(0).problems()))
        .containsExactly("readings.xlsx, row 2, link: expected a value; found nothing; fill it in");
    assertThat(outcome.tables().get(0).rows()).hasSize(1);
  }

  @Test
  void aWorkbookWhoseSharedTextsAreGoneIsRefused() throws IOException {
    Map<String, String> parts =
        Workbooks.parts(
            Workbooks.sheet(
                Workbooks.row(1, HEADER),
                Workbooks.row(2, good("operator", "<c r=\"H2\" t=\"s\"><v>0</v></c>"))));
    parts.remove("xl/sharedStrings.xml");
    assertThat(lines(read(parts).problems()))
        .containsExactly(
            "readings.xlsx: expected a whole XLSX workbook; found a cell whose text is not there;"
                + " open it in a spreadsheet and save it again");
  }

  @Test
  void aWorkbookWithoutOneOfItsPartsNeverThrows() throws IOException {
    Map<String, String> parts =
        Workbooks.parts(Workbooks.sheet(Workbooks.row(1, HEADER), Workbooks.row(2, good())));
    for (String part : List.copyOf(parts.keySet())) {
      Map<String, String> fewer = new LinkedHashMap<>(parts);
      fewer.remove(part);
      TableReader.Outcome outcome = read(fewer);
      // Without styles or shared texts this sheet still says all it has to say.
      assertThat(outcome.problems().size() + outcome.tables().size()).as(part).isEqualTo(1);
      Map<String, String> emptied = new LinkedHashMap<>(parts);
      emptied.put(part, "");
      outcome = read(emptied);
      assertThat(outcome.problems().size() + outcome.tables().size()).as(part).isEqualTo(1);
    }
  }

  @Test
  void aWorkbookCutOffOrFlippedAnywhereNeverThrowsAndNeverYieldsOtherRows() throws IOException {
    Path path = temp.resolve("readings.xlsx");
    Workbooks.typed(
        path, Map.of("readings", Workbooks.csv(Fixtures.path("folders/mill/readings.csv"))));
    byte[] whole = Files.readAllBytes(path);
    List<TableRow> rows =
        TableReader.read(path, "readings.xlsx", Optional.empty(), Purpose.JUDGE)
            .tables()
            .get(0)
            .rows();
    SplittableRandom random = new SplittableRandom(99);
    List<Integer> counts = new ArrayList<>(List.of(0, 0));
    for (int i = 0; i < 300; i++) {
      byte[] spoilt = whole.clone();
      if (i < 100) {
        spoilt = Arrays.copyOf(whole, random.nextInt(whole.length));
      } else {
        spoilt[random.nextInt(spoilt.length)] ^= (byte) (1 << random.nextInt(8));
      }
      Files.write(path, spoilt);
      TableReader.Outcome outcome =
          TableReader.read(path, "readings.xlsx", Optional.empty(), Purpose.STORE);
      if (outcome.tables().isEmpty()) {
        assertThat(outcome.problems()).hasSize(1);
        counts.set(0, counts.get(0) + 1);
      } else {
        // A flip in what nobody needs, such as a time stamp: whatever is read is what was written.
        assertThat(outcome.tables().get(0).rows()).isEqualTo(rows);
        counts.set(1, counts.get(1) + 1);
      }
    }
    assertThat(counts.get(0)).isGreaterThan(200);
  }
}
