package ferrule.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Join, history and backup, through the command. */
class JoinedJobsTest {

  private static final Path LIBRARY = Ran.ROOT.resolve("examples/library");

  @TempDir private Path temp = Path.of("");

  /** A folder like the library, with some of its readings. */
  private Path folder(String name, int from, int to) throws IOException {
    Path folder = Files.createDirectory(temp.resolve(name));
    try (Stream<Path> files = Files.list(LIBRARY)) {
      for (Path file : files.toList()) {
        Files.copy(file, folder.resolve(file.getFileName()));
      }
    }
    List<String> readings = Files.readAllLines(folder.resolve("readings.csv"));
    List<String> some = new ArrayList<>(List.of(readings.get(0)));
    some.addAll(readings.subList(from, to));
    Files.write(folder.resolve("readings.csv"), some);
    return folder;
  }

  private static void edit(Path file, String old, String now) throws IOException {
    String text = Files.readString(file);
    assertThat(text).contains(old);
    Files.writeString(file, text.replace(old, now));
  }

  private String job(String name) {
    return temp.resolve(name + ".ferrule").toString();
  }

  private String made(Path folder, String by) {
    String job = job(String.valueOf(folder.getFileName()));
    Ran ran = Ran.here("new", job, "--from", folder.toString(), "--by", by);
    assertThat(ran.err()).isEmpty();
    return job;
  }

  private Ran joined(String one, String other, String into) {
    return Ran.here("join", one, other, "--into", job(into));
  }

  @Test
  void theJobsOfTwoCrewsAreJudgedToTheByteLikeTheJobMadeAlone() throws IOException {
    String north = made(folder("north", 1, 14), "Wren");
    String south = made(folder("south", 12, 24), "Finch");
    Ran ran = joined(north, south, "site");
    assertThat(ran.err()).isEmpty();
    assertThat(ran.code()).isEqualTo(ExitCode.DONE);
    // 37 and 36 entries; 20 rows of papers and 2 readings in common, the paper's among them.
    assertThat(ran.out().lines())
        .containsExactly(
            north + ": 37 entries",
            south + ": 36 entries",
            job("site") + ": 53 entries; 21 were in both and stand once",
            "Nothing is said differently in the two");
    assertThat(joined(south, north, "again").code()).isEqualTo(ExitCode.DONE);
    String alone = Ran.here("judge", made(folder("alone", 1, 24), ""), "--json").out();
    assertThat(Ran.here("judge", job("site"), "--json").out()).isEqualTo(alone);
    assertThat(Ran.here("judge", job("again"), "--json").out()).isEqualTo(alone);
    assertThat(Ran.here("history", job("site"), "--json").out().replace("site.ferrule", ""))
        .isEqualTo(Ran.here("history", job("again"), "--json").out().replace("again.ferrule", ""));
    String head = "head ";
    String checked = Ran.here("history", job("site"), "--check").out();
    for (String part : List.of(north, south)) {
      String of = Ran.here("history", part, "--check").out();
      assertThat(checked).contains(of.substring(of.indexOf(head) + head.length()).substring(0, 64));
    }
  }

  @Test
  void whatTwoCrewsEnteredDifferentlyIsListedByJoinAndJudgeUntilItIsSettled() throws IOException {
    String north = made(folder("north", 1, 14), "Wren");
    Path other = folder("south", 14, 24);
    edit(other.resolve("links.csv"), "L02,OS2,2,240", "L02,OS2,2,261.5");
    Ran ran = joined(north, made(other, "Finch"), "site");
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    assertThat(ran.out())
        .contains("1 thing is said differently in the two; judge lists it until it is settled")
        .contains("  links.csv, row 3, length_m: expected 240.0, as entered for link L02 at ");
    assertThat(Ran.here("judge", job("site")).out())
        .contains("paper-conflict, The papers contradict each other: link L02 (two crews")
        .contains("What was handed in and could not be used as it stood");
    String links = other.resolve("links.csv").toString();
    Ran settled = Ran.here("add", job("site"), links, "--supersede", "as surveyed", "--by", "Lead");
    assertThat(settled.code()).isEqualTo(ExitCode.DONE);
    assertThat(Ran.here("judge", job("site")).out())
        .doesNotContain("two crews")
        .doesNotContain("What was handed in and");
    assertThat(Ran.here("history", job("site"), "--fibre", "L02/1").out())
        .contains("link L02: OS2, 2 fibres, 240.0 m, 1 connection, 0 splices")
        .contains("links.csv, row 3, handed in by Wren")
        .contains("corrects entry 3, length_m 240.0 to 261.5: joined: entered apart under")
        .contains(", with the same values: as surveyed")
        .contains("links.csv, row 3, handed in by Lead");
  }

