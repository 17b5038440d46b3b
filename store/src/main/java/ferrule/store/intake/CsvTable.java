package ferrule.store.intake;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import ferrule.core.Problem;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;

/** Reads a CSV table: UTF-8, separated by comma, semicolon or tab as its header shows. */
final class CsvTable {

  /** A row longer than this many characters is not a row of any table. */
  static final int LONGEST_ROW = 1 << 20;

  /** How much of the file is looked at to find the header. */
  private static final int PEEK = 1 << 16;

  private static final byte[] BYTE_ORDER_MARK = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};

  private CsvTable() {}

  static Optional<TableFile> read(
      Path path, String name, Optional<TableKind> known, Purpose purpose, List<Problem> problems)
      throws IOException {
    try (DigestInputStream in =
        new DigestInputStream(Files.newInputStream(path), Sha256.digest())) {
      in.on(purpose == Purpose.STORE);
      BufferedInputStream buffered = new BufferedInputStream(in, PEEK * 2);
      byte[] head = peek(buffered);
      if (!isPlainText(head, name, problems)) {
        return Optional.empty();
      }
      char separator = separator(head);
      if (purpose == Purpose.JUDGE) {
        Optional<TableFile> inParts = CsvParts.read(path, name, known, head, separator);
        if (inParts.isPresent()) {
          return inParts;
        }
      }
      if (startsWith(head, BYTE_ORDER_MARK)) {
        buffered.skipNBytes(BYTE_ORDER_MARK.length);
      }
      try {
        return read(buffered, in, name, known, purpose, separator, problems);
      } catch (UncheckedIOException e) {
        throw e.getCause();
      }
    }
  }

  private static boolean startsWith(byte[] head, byte[] start) {
    return head.length >= start.length
        && Arrays.equals(head, 0, start.length, start, 0, start.length);
  }

  private static byte[] peek(InputStream in) throws IOException {
    in.mark(PEEK);
    byte[] head = in.readNBytes(PEEK);
    in.reset();
    return head;
  }

  private static boolean isPlainText(byte[] head, String name, List<Problem> problems) {
    int first = head.length > 0 ? head[0] & 0xFF : 0;
    int second = head.length > 1 ? head[1] & 0xFF : 0;
    if (head.length == 0) {
      problems.add(new Problem(name, 1, "", "a header row", "an empty file", "add the header"));
      return false;
    }
    if ((first == 0xFF && second == 0xFE) || (first == 0xFE && second == 0xFF)) {
      problems.add(
          new Problem(
              name, 1, "", "text in UTF-8", "text in UTF-16", "save the file as CSV in UTF-8"));
      return false;
    }
    if (first == 'P' && second == 'K') {
      problems.add(
          new Problem(
              name,
              0,
              "",
              "text in UTF-8",
              "a packed file, perhaps a workbook",
              "give it the ending .xlsx, or save it as CSV in UTF-8"));
      return false;
    }
    long row = 1;
    for (byte b : head) {
      if (b == 0) {
        problems.add(
            new Problem(name, row, "", "text in UTF-8", "a zero byte", "hand in a text file"));
        return false;
      }
      row += b == '\n' ? 1 : 0;
    }
    return true;
  }

  /** The separator of which the header holds most, quoted text aside; a comma if it holds none. */
  static char separator(byte[] head) {
    int[] counts = new int[3];
    boolean quoted = false;
    for (byte b : head) {
      if (b == '"') {
        quoted = !quoted;
      } else if (!quoted && (b == '\n' || b == '\r')) {
        break;
      } else if (!quoted) {
        counts[0] += b == ',' ? 1 : 0;
        counts[1] += b == ';' ? 1 : 0;
        counts[2] += b == '\t' ? 1 : 0;
      }
    }
    if (counts[1] > counts[0] && counts[1] >= counts[2]) {
      return ';';
    }
    return counts[2] > counts[0] ? '\t' : ',';
  }

  private static Optional<TableFile> read(
      InputStream text,
      DigestInputStream digest,
      String name,
      Optional<TableKind> known,
      Purpose purpose,
      char separator,
      List<Problem> problems)
      throws IOException {
    IntoRow intoRow = new IntoRow(0);
    try (CsvReader<RowBuffer> csv = reader(text, separator, intoRow)) {
      Iterator<RowBuffer> records = csv.iterator();
      if (!records.hasNext()) {
        problems.add(new Problem(name, 1, "", "a header row", "no rows", "add the header"));
        return Optional.empty();
      }
      RowBuffer head = records.next();
      String[] names = head.texts();
      Optional<TableKind> kind =
          known.or(() -> TableKind.ofHeader(Arrays.stream(names).map(Header::normal).toList()));
      if (kind.isEmpty()) {
        problems.add(TableReader.unknownTable(name, List.of(names)));
        return Optional.empty();
      }
      List<Problem> headerProblems = new ArrayList<>();
      Header header = Header.of(kind.get(), name, head.row(), names, headerProblems);
      if (!headerProblems.isEmpty()) {
        problems.addAll(headerProblems);
        return Optional.empty();
      }
      TableBuilder table = new TableBuilder(name, header, separator != ',');
      while (records.hasNext()) {
        table.add(records.next());
      }
      return Optional.of(
          table.build(
              purpose == Purpose.STORE ? Sha256.hex(digest.getMessageDigest().digest()) : "",
              List.of()));
    } catch (CsvParseException e) {
      if (e.getCause() instanceof CharacterCodingException coding) {
        throw coding;
      }
      problems.add(parseProblem(name, intoRow.buffer.row(), e));
      return Optional.empty();
    }
  }

  /**
   * Rows of some text, each in the one buffer that is used again for the next.
   *
   * @param rowsBefore rows of the file before the text
   */
  static CsvReader<RowBuffer> rows(InputStream text, char separator, long rowsBefore) {
    return reader(text, separator, new IntoRow(rowsBefore));
  }

  private static CsvReader<RowBuffer> reader(InputStream text, char separator, IntoRow intoRow) {
    InputStreamReader decoded =
        new InputStreamReader(
            text,
            StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT));
    return CsvReader.builder()
        .fieldSeparator(separator)
        .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
        .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
        .allowUnclosedQuote(false)
        .maxBufferSize(LONGEST_ROW)
        .build(intoRow, decoded);
  }

  /** A row beyond {@link #LONGEST_ROW}. */
  private static final class LongRowException extends RuntimeException {
    private static final long serialVersionUID = 1L;
  }

  /** Hands each row on in one buffer that is used again for the next. */
  private static final class IntoRow extends AbstractBaseCsvCallbackHandler<RowBuffer> {
    private final RowBuffer buffer = new RowBuffer();
    private final long rowsBefore;

    IntoRow(long rowsBefore) {
      this.rowsBefore = rowsBefore;
    }

    @Override
    protected void handleBegin(long startingLineNumber) {
      buffer.begin(startingLineNumber + rowsBefore);
    }

    @Override
    protected void handleField(int index, char[] chars, int offset, int length, boolean quoted) {
      buffer.add(chars, offset, length);
      // The reader bounds one field; many short ones must not fill the memory either.
      if (buffer.length() + index > LONGEST_ROW) {
        throw new LongRowException();
      }
    }

    @Override
    protected RowBuffer buildRecord() {
      return buffer;
    }
  }

  private static Problem longRow(String name, long row) {
    return new Problem(
        name,
        row,
        "",
        "a row of at most " + LONGEST_ROW + " characters",
        "a longer one",
        "look for a missing line end or an unclosed quote");
  }

  private static Problem parseProblem(String name, long row, CsvParseException e) {
    Throwable cause = e.getCause() == null ? e : e.getCause();
    String message = String.valueOf(cause.getMessage());
    if (cause instanceof LongRowException || message.contains("buffer")) {
      return longRow(name, row);
    }
    return new Problem(name, row, "", "CSV", message, "look for an unclosed quote");
  }
}
