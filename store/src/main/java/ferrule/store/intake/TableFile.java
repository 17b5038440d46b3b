package ferrule.store.intake;

import ferrule.core.Problem;
import java.util.List;

/**
 * A table as taken in from one file or one sheet.
 *
 * @param name file name as given, with "[sheet]" for a further sheet of a workbook
 * @param kind which table
 * @param sha256 of the whole file, lower-case hex; empty unless it was read to be stored
 * @param rows understood rows
 * @param rowNumbers row in the file of each understood row
 * @param rowCount data rows in the file, understood or not
 * @param problems what was wrong with rows
 * @param unknownColumns columns that are not of this table, kept nowhere
 * @param unreadSheets further sheets of the workbook that hold something, kept nowhere
 */
public record TableFile(
    String name,
    TableKind kind,
    String sha256,
    List<TableRow> rows,
    RowNumbers rowNumbers,
    long rowCount,
    List<Problem> problems,
    List<String> unknownColumns,
    List<String> unreadSheets) {}
