package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.store.Fixtures;
import ferrule.store.intake.Sha256;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Job files changed behind Ferrule's back, clumsily or with care. */
class JobFileDamageTest {

  private static final String[] NO_TRIGGERS = {
    "DROP TRIGGER entry_is_never_edited", "DROP TRIGGER entry_is_never_removed"
  };

  private final Path temp;
  private Path folder = Path.of("");
  private Path good = Path.of("");
  private Path path = Path.of("");

  JobFileDamageTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeEach
  void makeTheMill() throws JobFileException, IOException, SQLException {
    folder = Fixtures.mill(temp);
    good = temp.resolve("good.ferrule");
    path = temp.resolve("mill.ferrule");
    JobFiles.create(good, folder);
    Fixtures.edit(folder.resolve("links.csv"), "L02,OS2,2,240", "L02,OS2,2,261.5");
    JobFiles.add(
        good, JobFiles.tables(folder.resolve("links.csv")), java.util.Optional.of("as surveyed"));
    JobFiles.sql(good, NO_TRIGGERS);
    JobFiles.sql(good, "PRAGMA wal_checkpoint(TRUNCATE)");
    fresh();
  }

  private void fresh() throws IOException {
    for (String ending : List.of("", "-wal", "-shm")) {
      Files.deleteIfExists(Path.of(path + ending));
    }
    Files.copy(good, path);
  }

  private String damaged(String what) {
    return path
        + ": expected entries as they were written; found "
        + what
        + "; the file was changed outside Ferrule or is damaged: go back to a copy";
  }

  private void assertRefusedEverywhere(String line) throws Exception {
    assertThat(JobFiles.refusal(path)).isEqualTo(line);
    List<String> before = JobFiles.query(path, "SELECT count(*), max(hash) FROM entry");
    assertThatThrownBy(() -> JobFiles.add(path, JobFiles.tables(folder.resolve("cords.csv"))))
        .isInstanceOf(JobFileException.class)
        .hasMessage(line);
    assertThat(JobFiles.query(path, "SELECT count(*), max(hash) FROM entry")).isEqualTo(before);
  }

  @Test
  void anyChangeOfAnyHashedFieldIsRefusedByTheNumberOfItsEntry() throws Exception {
    SplittableRandom random = new SplittableRandom(4);
    int entries = Integer.parseInt(JobFiles.query(good, "SELECT max(seq) FROM entry").get(0));
    for (String change :
        List.of(
            "id = id || 'x'",
            "kind = CASE kind WHEN 'link' THEN 'cord' ELSE 'link' END",
            "name = name || ' '",
            "content = content || ' '",
            "content = replace(content, '1', '2')",
            "intake = substr(intake, 2)",
            "file = 'x' || file",
            "row = row + 1",
            "entered_at = replace(entered_at, '2026', '2025')",
            "supersedes = CASE WHEN supersedes IS NULL THEN 1 END",
            "why = why || '.'",
            "prev = CAST(substr(prev, 1, 31) || x'7f' AS BLOB)",
            "hash = zeroblob(32)",
            "hash = x''")) {
      for (int i = 0; i < 4; i++) {
        fresh();
        int seq = 2 + random.nextInt(entries - 2);
        JobFiles.sql(
            path,
            "PRAGMA foreign_keys = OFF",
            "UPDATE entry SET " + change + " WHERE seq = " + seq);
        boolean same =
            JobFiles.query(path, "SELECT * FROM entry WHERE seq = " + seq)
                .equals(JobFiles.query(good, "SELECT * FROM entry WHERE seq = " + seq));
        if (!same) {
          assertThat(JobFiles.refusal(path))
              .as(change)
              .isEqualTo(damaged("entry " + seq + " with a hash that does not fit"));
        }
      }
    }
  }

