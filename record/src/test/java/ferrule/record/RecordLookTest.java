package ferrule.record;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import ferrule.core.trust.Judgement;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;

/** Writes records of invented jobs for a look: -Dferrule.look=DIR -Dferrule.jobs=tiny,mixed. */
@EnabledIfSystemProperty(named = "ferrule.look", matches = ".+")
class RecordLookTest {

  private static final Map<String, Supplier<Judgement>> JOBS = new LinkedHashMap<>();

  static {
    JOBS.put("tiny", Jobs::tiny);
    JOBS.put("mixed", Jobs::mixed);
    JOBS.put("faces", Jobs::mixedGuardedWithFaces);
    JOBS.put("large", () -> Jobs.large(5000));
    JOBS.put("huge", () -> Jobs.large(20_000));
    JOBS.put("empty", Jobs::empty);
    JOBS.put("untested", Jobs::untested);
    JOBS.put(
        "hostile",
        () ->
            Jobs.named(
                "<script>alert(1)</script> ]]> \uD83D\uDE00 \u05E9\u05DC\u05D5\u05DD \u0000 "
                    + "Verylongnamewithoutanyspace".repeat(20),
                "A & B <b>\"'\u202E evil",
                "Long place ".repeat(60)));
  }

  @Test
  void writesRecordsToLookAt() throws Exception {
    Path dir = Path.of(System.getProperty("ferrule.look"));
    for (String name : System.getProperty("ferrule.jobs", "tiny,mixed").split(",", -1)) {
      long start = System.nanoTime();
      Judgement judgement = JOBS.getOrDefault(name, Jobs::tiny).get();
      long judged = System.nanoTime();
      Path folder = dir.resolve(name);
      RecordWriter.write(
          new RecordIssue(
              judgement,
              List.of(
                  new Problem(
                      "readings.csv", 12, "loss_db", "a number of dB", "n/a", "correct it")),
              List.of("Column \"remark\" of readings.csv is not known and was not kept"),
              Instant.parse("2026-03-20T09:00:00Z"),
              "0.1.0",
              FacePictures.NONE,
              new TestLog(),
              Optional.empty()),
          Optional.empty(),
          folder);
      System.out.printf(
          "%s: %d fibres, judged %.1f s, written %.1f s, pdf %d kB%n",
          name,
          judgement.fibres().size(),
          (judged - start) / 1e9,
          (System.nanoTime() - judged) / 1e9,
          Files.size(folder.resolve("record.pdf")) / 1024);
      assertThat(folder.resolve("record.pdf")).exists();
    }
  }
}
