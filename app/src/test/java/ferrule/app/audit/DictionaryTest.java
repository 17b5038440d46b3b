package ferrule.app.audit;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import ferrule.app.demo.DemoSite;
import ferrule.core.plant.FibreId;
import ferrule.record.data.Dictionary;
import ferrule.store.job.JobFileException;
import ferrule.store.job.OpenJob;
import ferrule.store.job.TypedEntries;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The dictionary of a record names what is written, all of it and nothing else. */
class DictionaryTest {

  private static final ObjectMapper JSON = new ObjectMapper();

  /** Names inside these depend on the case. */
  private static final List<String> OPEN = List.of(".evidence.", ".expect_db.");

  /**
   * Written only in cases that none of the jobs below has: a grade whose size lies near its limit,
   * parts whose polish is known, a doubt that cannot be told from something else (its keys are
   * written by the same method as those of a zero), and cords as what would tell.
   */
  private static boolean rare(String name) {
    return List.of(
                "entries.jsonl content.grade.close",
                "entries.jsonl content.part.a_polish",
                "entries.jsonl content.part.b_polish",
                "judgement.json references[].separate[].cords")
            .contains(name)
        || name.startsWith("judgement.json doubts[].separate");
  }

  private final Path temp;

  DictionaryTest(@TempDir Path temp) {
    this.temp = temp;
  }

  private List<Path> records() throws IOException {
    Path demo = temp.resolve("demo");
    DemoSite.write(Files.createDirectories(demo), 2026);
    // Something of each kind that the examples and the demo lack.
    Path more = Files.createDirectory(temp.resolve("more"));
    try (Stream<Path> files = Files.list(Records.LIBRARY)) {
      for (Path file : files.toList()) {
        Files.copy(file, more.resolve(String.valueOf(file.getFileName())));
      }
    }
    Path toml = more.resolve("job.toml");
    Files.writeString(
        toml, Files.readString(toml) + "\napplications = [\"10GBASE-LR\", \"10GBASE-SR\"]\n");
    Path faces = Files.createDirectory(more.resolve("faces"));
    for (String picture : List.of("heron-1-clean.jpg", "tern-row.jpg")) {
      Files.copy(Records.ROOT.resolve("examples/faces").resolve(picture), faces.resolve(picture));
    }
    Files.writeString(
        more.resolve("faces.csv"),
        "picture,subject,stage,class,taken_at,operator\n"
            + "heron-1-clean.jpg,port:C:01/1,cleaned,sm-pc,2026-10-05T07:50:00Z,Wren\n"
            + "tern-row.jpg,port:C:02/1-12,found,sm-pc,2026-10-05T07:52:00Z,Wren\n");
    Path readings = more.resolve("readings.csv");
    List<String> rows = Files.readAllLines(readings);
    Files.writeString(
        readings,
        rows.get(0)
            + ",weather\n"
            + rows.stream().skip(1).map(r -> r + ",dry\n").collect(Collectors.joining())
            + rows.get(1).replace("L01,1,", "L01,one,")
            + ",wet\n");
    Path cords = more.resolve("cords.csv");
    Files.writeString(
        cords,
        "cord,fibre_category,length_m,end1_connector,end1_grade,end2_connector,end2_grade,matings,"
            + "in_service_since\nX-9,OS2,2,LC-UPC,reference,LC-UPC,reference,12,2026-01-10\n");
    Path references = more.resolve("references.csv");
    Files.writeString(
        references,
        Files.readString(references)
            .replaceFirst("\n", ",substitution_cord\n")
            .replaceFirst("(\nR1,.*)", "$1,X-9"));
    Path job = temp.resolve("library.ferrule");
    Records.run("new", job.toString(), "--from", Records.LIBRARY.toString());
    Path first = Records.record(job, temp.resolve("r-first"));
    withdrawOne(job);
    List<Path> records =
        List.of(
            Records.record(demo, temp.resolve("r-demo")),
            Records.record(Records.ROOT.resolve("examples/arrays"), temp.resolve("r-arrays")),
            Records.record(Records.ROOT.resolve("examples/access"), temp.resolve("r-access")),
            temp.resolve("r-more"),
            Records.record(job, temp.resolve("r-next"), "--since", first.toString()),
            temp.resolve("r-joined"));
    Records.run(
        "record",
        Records.joined(Files.createDirectory(temp.resolve("join"))).toString(),
        "-o",
        records.get(5).toString());
    assertThat(Records.run("audit", records.get(5).toString()).code()).isZero();
    assertThat(Records.run("audit", records.get(4).toString()).code()).isZero();
    Records.Run run =
        Records.run("record", more.toString(), "-o", records.get(3).toString(), "--unsigned");
    assertThat(run.code()).as(run.toString()).isEqualTo(2);
    return records;
  }