  @Test
  void anyFlippedByteOfContentOrHashIsRefusedByTheNumberOfItsEntry() throws Exception {
    SplittableRandom random = new SplittableRandom(5);
    int entries = Integer.parseInt(JobFiles.query(good, "SELECT max(seq) FROM entry").get(0));
    for (int i = 0; i < 40; i++) {
      fresh();
      int seq = 1 + random.nextInt(entries);
      String column = List.of("content", "hash", "prev").get(random.nextInt(3));
      flip(column, seq, random);
      assertThat(JobFiles.refusal(path))
          .isEqualTo(damaged("entry " + seq + " with a hash that does not fit"));
    }
  }

  private void flip(String column, int seq, SplittableRandom random) throws SQLException {
    try (Connection connection = JobFiles.connect(path);
        PreparedStatement select =
            connection.prepareStatement("SELECT " + column + " FROM entry WHERE seq = ?");
        PreparedStatement update =
            connection.prepareStatement("UPDATE entry SET " + column + " = ? WHERE seq = ?")) {
      select.setInt(1, seq);
      try (var row = select.executeQuery()) {
        row.next();
        if (column.equals("content")) {
          char[] text = row.getString(1).toCharArray();
          int at = random.nextInt(text.length);
          text[at] = (char) (text[at] ^ 1);
          update.setString(1, new String(text));
        } else {
          byte[] bytes = row.getBytes(1);
          bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
          update.setBytes(1, bytes);
        }
      }
      update.setInt(2, seq);
      update.executeUpdate();
    }
  }

  @Test
  void entriesTakenOutPutInOrExchangedAreRefused() throws Exception {
    JobFiles.sql(path, "DELETE FROM entry WHERE seq = 7");
    assertRefusedEverywhere(damaged("entry 7 with a hash that does not fit"));

    fresh();
    JobFiles.sql(path, "DELETE FROM entry WHERE seq = 1");
    assertRefusedEverywhere(damaged("entry 1 with a hash that does not fit"));

    fresh();
    JobFiles.sql(
        path,
        "UPDATE entry SET seq = -8 WHERE seq = 8",
        "UPDATE entry SET seq = 8 WHERE seq = 9",
        "UPDATE entry SET seq = 9 WHERE seq = -8");
    assertRefusedEverywhere(damaged("entry 8 with a hash that does not fit"));

    fresh();
    JobFiles.sql(path, "UPDATE entry SET seq = seq + 100 WHERE seq >= 10");
    assertRefusedEverywhere(damaged("entry 10 with a hash that does not fit"));

    fresh();
    JobFiles.sql(
        path,
        "INSERT OR REPLACE INTO entry SELECT 3, 'x', kind, name, content, digest, intake, file,"
            + " row, entered_at, supersedes, why, prev, hash FROM entry WHERE seq = 4");
    assertRefusedEverywhere(damaged("entry 3 with a hash that does not fit"));

    fresh();
    JobFiles.sql(path, "DELETE FROM entry");
    assertThat(JobFiles.refusal(path)).isEqualTo(damaged("no paper of the job"));
  }

  @Test
  void entriesTakenOffTheEndShowOnlyInTheHeadHash() throws Exception {
    // A chain cannot know what should follow: this is why a record quotes the head.
    StoredJob whole = JobFiles.load(path);
    JobFiles.sql(path, "DELETE FROM entry WHERE seq = (SELECT max(seq) FROM entry)");
    StoredJob cut = JobFiles.load(path);
    assertThat(cut.entries()).isEqualTo(whole.entries() - 1);
    assertThat(cut.head()).isNotEqualTo(whole.head());
  }

  /** Appends an entry that the chain cannot find fault with. */
  private void forge(String kind, String name, String content, long supersedes) throws Exception {
    forge(1, kind, name, content, supersedes);
  }

