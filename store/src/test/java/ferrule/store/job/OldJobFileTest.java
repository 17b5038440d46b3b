package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.store.Fixtures;
import ferrule.store.Judged;
import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Job files written by earlier versions, each beside what it held. They are never written anew: a
 * version that changes the format adds one of its own.
 */
class OldJobFileTest {

  private final Path temp;

  OldJobFileTest(@TempDir Path temp) {
    this.temp = temp;
  }

  private Path copy(String name) throws IOException {
    return Files.copy(Fixtures.path("jobs/" + name), temp.resolve(name));
  }

  @Test
  void theJobFileOfFormatOneOpensAndHoldsWhatItHeld() throws Exception {
    StoredJob stored = JobFiles.load(copy("mill-format-1.ferrule"));
    assertThat(stored.entries()).isEqualTo(54);
    assertThat(stored.head())
        .isEqualTo("c1a65bda5f59a8760d5b771165186aa4a8277c1ecfbc6fe9a3f6327d19895fbb");
    Path folder = Fixtures.mill(temp);
    Fixtures.edit(folder.resolve("links.csv"), "L02,OS2,2,240", "L02,OS2,2,261.5");
    Files.writeString(
        folder.resolve("readings.csv"),
        "L01,2,A-B,1310,,0.36,,R1,2026-10-05T11:00:00Z,Finch\n",
        java.nio.file.StandardOpenOption.APPEND);
    assertThat(stored.job())
        .isEqualTo(JobFolder.read(folder, Purpose.JUDGE).assemble().job().orElseThrow());
    assertThat(JobFiles.lines(stored.problems()))
        .containsExactly(
            "more-readings.csv, row 3, loss_db: expected a number from -60 to 100 dB; found 0,36;"
                + " write a decimal point, or separate the file's fields with semicolons");
  }

  @Test
  void theJobFileOfFormatOneIsJudgedAsItWas() throws Exception {
    List<String> kept = Files.readAllLines(Fixtures.path("jobs/mill-format-1.txt"));
    assertThat(Judged.standings(JobFiles.load(copy("mill-format-1.ferrule")).job()))
        .isEqualTo(kept);
  }

  @Test
  void theJobFileOfFormatTwoOpensAndTakesPartsAndMeasuredPositions() throws Exception {
    Path path = copy("mill-format-2.ferrule");
    StoredJob before = JobFiles.load(path);
    assertThat(before.entries()).isEqualTo(50);
    assertThat(before.head())
        .isEqualTo("e9033944aadc9d308b748c2d9f33c88d6716c0ab6114598998bc48228418219a");
    Path parts = temp.resolve("parts.csv");
    Files.writeString(
        parts,
        "link,order,part,kind,positions,map,a_pins,a_key,b_polish\n"
            + "L01,1,T1,trunk,12,B,pinned,up,flat\nL01,2,T2,cord,12,A,,down,\n");
    Path polarity = temp.resolve("polarity.csv");
    Files.writeString(
        polarity, "link,position,arrives_at,after\nL01,1,12,\nL01,2,none,\nL01,2,11,1\nL02,1,1,\n");
    AddOutcome outcome = JobFiles.add(path, JobFiles.tables(parts, polarity));
    assertThat(JobFiles.lines(outcome.problems()))
        .containsExactly(
            "polarity.csv, row 5, link: expected a link with parts in parts.csv; found L02; list"
                + " its parts, or correct the name");
    StoredJob after = JobFiles.load(path);
    assertThat(after.job().links()).isEqualTo(before.job().links());
    assertThat(after.job().parts()).hasSize(2);
    assertThat(after.job().positions()).hasSize(3);
    assertThat(after.job().parts().get(0).typeShown()).isEqualTo("type B (reversed)");
    assertThat(JobFiles.add(path, JobFiles.tables(parts, polarity)).files())
        .allSatisfy(f -> assertThat(f.entered()).isZero());
    Files.writeString(parts, "link,order,part,kind,positions,map\nL01,1,T1,trunk,12,C\n");
    assertThat(JobFiles.lines(JobFiles.add(path, JobFiles.tables(parts)).problems()).get(0))
        .contains("as entered for L01 1");
    assertThat(JobFiles.load(path).job()).isEqualTo(after.job());
  }

  @Test
  void theJobFileOfFormatThreeOpensWithItsPartsAndItsCorrection() throws Exception {
    Path path = copy("mill-format-3.ferrule");
    try (JobFile file = JobFile.openAsIs(path, JobFiles.CLOCK, new java.util.Random(1))) {
      assertThat(file.check().format()).isEqualTo(3);
    }
    StoredJob stored = JobFiles.load(path);
    assertThat(stored.entries()).isEqualTo(56);
    assertThat(stored.head())
        .isEqualTo("8585b1e549d544c6e24c7ae772b0f003fa9c2bbf8137ab00882c6d06b563e31d");
    assertThat(stored.job().parts()).hasSize(2);
    assertThat(stored.job().positions()).hasSize(3);
    assertThat(stored.job().links().get(1).lengthM()).isEqualTo(261.5);
    assertThat(stored.job().readings()).hasSize(23);
    assertThat(Judged.standings(stored.job()))
        .isEqualTo(Files.readAllLines(Fixtures.path("jobs/mill-format-1.txt")));
    assertThat(JobFiles.query(path, "PRAGMA user_version")).containsExactly("4");

    // Killed after the migration and before the mark: the next opening marks it.
    JobFiles.sql(path, "PRAGMA user_version = 3");
    assertThat(JobFiles.load(path).head()).isEqualTo(stored.head());
    assertThat(JobFiles.query(path, "PRAGMA user_version")).containsExactly("4");
  }

  @Test
  void theJobFileOfFormatOneIsAddedTo() throws Exception {
    Path path = copy("mill-format-1.ferrule");
    Path folder = Fixtures.mill(temp);
    AddOutcome outcome = JobFiles.add(path, JobFiles.tables(folder.resolve("cords.csv")));
    assertThat(outcome.files().get(0).repeated()).isEqualTo(4);
    assertThat(JobFiles.load(path).entries()).isEqualTo(54);
  }
}
