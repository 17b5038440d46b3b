package ferrule.core.checks;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;

/** Reads files of test data from the test resources. */
public final class CheckFile {

  private CheckFile() {}

  /** The rows of {@code /checks/NAME.csv}. */
  public static List<Check> read(String name) {
    return table("/checks/" + name + ".csv").stream()
        .map(
            r ->
                new Check(
                    r.getField("id"),
                    r.getField("quantity"),
                    r.getField("inputs"),
                    r.getField("expected"),
                    r.getField("tolerance"),
                    r.getField("unit"),
                    r.getField("source"),
                    r.getField("confidence")))
        .toList();
  }

  /** The rows of a table with a header; lines that begin with "#" are comments. */
  public static List<NamedCsvRecord> table(String path) {
    try (CsvReader<NamedCsvRecord> reader =
        CsvReader.builder()
            .commentStrategy(CommentStrategy.SKIP)
            .ofNamedCsvRecord(new InputStreamReader(open(path), StandardCharsets.UTF_8))) {
      return reader.stream().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The text of a test resource. */
  public static String text(String path) {
    try (InputStream in = open(path)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static InputStream open(String path) {
    return Objects.requireNonNull(CheckFile.class.getResourceAsStream(path), path);
  }
}