  @Test
  void historyTellsAFibreAZeroAndACord() throws IOException {
    String job = made(folder("site", 1, 24), "Wren");
    String fibre = Ran.here("history", job, "--fibre", "L02/2").out();
    assertThat(fibre.lines().filter(l -> l.contains("L02/2 A-B 1310 nm: 2.56 dB, -7.68 dBm, zero")))
        .hasSize(1)
        .allMatch(l -> l.endsWith("R1, read 2026-10-05 08:12"));
    assertThat(fibre).contains("readings.csv, row 13, measured by Wren, handed in by Wren");
    assertThat(fibre).contains(": 5 of 47 entries; the chain of hashes is whole, head ");
    assertThat(Ran.here("history", job, "--zero", "R2").out())
        .contains("zero R2 B-A 1300 nm: -20.75 dBm, verified 0.03 dB, one-cord, cords MM-L")
        .contains("L03/2 B-A 1300 nm: 0.27 dB")
        .doesNotContain("L02");
    assertThat(Ran.here("history", job, "--cord", "SM-L").out())
        .contains("cord SM-L: ")
        .contains("zero R1 B-A 1550 nm")
        .contains(": 5 of 47 entries");
    JsonNode json = new ObjectMapper().readTree(Ran.here("history", job, "--json").out());
    assertThat(json.get("entries").asInt()).isEqualTo(47);
    assertThat(json.get("history")).hasSize(47);
    assertThat(json.get("history").get(1).get("content").get("link").asText()).isEqualTo("L01");
    assertThat(json.get("history").get(1).get("entered_by").asText()).isEqualTo("Wren");
    assertThat(json.get("history").get(1).get("superseded_by").isNull()).isTrue();
    for (String[] unknown :
        List.of(
            new String[] {"history", job, "--fibre", "L09/1"},
            new String[] {"history", job, "--fibre", "L01"},
            new String[] {"history", job, "--zero", "R9"},
            new String[] {"history", job, "--cord", "X"})) {
      Ran refused = Ran.here(unknown);
      assertThat(refused.code()).isEqualTo(ExitCode.BAD_INPUT);
      assertThat(refused.err().lines()).hasSize(1);
      assertThat(refused.out()).isEmpty();
    }
  }

  @Test
  void aBackupIsTheJobAndOverwritesNothing() throws IOException {
    String job = made(folder("site", 1, 24), "Wren");
    String copy = job("copy");
    Ran ran = Ran.here("backup", job, copy);
    assertThat(ran.code()).isEqualTo(ExitCode.DONE);
    assertThat(ran.out()).startsWith(copy + " holds 47 entries and is whole; head ");
    assertThat(Ran.here("history", copy, "--json").out().replace("copy.ferrule", ""))
        .isEqualTo(Ran.here("history", job, "--json").out().replace("site.ferrule", ""));
    byte[] before = Files.readAllBytes(Path.of(copy));
    Ran again = Ran.here("backup", job, copy);
    assertThat(again.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(again.err().lines()).hasSize(1);
    assertThat(Files.readAllBytes(Path.of(copy))).isEqualTo(before);
    assertThat(Ran.here("add", copy, LIBRARY.resolve("readings.csv").toString()).code()).isZero();
  }

  private static void sql(Path path, String statement) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + path);
        Statement run = connection.createStatement()) {
      run.execute(statement);
    }
  }

  /** Files that are no good, each with a piece of the line that must be said of it. */
  private Map<Path, String> noGood(Path good) throws IOException, SQLException {
    byte[] bytes = Files.readAllBytes(good);
    Map<Path, String> bad = new LinkedHashMap<>();
    bad.put(temp.resolve("missing"), "expected a job file; found no file");
    bad.put(Files.createDirectory(temp.resolve("dir")), "expected a job file; found a folder");
    bad.put(Files.writeString(temp.resolve("text"), "link,fibre\n"), "found another kind of file");
    bad.put(Files.write(temp.resolve("empty"), new byte[0]), "found another kind of file");
    Path other = temp.resolve("other");
    sql(other, "CREATE TABLE entry (seq INTEGER)");
    bad.put(other, "found another program's database");
    Path newer = Files.copy(good, temp.resolve("newer"));
    sql(newer, "PRAGMA user_version = 99");
    bad.put(newer, "expected a job file up to format 5; found format 99; open it with");
    Path cut = temp.resolve("cut");
    Files.write(cut, java.util.Arrays.copyOf(bytes, bytes.length / 2));
    bad.put(cut, "go back to a copy");
    int at = new String(bytes, StandardCharsets.ISO_8859_1).indexOf("\"loss_db\":2.56");
    assertThat(at).isPositive();
    byte[] flipped = bytes.clone();
    flipped[at + "\"loss_db\":".length()] ^= 1;
    bad.put(Files.write(temp.resolve("flipped"), flipped), "with a hash that does not fit");
    return bad;
  }

  @Test
  void whatIsNoGoodJobFileIsOneLineAndChangesNothingWhateverTheCommand() throws Exception {
    String good = made(folder("site", 1, 24), "Wren");
    String readings = LIBRARY.resolve("readings.csv").toString();
    for (Map.Entry<Path, String> bad : noGood(Path.of(good)).entrySet()) {
      Path path = bad.getKey();
      byte[] before = Files.isRegularFile(path) ? Files.readAllBytes(path) : new byte[0];
      List<String[]> commands =
          List.of(
              new String[] {"history", path.toString()},
              new String[] {"history", path.toString(), "--check", "--json"},
              new String[] {"backup", path.toString(), job("new")},
              new String[] {"join", path.toString(), good, "--into", job("new")},
              new String[] {"join", good, path.toString(), "--into", job("new")},
              new String[] {"add", path.toString(), readings});
      for (String[] command : commands) {
        Ran ran = Ran.here(command);
        assertThat(ran.code()).as(String.join(" ", command)).isEqualTo(ExitCode.BAD_INPUT);
        assertThat(ran.err().lines()).as(String.join(" ", command)).hasSize(1);
        assertThat(ran.err()).startsWith(path + ": ").contains(bad.getValue());
        assertThat(Files.exists(Path.of(job("new")))).isFalse();
      }
      assertThat(Files.isRegularFile(path) ? Files.readAllBytes(path) : new byte[0])
          .isEqualTo(before);
    }
  }
}