  private void forge(int step, String kind, String name, String content, long supersedes)
      throws Exception {
    fresh();
    try (Connection connection = JobFiles.connect(path);
        PreparedStatement last =
            connection.prepareStatement("SELECT seq, hash FROM entry ORDER BY seq DESC LIMIT 1");
        PreparedStatement insert =
            connection.prepareStatement(
                "INSERT INTO entry VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")) {
      try (var row = last.executeQuery()) {
        row.next();
        byte[] before = row.getBytes(2);
        Entry entry =
            new Entry(
                row.getLong(1) + step,
                "fffffff0-0000-7000-8000-000000000000",
                kind,
                name,
                content,
                "i",
                "f",
                1,
                "2026-10-06T07:00:00Z",
                supersedes,
                supersedes == 0 ? "" : "why");
        insert.setLong(1, entry.seq());
        insert.setString(2, entry.id());
        insert.setString(3, kind);
        insert.setString(4, name);
        insert.setString(5, content);
        insert.setBytes(6, Entry.digest(kind, content));
        insert.setString(7, "i");
        insert.setString(8, "f");
        insert.setLong(9, 1);
        insert.setString(10, entry.enteredAt());
        if (supersedes != 0) {
          insert.setLong(11, supersedes);
        }
        insert.setString(12, entry.why());
        insert.setBytes(13, before);
        insert.setBytes(14, entry.hash(before, Sha256.digest()));
      }
      insert.executeUpdate();
    }
  }

  private void assertForgedIsRefused(
      String kind, String name, String content, long supersedes, String what) throws Exception {
    forge(kind, name, content, supersedes);
    long seq = Long.parseLong(JobFiles.query(path, "SELECT max(seq) FROM entry").get(0));
    assertThat(JobFiles.refusal(path))
        .startsWith(
            damaged("entry " + seq + " with " + what).replaceFirst("; the file was changed.*", ""));
  }

  @Test
  void forgedEntriesWithRightHashesAreRefusedForWhatTheySay() throws Exception {
    String link = JobFiles.query(good, "SELECT content FROM entry WHERE name = 'L01'").get(0);
    String reading =
        JobFiles.query(good, "SELECT content FROM entry WHERE kind = 'reading' LIMIT 1").get(0);
    long seq =
        Long.parseLong(
            JobFiles.query(good, "SELECT min(seq) FROM entry WHERE name = 'L02'").get(0));
    long l01 =
        Long.parseLong(JobFiles.query(good, "SELECT seq FROM entry WHERE name = 'L01'").get(0));

    assertForgedIsRefused("verdict", "", "{}", 0, "an unknown kind: verdict");
    assertForgedIsRefused("link", "L09", "not json", 0, "content that is no JSON");
    assertForgedIsRefused("link", "L09", "[1]", 0, "content that is no JSON object");
    assertForgedIsRefused("link", "L09", "{}", 0, "content that is no link");
    assertForgedIsRefused("reading", "", "{}", 0, "content that is no reading");
    assertForgedIsRefused(
        "reading",
        "",
        reading.replaceFirst("\"loss_db\":[^,]*", "\"loss_db\":\"Infinity\""),
        0,
        "content that is no reading");
    assertForgedIsRefused(
        "reading",
        "",
        reading.replaceFirst("\"loss_db\":[^,]*", "\"loss_db\":1e999"),
        0,
        "content that is no reading");
    assertForgedIsRefused(
        "reading",
        "",
        reading.replaceFirst("\"measured_at\":\"[^\"]*", "\"measured_at\":\"2026-02-30T00:00:00Z"),
        0,
        "content that is no reading");
    assertForgedIsRefused(
        "intake", "", "{\"problems\":[{\"row\":\"x\"}]}", 0, "content that is no");
    assertForgedIsRefused("intake", "", "{\"problems\":[{", 0, "content that is no intake");
    assertForgedIsRefused("join", "", "[1]", 0, "content that is no join");
    assertForgedIsRefused("join", "", "{\"of\":[{", 0, "content that is no join");
    assertForgedIsRefused(
        "join", "", "{\"of\":[{\"entries\":\"x\"}]}", 0, "content that is no join");
    assertForgedIsRefused(
        "join", "", "{\"conflicts\":[{\"kind\":\"verdict\"}]}", 0, "an unknown kind: verdict");
    assertForgedIsRefused("link", "L09", link, 0, "the name L09 over the content of L01");
    assertForgedIsRefused(
        "link", "L01", link, 0, "the name L01 of entry " + l01 + ", which it does not correct");
    assertForgedIsRefused(
        "link", "L01", link, l01 + 2, "the name L01 of entry " + l01 + ", which it does not");
    assertForgedIsRefused(
        "reading", "", reading, l01, "a correction of entry " + l01 + ", which does not hold");
    assertForgedIsRefused("job", "", "{}", 0, "the name ");
    // The unique index lets nobody correct one entry twice.
    assertThatThrownBy(() -> forge("link", "L02", link.replace("L01", "L02"), seq))
        .isInstanceOf(SQLException.class);
  }

