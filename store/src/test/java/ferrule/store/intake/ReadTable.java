package ferrule.store.intake;

import java.nio.file.Path;

/** A program that reads one table and prints what became of it: to be run with a small heap. */
public final class ReadTable {

  private ReadTable() {}

  /**
   * Reads a table.
   *
   * @param arguments the file
   */
  public static void main(String[] arguments) {
    Path path = Path.of(arguments[0]);
    String name = String.valueOf(path.getFileName());
    TableReader.Outcome outcome =
        TableReader.read(path, name, TableKind.ofFileName(name), Purpose.STORE);
    outcome.tables().forEach(table -> System.out.println("rows " + table.rowCount()));
    outcome.problems().forEach(problem -> System.out.println(problem.line()));
  }
}
