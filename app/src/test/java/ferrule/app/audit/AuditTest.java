package ferrule.app.audit;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import ferrule.app.ExitCode;
import ferrule.record.seal.FileIndex;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Records made and audited through the command. */
class AuditTest {

  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir private static Path made = Path.of("");
  private static Path record = Path.of("");

  private final Path temp;

  AuditTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeAll
  static void make() throws IOException {
    record = Records.library(made);
  }

  private Path copy() throws IOException {
    return Records.copy(record, temp.resolve("copy"));
  }

  private static void change(Path folder, String file, UnaryOperator<String> change)
      throws IOException {
    String before = Files.readString(folder.resolve(file));
    String after = change.apply(before);
    assertThat(after).as("changes %s", file).isNotEqualTo(before);
    Files.writeString(folder.resolve(file), after);
  }

  /** Makes the index fit what is there, as whoever forges a record would. */
  private static void indexAnew(Path folder) throws IOException {
    Files.writeString(
        folder.resolve("index.txt"),
        FileIndex.of(folder).without(List.of("index.txt", "index.sig")).text());
  }

  private static void unsign(Path folder) throws IOException {
    Files.delete(folder.resolve("index.sig"));
    Files.delete(folder.resolve("public-key.pem"));
    change(
        folder, "record.json", t -> t.replaceFirst("\"signed_by\": \".*\"", "\"signed_by\": null"));
    change(
        folder,
        "README.txt",
        t ->
            t.replaceFirst(
                "(?s)This record is signed.*?are true\\.\n",
                "This record is not signed: whoever changes a file can change its hash as well.\n"));
    indexAnew(folder);
  }