  @Test
  void aForgedGapInTheNumbersIsRefused() throws Exception {
    String reading =
        JobFiles.query(good, "SELECT content FROM entry WHERE kind = 'reading' LIMIT 1").get(0);
    forge(1, "reading", "", reading, 0);
    long seq = JobFiles.load(path).entries();
    forge(2, "reading", "", reading, 0);
    assertThat(JobFiles.refusal(path))
        .isEqualTo(damaged("entry " + seq + " with a hash that does not fit"));
  }

  @Test
  void aForgedPaperThatIsNotUnderstoodIsRefused() throws Exception {
    forge("job", "job", "{\"toml\":\"title = \"}", 1);
    assertThat(JobFiles.refusal(path))
        .startsWith(path + ": expected entries as they were written; found a paper that is not");
  }

  @Test
  void deeplyNestedContentIsRefused() throws Exception {
    assertForgedIsRefused(
        "link", "L09", "{\"link\":" + "[".repeat(100_000), 0, "content that is no JSON");
  }

  @Test
  void anotherTableOfEntriesIsRefused() throws Exception {
    JobFiles.sql(path, "ALTER TABLE entry RENAME TO entries");
    assertThat(JobFiles.refusal(path))
        .startsWith(path + ": expected the table of entries as Ferrule made it; found ")
        .endsWith("the file was changed outside Ferrule or is damaged: go back to a copy");

    fresh();
    JobFiles.sql(
        path,
        "ALTER TABLE entry RENAME TO old",
        "CREATE TABLE entry AS SELECT * FROM old",
        "UPDATE entry SET file = NULL WHERE seq = 5");
    assertThat(JobFiles.refusal(path))
        .isEqualTo(damaged("an entry with nothing in a column that must be filled"));
  }

  @Test
  void aFileCutOffAnywhereIsRefused() throws Exception {
    byte[] whole = Files.readAllBytes(good);
    for (int length : new int[] {0, 1, 15, 16, 99, 100, 1_000, 4_095, 4_096, 10_000, 20_000}) {
      fresh();
      Files.write(path, Arrays.copyOf(whole, length));
      assertThat(JobFiles.refusal(path)).as("cut to " + length).startsWith(path + ": expected ");
    }
    for (int pages = 2; pages < whole.length / 4_096; pages += 3) {
      fresh();
      Files.write(path, Arrays.copyOf(whole, pages * 4_096));
      assertThat(JobFiles.refusal(path)).as("cut to " + pages).startsWith(path + ": expected ");
    }
  }

  @Test
  void flippedBytesOfTheFileNeverThrowAnythingElseAndNeverChangeWhatIsRead() throws Exception {
    StoredJob whole = JobFiles.load(good);
    byte[] bytes = Files.readAllBytes(good);
    SplittableRandom random = new SplittableRandom(77);
    int refused = 0;
    for (int i = 0; i < 120; i++) {
      fresh();
      byte[] spoilt = bytes.clone();
      // Half of the flips where they hurt most: in the head and the schema.
      int at = random.nextInt(i % 2 == 0 ? 4_096 : spoilt.length);
      spoilt[at] ^= (byte) (1 << random.nextInt(8));
      Files.write(path, spoilt);
      try {
        StoredJob stored = JobFiles.load(path);
        assertThat(stored.head()).as("byte " + at).isEqualTo(whole.head());
        assertThat(stored.job()).isEqualTo(whole.job());
      } catch (JobFileException e) {
        assertThat(JobFiles.line(e)).startsWith(path.toString());
        refused++;
      }
    }
    assertThat(refused).isGreaterThan(20);
  }
}
