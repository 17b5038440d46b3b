package ferrule.store.intake;

import ferrule.core.Problem;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** Reads one file, CSV or XLSX, into the tables it holds. */
public final class TableReader {

  private TableReader() {}

  /** What a file held: tables, or the reason why it held none. */
  public record Outcome(List<TableFile> tables, List<Problem> problems) {}

  /** Whether a file name has an ending that this class reads. */
  public static boolean reads(String fileName) {
    String lower = fileName.toLowerCase(Locale.ROOT);
    return lower.endsWith(".csv") || lower.endsWith(".xlsx");
  }

  /**
   * Reads a file.
   *
   * @param path the file
   * @param name name to show in problems
   * @param known which table it is, if the caller knows; else told from its name or its header
   * @param purpose what for
   */
  public static Outcome read(Path path, String name, Optional<TableKind> known, Purpose purpose) {
    List<Problem> problems = new ArrayList<>();
    try {
      if (!Files.isRegularFile(path)) {
        problems.add(new Problem(name, 0, "", "a file", "none", "check the name"));
        return new Outcome(List.of(), problems);
      }
      Optional<TableKind> kind = known.or(() -> TableKind.ofFileName(name));
      List<TableFile> tables =
          name.toLowerCase(Locale.ROOT).endsWith(".xlsx")
              ? XlsxTables.read(path, name, kind, purpose, problems)
              : CsvTable.read(path, name, kind, purpose, problems).stream().toList();
      return new Outcome(tables, problems);
    } catch (CharacterCodingException e) {
      problems.add(EncodingFault.locate(path, name));
    } catch (IOException e) {
      problems.add(
          new Problem(name, 0, "", "a file that can be read", reason(e), "check file and disk"));
    }
    return new Outcome(List.of(), problems);
  }

  /** Why a file could not be read, in words. */
  public static String reason(IOException e) {
    if (e instanceof NoSuchFileException) {
      return "nothing of this name";
    }
    if (e instanceof NotDirectoryException) {
      return "a file";
    }
    if (e instanceof AccessDeniedException) {
      return "no right to read it";
    }
    String message = e.getMessage();
    return message == null ? e.getClass().getSimpleName() : message;
  }

  /** The problem of a file that is no table we know. */
  static Problem unknownTable(String name, List<String> header) {
    return new Problem(
        name,
        1,
        "",
        "a table of "
            + Arrays.stream(TableKind.values())
                .filter(TableKind::inJob)
                .map(TableKind::stem)
                .collect(Collectors.joining(", "))
                .replaceFirst(", (?=[^,]*$)", " or "),
        header.isEmpty() ? "no header" : "columns " + String.join(", ", header),
        "name the file after its table (readings.csv) and give it the table's columns");
  }
}
