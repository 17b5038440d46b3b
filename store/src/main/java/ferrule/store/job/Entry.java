package ferrule.store.job;

import ferrule.store.intake.Sha256;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;

/**
 * One entry of the log, and how its hash is made: SHA-256 over every field in the order of this
 * record (the hash of the entry before first), texts as UTF-8 with their length in bytes before
 * them as four bytes, numbers as eight bytes, both most significant byte first.
 *
 * @param seq 1, 2, 3 without a gap
 * @param id time-ordered UUID
 * @param kind {@link EntryKind#word()}
 * @param name what may stand once in its kind; empty if many may
 * @param content JSON
 * @param intake id of the intake that brought it
 * @param file file it came from
 * @param row row in that file
 * @param enteredAt UTC, ISO 8601
 * @param supersedes the entry it corrects; 0 if none
 * @param why why; empty if it corrects none
 */
record Entry(
    long seq,
    String id,
    String kind,
    String name,
    String content,
    String intake,
    String file,
    long row,
    String enteredAt,
    long supersedes,
    String why) {

  /** The "hash of the entry before" of the first entry. */
  static final byte[] BEFORE_THE_FIRST = new byte[32];

  byte[] hash(byte[] before, MessageDigest digest) {
    digest.reset();
    digest.update(before);
    number(digest, seq);
    text(digest, id);
    text(digest, kind);
    text(digest, name);
    text(digest, content);
    text(digest, intake);
    text(digest, file);
    number(digest, row);
    text(digest, enteredAt);
    number(digest, supersedes);
    text(digest, why);
    return digest.digest();
  }

  /** The same entry at another place of another log. */
  Entry placed(long newSeq, long newSupersedes, String newWhy) {
    return new Entry(
        newSeq, id, kind, name, content, intake, file, row, enteredAt, newSupersedes, newWhy);
  }

  /** Whether another is this one, wherever the two stand in their logs. */
  boolean isSameAs(Entry other) {
    return id.equals(other.id)
        && kind.equals(other.kind)
        && name.equals(other.name)
        && content.equals(other.content)
        && intake.equals(other.intake)
        && file.equals(other.file)
        && row == other.row
        && enteredAt.equals(other.enteredAt);
  }

  /** What it says, told apart from all else that is said. */
  String said() {
    return kind + "\n" + content;
  }

  /** SHA-256 of what it says, wherever and whenever it was entered. */
  static byte[] digest(String kind, String content) {
    MessageDigest digest = Sha256.digest();
    digest.update(kind.getBytes(StandardCharsets.UTF_8));
    digest.update((byte) '\n');
    return digest.digest(content.getBytes(StandardCharsets.UTF_8));
  }

  private static void text(MessageDigest digest, String text) {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    digest.update(ByteBuffer.allocate(4).putInt(bytes.length).flip());
    digest.update(bytes);
  }

  private static void number(MessageDigest digest, long number) {
    digest.update(ByteBuffer.allocate(8).putLong(number).flip());
  }
}
