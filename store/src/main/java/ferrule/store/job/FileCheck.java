package ferrule.store.job;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;

/**
 * What a job file that was checked whole holds.
 *
 * @param format of the file
 * @param entries number of entries, each with the hash that fits
 * @param head hash of the last, lower-case hex
 * @param pictures kept with it, each under its hash
 * @param joined heads of the files that went into it, computed again from what it holds
 */
public record FileCheck(int format, long entries, String head, int pictures, List<String> joined) {

  /** Copies the list. */
  public FileCheck {
    joined = List.copyOf(joined);
  }

  /** SQLite's own check of its pages, indexes and constraints. */
  static void integrity(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("PRAGMA integrity_check(1)")) {
      String found = rows.next() ? rows.getString(1) : "nothing";
      if (!"ok".equals(found)) {
        throw new DamagedEntryException("pages that SQLite finds fault with: " + found);
      }
    }
  }
}
