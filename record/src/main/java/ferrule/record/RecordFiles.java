package ferrule.record;

/** Names of the files of a record. A contract: add, never rename. */
public final class RecordFiles {

  /** The pages. */
  public static final String PAGES = "record.pdf";

  /** What a record says of itself: format, title, time, version, head of the chain, key. */
  public static final String ABOUT = "record.json";

  /** Everything on the pages and more, for programs. */
  public static final String JUDGEMENT = "judgement.json";

  /** A row for each fibre. */
  public static final String FIBRES = "fibres.csv";

  /** A row for each reading. */
  public static final String READINGS = "readings.csv";

  /** Every entry of the job in its chain of hashes. */
  public static final String ENTRIES = "entries.jsonl";

  /** The job's paper. */
  public static final String PAPER = "job.toml";

  /** The rulebook, as a rulebook file. */
  public static final String RULEBOOK = "rulebook.toml";

  /** The rulebook, to read. */
  public static final String RULEBOOK_TEXT = "rulebook.txt";

  /** What every column and key means. */
  public static final String DICTIONARY = "dictionary.csv";

  /** Which file is what. */
  public static final String README = "README.txt";

  /** The page that checks a record in a browser. */
  public static final String AUDIT_PAGE = "audit.html";

  /** Grades of end faces, if there are any. */
  public static final String GRADES = "faces.jsonl";

  /** The folder of their pictures. */
  public static final String PICTURES = "pictures";

  /** Which links carry what the job wants, if it wants anything. */
  public static final String APPLICATIONS = "applications.csv";

  /** What is otherwise than in the issue before, if this is not the first. */
  public static final String CHANGES = "changes.csv";

  /** The open half of the key that signed it. */
  public static final String PUBLIC_KEY = "public-key.pem";

  /** The hash of each file but itself and the signature. */
  public static final String INDEX = "index.txt";

  /** The signature over the index: 64 bytes. */
  public static final String SIGNATURE = "index.sig";

  /** A time stamp token over the index, if somebody has put one there. */
  public static final String TIME_STAMP = "index.tsr";

  private RecordFiles() {}
}
