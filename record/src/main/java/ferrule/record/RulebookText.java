package ferrule.record;

import ferrule.core.rulebook.Rulebook;
import ferrule.record.page.FigureTable;
import ferrule.record.page.Show;

/** A rulebook as plain text: every figure with its source. */
final class RulebookText {

  private RulebookText() {}

  static String of(Rulebook rulebook) {
    StringBuilder text = new StringBuilder();
    text.append(rulebook.title()).append('\n');
    text.append("Rulebook ").append(rulebook.id()).append('\n');
    text.append("Editions: ").append(rulebook.edition()).append('\n');
    for (String note : rulebook.notes()) {
      text.append("Note: ").append(note).append('\n');
    }
    for (FigureTable table : FigureTable.all(rulebook)) {
      text.append('\n').append(table.title()).append('\n');
      for (FigureTable.Row row : table.rows()) {
        text.append("  ").append(row.what()).append(": ").append(row.value());
        text.append(row.source().fromMemory() ? " " + Show.DAGGER : "").append('\n');
        text.append("      ").append(row.source().line()).append('\n');
        if (!row.source().fromMemory()) {
          text.append("      seen in: ").append(row.source().seenIn()).append('\n');
        }
      }
    }
    return text.append('\n')
        .append(Show.DAGGER)
        .append(" from memory: confirm against the standard\n")
        .toString();
  }
}
