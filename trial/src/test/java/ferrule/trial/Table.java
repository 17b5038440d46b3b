package ferrule.trial;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** A table of check values, semicolons between cells, beside the tests. */
final class Table {

  private Table() {}

  static List<String[]> rows(String name) {
    try (InputStream in = Table.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("No table " + name);
      }
      List<String[]> rows = new ArrayList<>();
      new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .skip(1)
          .filter(line -> !line.isBlank())
          .forEach(line -> rows.add(line.split(";")));
      return rows;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
