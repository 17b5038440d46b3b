package ferrule.store.job;

import java.sql.SQLException;

/** Where entries are read from: a job file's table, or the open text of a record. */
interface EntrySource {

  /** Takes entries one after another. */
  @FunctionalInterface
  interface Visitor {
    void visit(Entry entry) throws SQLException;
  }

  /**
   * Reads every entry in order, checking the chain.
   *
   * @throws DamagedEntryException if an entry is not what was written
   */
  void readAll(Visitor visitor) throws SQLException;

  /** Number of the last entry that was read; 0 before {@link #readAll}. */
  long lastSeq();

  /** Hash of the last entry that was read. */
  byte[] lastHash();
}
