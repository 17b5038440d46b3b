package ferrule.store.job;

import ferrule.store.intake.TableKind;

/** What an entry of the job file holds. */
enum EntryKind {
  JOB("job"),
  LINK("link"),
  INSTRUMENT("instrument"),
  CORD("cord"),
  REFERENCE("reference"),
  READING("reading"),
  FACE("face"),
  GRADE("grade"),
  PART("part"),
  POLARITY("polarity"),
  INTAKE("intake"),
  JOIN("join");

  private final String word;

  EntryKind(String word) {
    this.word = word;
  }

  String word() {
    return word;
  }

  /** Whether entries of this kind have names, each of which one entry holds at a time. */
  boolean named() {
    return switch (this) {
      case JOB, LINK, INSTRUMENT, CORD, REFERENCE, PART, POLARITY -> true;
      case READING, FACE, GRADE, INTAKE, JOIN -> false;
    };
  }

  static EntryKind of(TableKind table) {
    return switch (table) {
      case LINKS -> LINK;
      case INSTRUMENTS -> INSTRUMENT;
      case CORDS -> CORD;
      case REFERENCES -> REFERENCE;
      case READINGS -> READING;
      case FACES -> FACE;
      case PARTS -> PART;
      case POLARITY -> POLARITY;
      case MATINGS -> throw new IllegalArgumentException("Matings are no part of a job");
    };
  }

  static EntryKind ofWord(String word) {
    for (EntryKind kind : values()) {
      if (kind.word.equals(word)) {
        return kind;
      }
    }
    throw new DamagedEntryException("an unknown kind: " + word);
  }
}
