package ferrule.store.intake;

/** What a table is read for. */
public enum Purpose {
  /** To be judged as it stands. */
  JUDGE,
  /** To be stored: the file's SHA-256 is made on the way, to be kept with its rows. */
  STORE
}
