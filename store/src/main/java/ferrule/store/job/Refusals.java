package ferrule.store.job;

import ferrule.core.Problem;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** Why a job file cannot be used, each as one line that says what to do. */
final class Refusals {

  private Refusals() {}

  static JobFileException notAJobFile(Path path, String found) {
    return new JobFileException(
        new Problem(
            path.toString(),
            0,
            "",
            "a job file",
            found,
            "make one with ferrule new JOB --from DIR"));
  }

  static JobFileException damaged(Path path, DamagedEntryException e) {
    return new JobFileException(
        new Problem(
            path.toString(),
            0,
            "",
            "entries as they were written",
            String.valueOf(e.getMessage()),
            "the file was changed outside Ferrule or is damaged: go back to a copy"),
        e);
  }

  static JobFileException cannotWrite(Path path, IOException e) {
    return new JobFileException(
        new Problem(
            path.toString(),
            0,
            "",
            "a place that can be written",
            String.valueOf(e.getMessage()),
            "check folder, rights and space"),
        e);
  }

  static JobFileException translate(Path path, SQLException e) {
    String file = path.toString();
    SQLiteErrorCode code =
        e instanceof SQLiteException sqlite
            ? sqlite.getResultCode()
            : SQLiteErrorCode.getErrorCode(e.getErrorCode() & 0xFF);
    if (code == SQLiteErrorCode.SQLITE_IOERR_SHMSIZE) {
      code = SQLiteErrorCode.SQLITE_FULL; // no room for the index of the write-ahead log
    }
    Problem problem =
        switch (SQLiteErrorCode.getErrorCode(code.code & 0xFF)) {
          case SQLITE_BUSY, SQLITE_LOCKED ->
              new Problem(
                  file,
                  0,
                  "",
                  "a job file that nobody else is writing",
                  "another writer at work",
                  "wait until it has finished and try again; nothing was changed");
          case SQLITE_FULL ->
              new Problem(
                  file,
                  0,
                  "",
                  "space on the disk",
                  "a full disk",
                  "make room and try again; nothing was changed");
          case SQLITE_NOTADB ->
              new Problem(
                  file,
                  0,
                  "",
                  "a job file",
                  "another kind of file",
                  "make one with ferrule new JOB --from DIR");
          case SQLITE_CORRUPT ->
              new Problem(
                  file, 0, "", "a whole job file", "a damaged one", "go back to a copy of it");
          case SQLITE_ERROR, SQLITE_SCHEMA, SQLITE_MISMATCH ->
              new Problem(
                  file,
                  0,
                  "",
                  "the table of entries as Ferrule made it",
                  String.valueOf(e.getMessage()),
                  "the file was changed outside Ferrule or is damaged: go back to a copy");
          case SQLITE_READONLY, SQLITE_CANTOPEN, SQLITE_PERM ->
              new Problem(
                  file,
                  0,
                  "",
                  "a file and folder that may be written",
                  "no right to write",
                  "check the rights, or work on a copy elsewhere");
          default ->
              new Problem(
                  file,
                  0,
                  "",
                  "a disk that works",
                  String.valueOf(e.getMessage()),
                  "check space, rights and the disk; nothing was changed");
        };
    return new JobFileException(problem, e);
  }
}