  /** As the desk does it. */
  private static void withdrawOne(Path job) {
    try (OpenJob open = OpenJob.open(job, Clock.systemUTC(), new Random(5))) {
      FibreId fibre = open.stored().job().readings().get(0).fibreId();
      long seq = open.readings(fibre).get(0).seq();
      open.enter(
          new TypedEntries(
              "0a1b2c3d-0000-4000-8000-000000000001",
              List.of(new TypedEntries.Withdraw(seq, "typed at the wrong port"))));
    } catch (JobFileException e) {
      throw new AssertionError(e);
    }
  }

  private static void walk(JsonNode node, String path, SortedSet<String> found) {
    if (node.isObject()) {
      for (Map.Entry<String, JsonNode> entry : node.properties()) {
        String inside = path.isEmpty() ? entry.getKey() : path + "." + entry.getKey();
        for (String open : OPEN) {
          int at = inside.indexOf(open);
          inside = at < 0 ? inside : inside.substring(0, at + open.length()) + "*";
        }
        found.add(inside);
        walk(entry.getValue(), inside, found);
      }
    } else if (node.isArray()) {
      node.forEach(one -> walk(one, path + "[]", found));
    }
  }

  private static SortedSet<String> written(Path record, String file) throws IOException {
    SortedSet<String> found = new TreeSet<>();
    Path path = record.resolve(file);
    if (!Files.exists(path)) {
      return found;
    }
    if (file.endsWith(".csv")) {
      found.addAll(List.of(Files.readAllLines(path).get(0).split(",")));
    } else if (file.endsWith(".jsonl")) {
      for (String line : Files.readAllLines(path)) {
        JsonNode node = JSON.readTree(line);
        walk(node, "", found);
        if (node.has("content")) {
          walk(
              JSON.readTree(node.get("content").asText()),
              "content." + node.get("kind").asText(),
              found);
        }
      }
    } else {
      walk(JSON.readTree(path.toFile()), "", found);
    }
    return found;
  }

  @Test
  void everyColumnAndKeyIsInItAndNothingElse() throws IOException {
    List<Path> records = records();
    SortedSet<String> named = new TreeSet<>();
    SortedSet<String> written = new TreeSet<>();
    for (Dictionary.Item item : Dictionary.items()) {
      assertThat(named.add(item.file() + " " + item.name())).as("%s twice", item).isTrue();
      assertThat(item.meaning()).isNotBlank();
    }
    for (Path record : records) {
      try (Stream<Path> files = Files.list(record)) {
        for (Path path : files.toList()) {
          String file = String.valueOf(path.getFileName());
          if (file.endsWith(".csv") || file.endsWith(".json") || file.endsWith(".jsonl")) {
            written(record, file).forEach(name -> written.add(file + " " + name));
          }
        }
      }
    }
    SortedSet<String> missing = new TreeSet<>(written);
    missing.removeAll(named);
    assertThat(missing).as("written, and not in the dictionary").isEmpty();
    SortedSet<String> idle = new TreeSet<>(named);
    idle.removeAll(written);
    idle.removeIf(DictionaryTest::rare);
    assertThat(idle).as("in the dictionary, and never written").isEmpty();
  }
}
