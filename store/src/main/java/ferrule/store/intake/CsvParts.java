package ferrule.store.intake;

import de.siegmar.fastcsv.reader.CsvReader;
import ferrule.core.Problem;
import java.io.ByteArrayInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Reads a large CSV table of readings in parts, side by side.
 *
 * <p>A file can be parted at its line ends if no field is quoted, for a quoted field may hold a
 * line end. Whatever is out of the ordinary, from a quote to a row that is no CSV, makes this class
 * step back: the file is then read in one piece, which also finds the words for what is wrong.
 */
final class CsvParts {

  private static final long WORTH_IT = 1 << 21;
  private static final int MOST_PARTS = 8;

  private CsvParts() {}

  /** A part of the file as rows, and how many lines it has. */
  private record Part(TableBuilder table, long lines) {}

  /** The file is not to be read in parts. */
  private static final class StepBackException extends RuntimeException {
    private static final long serialVersionUID = 1L;
  }

  /**
   * Reads a file in parts; empty if it must be read in one piece.
   *
   * @param head its first bytes
   */
  static Optional<TableFile> read(
      Path path, String name, Optional<TableKind> known, byte[] head, char separator) {
    int processors = Runtime.getRuntime().availableProcessors();
    // Two for each processor: who is done first takes another.
    return processors < 2
        ? Optional.empty()
        : read(path, name, known, head, separator, Math.min(2 * processors, MOST_PARTS));
  }

  static Optional<TableFile> read(
      Path path, String name, Optional<TableKind> known, byte[] head, char separator, int parts) {
    Optional<Header> header = header(name, known, head, separator);
    if (header.isEmpty() || indexOf((byte) '"', head, head.length) >= 0) {
      return Optional.empty();
    }
    try (FileChannel channel = FileChannel.open(path)) {
      if (channel.size() < WORTH_IT) {
        return Optional.empty();
      }
      long[] starts = starts(channel, lineEnd(head, head.length), parts);
      List<Part> read =
          IntStream.range(0, parts)
              .parallel()
              .mapToObj(
                  i ->
                      // Later parts learn where they stand in the file when they are put together.
                      read(
                          new Span(path, starts[i], starts[i + 1], i == 0 ? 1 : 0),
                          new TableBuilder(name, header.get(), separator != ','),
                          separator))
              .toList();
      TableBuilder whole = read.get(0).table();
      long rowsBefore = 1 + read.get(0).lines();
      for (Part part : read.subList(1, parts)) {
        whole.append(part.table(), rowsBefore);
        rowsBefore += part.lines();
      }
      return Optional.of(whole.build("", List.of()));
    } catch (IOException | RuntimeException e) {
      return Optional.empty();
    }
  }

  /** Place of the first such byte; -1 if there is none. */
  private static int indexOf(byte wanted, byte[] bytes, int length) {
    for (int i = 0; i < length; i++) {
      if (bytes[i] == wanted) {
        return i;
      }
    }
    return -1;
  }

  /** Place behind the first line end; 0 if there is none. */
  private static int lineEnd(byte[] bytes, int length) {
    return indexOf((byte) '\n', bytes, length) + 1;
  }

  /** The header, if it is in order and its table may be read in parts. */
  private static Optional<Header> header(
      String name, Optional<TableKind> known, byte[] head, char separator) {
    boolean readings = known.isPresent() && known.get() == TableKind.READINGS;
    byte[] line = Arrays.copyOf(head, lineEnd(head, head.length));
    if (!readings || line.length == 0) {
      return Optional.empty();
    }
    try (CsvReader<RowBuffer> csv = CsvTable.rows(new ByteArrayInputStream(line), separator, 0)) {
      var rows = csv.iterator();
      if (!rows.hasNext()) {
        return Optional.empty();
      }
      List<Problem> problems = new ArrayList<>();
      Header header = Header.of(TableKind.READINGS, name, 1, rows.next().texts(), problems);
      return problems.isEmpty() ? Optional.of(header) : Optional.empty();
    } catch (IOException | RuntimeException e) {
      return Optional.empty();
    }
  }

  /** Where each part begins, each behind a line end; and, last, where the file ends. */
  private static long[] starts(FileChannel channel, long first, int parts) throws IOException {
    long size = channel.size();
    long[] starts = new long[parts + 1];
    starts[0] = first;
    starts[parts] = size;
    ByteBuffer buffer = ByteBuffer.allocate(CsvTable.LONGEST_ROW);
    for (int part = 1; part < parts; part++) {
      long from = Math.max(starts[part - 1], first + (size - first) * part / parts);
      buffer.clear();
      int line = lineEnd(buffer.array(), channel.read(buffer, from));
      if (line == 0) {
        throw new StepBackException();
      }
      starts[part] = from + line;
    }
    return starts;
  }

  private record Span(Path path, long from, long to, long rowsBefore) {}

  private static Part read(Span span, TableBuilder table, char separator) {
    try (FileChannel channel = FileChannel.open(span.path());
        Watched text =
            new Watched(
                Channels.newInputStream(channel.position(span.from())), span.to() - span.from());
        CsvReader<RowBuffer> csv = CsvTable.rows(text, separator, span.rowsBefore())) {
      for (RowBuffer row : csv) {
        table.add(row);
      }
      return new Part(table, text.lines);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The bytes of one part; counts lines and steps back from what cannot be parted. */
  private static final class Watched extends FilterInputStream {
    private long left;
    private long lines;
    private boolean afterReturn;

    Watched(InputStream in, long length) {
      super(in);
      this.left = length;
    }

    @Override
    public int read(byte[] bytes, int offset, int length) throws IOException {
      if (left == 0) {
        return -1;
      }
      int count = super.read(bytes, offset, (int) Math.min(length, left));
      if (count <= 0) {
        // The file has become shorter.
        throw new StepBackException();
      }
      left -= count;
      for (int i = offset; i < offset + count; i++) {
        byte b = bytes[i];
        if (b == '\n') {
          lines++;
        } else if (b == '"' || afterReturn) {
          throw new StepBackException();
        }
        afterReturn = b == '\r';
      }
      return count;
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }
  }
}
