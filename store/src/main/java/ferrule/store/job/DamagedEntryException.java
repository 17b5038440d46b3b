package ferrule.store.job;

/** An entry of a job file cannot be what was written: the file was changed outside Ferrule. */
final class DamagedEntryException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  DamagedEntryException(String message) {
    super(message);
  }
}