  private static List<String> differences(Path folder) throws IOException {
    Records.Run run = Records.run("audit", folder.toString(), "--json");
    JsonNode document = JSON.readTree(run.out());
    assertThat(run.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    assertThat(run.err()).isEmpty();
    assertThat(document.get("agrees").asBoolean()).isFalse();
    Records.Run text = Records.run("audit", folder.toString());
    assertThat(text.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    return text.out()
        .lines()
        .filter(l -> l.startsWith("  ") && l.contains(": "))
        .map(String::strip)
        .toList();
  }

  @Test
  void whatWasNotChangedAgrees() throws IOException {
    Records.Run run = Records.run("audit", record.toString());
    assertThat(run.code()).isEqualTo(ExitCode.DONE);
    assertThat(run.out())
        .contains("Signature   fits, of key ")
        .contains("6 fibres, 23 readings, 2 zeros")
        .contains("All agrees.");
    JsonNode document = JSON.readTree(Records.run("audit", record.toString(), "--json").out());
    assertThat(document.get("agrees").asBoolean()).isTrue();
    assertThat(document.at("/signature/state").asText()).isEqualTo("fits");
    assertThat(document.at("/chain_whole").asBoolean()).isTrue();
    assertThat(document.get("differences")).isEmpty();
    String fingerprint = document.at("/signature/fingerprint").asText();
    assertThat(Records.run("audit", record.toString(), "--key", fingerprint).code()).isZero();
    Records.Run other = Records.run("audit", record.toString(), "--key", "00:" + fingerprint);
    assertThat(other.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    assertThat(other.out()).contains("the key of the record is " + fingerprint + ", not 00");
  }

  @Test
  void everyEntryIsInTheRecordTheCorrectedOneToo() throws IOException {
    List<String> lines = Files.readAllLines(record.resolve("entries.jsonl"));
    assertThat(lines)
        .filteredOn(l -> l.contains("\\\"link\\\":\\\"L01\\\"") && l.contains("\"kind\":\"link\""))
        .hasSize(2);
    assertThat(lines).anyMatch(l -> l.contains("measured with a wheel"));
    assertThat(Files.readString(record.resolve("job.toml")))
        .isEqualTo(Files.readString(Records.LIBRARY.resolve("job.toml")));
  }

  @Test
  void theSameJobKeyAndTimeGiveTheSameBytes() throws IOException {
    Path again = Records.record(made.resolve("library.ferrule"), temp.resolve("again"));
    assertThat(FileIndex.of(again)).isEqualTo(FileIndex.of(record));
  }

  @Test
  void aFolderGivesTheSameBytesTwiceAndAuditsTheSame() throws IOException {
    Path one = Records.record(Records.LIBRARY, temp.resolve("one"));
    Path two = Records.record(Records.LIBRARY, temp.resolve("two"));
    assertThat(FileIndex.of(one)).isEqualTo(FileIndex.of(two));
    Records.Run run = Records.run("audit", one.toString());
    assertThat(run.code()).as(run.out()).isZero();
    assertThat(run.out()).contains("a job folder has no history");
  }

  @Test
  void aLieThatFitsItsHashIsFoundByComputingAnew() throws IOException {
    Path forged = copy();
    change(forged, "fibres.csv", t -> t.replace("L02/2,failed", "L02/2,proved"));
    change(forged, "readings.csv", t -> t.replace(",reject,", ",accept,"));
    change(
        forged,
        "judgement.json",
        t -> t.replace("\"standing\":\"failed\"", "\"standing\":\"proved\""));
    change(forged, "rulebook.toml", t -> t.replaceFirst("limit_db = 0.75", "limit_db = 0.95"));
    change(forged, "job.toml", t -> t.replace("\"simple\"", "\"guarded\""));
    unsign(forged);
    List<String> found = differences(forged);
    assertThat(found)
        .anyMatch(
            l ->
                l.startsWith(
                    "fibres.csv, line 5, L02/2 L02, standing: the record says proved; failed"))
        .anyMatch(
            l ->
                l.matches(
                    "readings.csv, line \\d+, L02/2 A-B 1310 .*decision: the record says accept; reject follows"))
        .anyMatch(
            l ->
                l.startsWith(
                    "judgement.json, L02/2, standing: the record says proved; failed follows"))
        .anyMatch(l -> l.startsWith("rulebook.toml, line "))
        .anyMatch(l -> l.startsWith("job.toml, line "));
  }

  @Test
  void aReadingMadeBetterBreaksTheChain() throws IOException {
    Path forged = copy();
    change(forged, "entries.jsonl", t -> t.replace("\\\"loss_db\\\":2.56", "\\\"loss_db\\\":2.16"));
    unsign(forged);
    assertThat(differences(forged))
        .singleElement()
        .asString()
        .matches("entries.jsonl, line \\d+: .*hash that does not fit.*");
  }

  @Test
  void whoeverIndexesAnewCannotSignAnew() throws IOException {
    Path forged = copy();
    change(forged, "README.txt", t -> t + "All is well.\n");
    indexAnew(forged);
    assertThat(differences(forged))
        .anyMatch(l -> l.startsWith("index.sig: it is not a signature of this key over this index"))
        .anyMatch(l -> l.startsWith("README.txt, line ") && l.contains("All is well."));
  }

  @Test
  void filesTooFewAndTooManyAreNamed() throws IOException {
    Path changed = copy();
    Files.delete(changed.resolve("rulebook.txt"));
    Files.writeString(changed.resolve("more.txt"), "more");
    assertThat(differences(changed))
        .containsExactlyInAnyOrder(
            "rulebook.txt: not there, though line 13 of the index lists it",
            "more.txt: the index does not list it");
  }

  @Test
  void whatCannotBeReadIsSaidInOneLine() throws IOException {
    Path later = copy();
    change(later, "record.json", t -> t.replace("\"record_format\": 1", "\"record_format\": 2"));
    indexAnew(later);
    Path older = Files.createDirectory(temp.resolve("older"));
    Files.writeString(older.resolve("index.txt"), "");
    Path bare = Records.copy(record, temp.resolve("bare"));
    Files.delete(bare.resolve("index.txt"));
    for (Path folder :
        List.of(
            later, older, bare, temp.resolve("none"), Files.createDirectory(temp.resolve("x")))) {
      Records.Run run = Records.run("audit", folder.toString());
      assertThat(run.code()).as(folder.toString()).isEqualTo(ExitCode.BAD_INPUT);
      assertThat(run.err().strip().lines()).hasSize(1);
      assertThat(run.err()).contains("expected").contains("found").doesNotContain("Exception");
    }
    assertThat(Records.run("audit", later.toString()).err()).contains("format 2, by Ferrule");
    Path wide = Records.copy(record, temp.resolve("wide"));
    try (java.io.RandomAccessFile key =
        new java.io.RandomAccessFile(wide.resolve("public-key.pem").toFile(), "rw")) {
      key.setLength(1L << 20);
    }
    Records.Run run = Records.run("audit", wide.toString());
    assertThat(run.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(run.err().strip().lines()).hasSize(1);
    assertThat(run.err()).contains("larger than that of any record");
  }

  @Test
  void aRecordByAnotherVersionIsComparedAsFarAsBothKnow() throws IOException {
    Path other = copy();
    change(
        other,
        "record.json",
        t -> t.replaceFirst("(\"ferrule_version\": )\"[^\"]*\"", "$1\"0.0.9\""));
    change(other, "README.txt", t -> t.replaceFirst("with Ferrule \\S+", "with Ferrule 0.0.9"));
    change(other, "judgement.json", t -> t.replaceFirst(",\"confirms\":\"[^\"]*\"", ""));
    unsign(other);
    Records.Run run = Records.run("audit", other.toString());
    assertThat(run.code()).as(run.out()).isZero();
    assertThat(run.out())
        .contains("The record is by Ferrule 0.0.9")
        .contains("All that was compared agrees.");
    change(other, "fibres.csv", t -> t.replace("L02/2,failed", "L02/2,proved"));
    indexAnew(other);
    assertThat(differences(other)).anyMatch(l -> l.startsWith("fibres.csv, line 5"));
  }

  @Test
  void aTimeStampTokenIsKeptBesideAndItsHashLookedFor() throws IOException {
    Path stamped = copy();
    Files.writeString(stamped.resolve("index.tsr"), "of something else");
    Records.Run run = Records.run("audit", stamped.toString());
    assertThat(run.code()).isZero();
    assertThat(run.out()).contains("does not hold the SHA-256 hash of this index");
    byte[] hash = java.util.HexFormat.of().parseHex(FileIndex.hash(stamped.resolve("index.txt")));
    Files.write(stamped.resolve("index.tsr"), hash);
    assertThat(Records.run("audit", stamped.toString()).out())
        .contains("holds the hash of this index");
  }

  @Test
  void keysAndTimesThatCannotBeUsedAreOneLine() throws IOException {
    String job = made.resolve("library.ferrule").toString();
    String out = temp.resolve("out").toString();
    for (String[] arguments :
        List.of(
            new String[] {"record", job, "-o", out, "--key", "none.pem"},
            new String[] {"record", job, "-o", out, "--key", "none.pem", "--unsigned"},
            new String[] {"record", job, "-o", out, "--issued-at", "tomorrow"})) {
      Records.Run run = Records.run(arguments);
      assertThat(run.code()).isEqualTo(ExitCode.BAD_INPUT);
      assertThat(run.err().strip().lines()).hasSize(1);
    }
    assertThat(temp.resolve("out")).doesNotExist();
  }

  private static void read(Path job, Path folder, String... rows) throws IOException {
    Path more = Files.createDirectories(folder).resolve("readings.csv");
    Files.writeString(
        more,
        Files.readAllLines(Records.LIBRARY.resolve("readings.csv")).get(0)
            + "\n"
            + String.join("\n", rows)
            + "\n");
    assertThat(Records.run("add", job.toString(), more.toString()).code()).isZero();
  }

  @Test
  void theNextIssueTellsWhatIsOtherwiseAndWhy() throws IOException {
    Path job = Files.copy(made.resolve("library.ferrule"), temp.resolve("library.ferrule"));
    read(
        job,
        temp.resolve("more"),
        "L02,2,A-B,1310,,0.58,240.4,R1,2026-10-05T10:12:00+01:00,Wren",
        "L02,2,B-A,1310,,0.61,240.4,R1,2026-10-05T10:13:00+01:00,Wren",
        "L02,1,B-A,1550,,0.47,240.4,R1,2026-10-05T10:14:00+01:00,Wren");
    Path next = Records.record(job, temp.resolve("next"), "--since", record.toString());
    assertThat(Files.readAllLines(next.resolve("changes.csv")))
        .containsExactly(
            "fibre,was,now,new_readings,what",
            "L02/1,open,proved,1,\"1550 nm B-A: read since, 0.47 dB, accept\"",
            "L02/2,failed,proved,2,\"1310 nm A-B: 2.56 dB before, read again 0.58 dB, accept; 1310"
                + " nm B-A: 2.52 dB before, read again 0.61 dB, accept\"");
    Records.Run run = Records.run("audit", next.toString());
    assertThat(run.code()).as(run.out()).isZero();
    assertThat(run.out()).contains("Record, issue 2, issued");

    Path third = Records.record(job, temp.resolve("third"), "--since", next.toString());
    assertThat(Files.readAllLines(third.resolve("changes.csv"))).hasSize(1);
    assertThat(Files.readString(third.resolve("record.json"))).contains("\"issue\": 3,");

    change(next, "changes.csv", t -> t.replace("failed,proved", "doubtful,proved"));
    change(
        next,
        "record.json",
        t -> t.replaceFirst("\"since_head\": \"....", "\"since_head\": \"0000"));
    unsign(next);
    assertThat(differences(next))
        .anyMatch(
            l ->
                l.startsWith(
                    "changes.csv, line 3, L02/2, was: the record says doubtful; failed follows"))
        .anyMatch(l -> l.startsWith("record.json, since_head: the record says 0000"));
  }

  @Test
  void anIssueFollowsOneOfItsOwnJobOnly() throws IOException {
    Path other = temp.resolve("other.ferrule");
    assertThat(Records.run("new", other.toString(), "--from", Records.LIBRARY.toString()).code())
        .isZero();
    String out = temp.resolve("out").toString();
    for (String[] arguments :
        List.of(
            new String[] {"record", other.toString(), "-o", out, "--since", record.toString()},
            new String[] {"record", other.toString(), "-o", out, "--since", temp.toString()},
            new String[] {
              "record", Records.LIBRARY.toString(), "-o", out, "--since", record.toString()
            })) {
      Records.Run run = Records.run(arguments);
      assertThat(run.code()).isEqualTo(ExitCode.BAD_INPUT);
      assertThat(run.err().strip().lines()).hasSize(1);
    }
    assertThat(temp.resolve("out")).doesNotExist();
  }

  /** Whoever can index anew can leave out what would give him away: that is no agreement. */
  @Test
  void aRecordWithoutWhatItWasMadeFromDoesNotAgree() throws IOException {
    for (String file : List.of("entries.jsonl", "record.json", "judgement.json", "fibres.csv")) {
      Path without = Records.copy(record, temp.resolve("without-" + file));
      unsign(without);
      Files.delete(without.resolve(file));
      indexAnew(without);
      assertThat(differences(without)).as(file).anyMatch(l -> l.startsWith(file + ": "));
    }
    Path vague = Records.copy(record, temp.resolve("vague"));
    unsign(vague);
    Files.writeString(vague.resolve("record.json"), "{}\n");
    indexAnew(vague);
    assertThat(differences(vague)).anyMatch(l -> l.startsWith("record.json: the record says"));
  }
}
