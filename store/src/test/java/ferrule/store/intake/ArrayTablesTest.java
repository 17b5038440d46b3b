package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import ferrule.core.job.Job;
import ferrule.store.Fixtures;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Parts and measured positions that meet the other tables of a folder. */
class ArrayTablesTest {

  private static final String PARTS =
      "link,order,part,kind,positions,map,array_at,b_key,a_key\n"
          + "L01,2,T1,trunk,12,A,,down,down\n"
          + "L01,1,C1,cassette,12,straight,b,up,\n"
          + "L01,3,C2,cassette,12,straight,a,,up\n";

  private final Path folder;

  ArrayTablesTest(@TempDir Path temp) {
    folder = Fixtures.mill(temp);
  }

  private JobFolder.Assembled assembled(String parts, String polarity) throws IOException {
    Files.writeString(folder.resolve("parts.csv"), parts);
    Files.writeString(folder.resolve("polarity.csv"), polarity);
    return JobFolder.read(folder, Purpose.JUDGE).assemble();
  }

  private static List<String> lines(JobFolder.Assembled assembled) {
    return assembled.problems().stream().map(Problem::line).toList();
  }

  @Test
  void partsOfALinkStandInTheirOrderAndAWorkbookIsEqual() throws IOException {
    JobFolder.Assembled text = assembled(PARTS, "link,position,arrives_at\nL01,1,1\n");
    assertThat(lines(text)).isEmpty();
    Job job = text.job().orElseThrow();
    assertThat(job.parts()).extracting(p -> p.part()).containsExactly("C1", "T1", "C2");
    assertThat(job.positions()).hasSize(1);
    for (String stem : List.of("parts", "polarity")) {
      Path csv = folder.resolve(stem + ".csv");
      Workbooks.typed(folder.resolve(stem + ".xlsx"), Map.of("Sheet1", Workbooks.csv(csv)));
      Files.delete(csv);
    }
    assertThat(JobFolder.read(folder, Purpose.JUDGE).assemble().job()).contains(job);
  }

  @Test
  void whatDoesNotMeetTheOtherTablesIsOneLineEach() throws IOException {
    JobFolder.Assembled assembled =
        assembled(
            PARTS + "NOPE,1,T9,trunk,12,A,,,\n",
            "link,position,arrives_at,after\n"
                + "L01,1,1,\n"
                + "L02,1,1,\n"
                + "L01,13,1,\n"
                + "L01,2,14,\n"
                + "L01,2,2,9\n");
    assertThat(lines(assembled))
        .containsExactly(
            "parts.csv, row 5, link: expected a link of links.csv; found NOPE; correct the name, or"
                + " add the link to the schedule",
            "polarity.csv, row 3, link: expected a link with parts in parts.csv; found L02; list"
                + " its parts, or correct the name",
            "polarity.csv, row 4, position: expected a position from 1 to 12, as L01 has by"
                + " parts.csv; found 13; correct it, or the positions of the parts",
            "polarity.csv, row 5, arrives_at: expected a position from 1 to 12, as L01 has by"
                + " parts.csv; found 14; correct it, or the positions of the parts",
            "polarity.csv, row 6, after: expected the order of a part of L01, or nothing for the"
                + " whole link; found 9; correct it");
    assertThat(assembled.job().orElseThrow().positions()).hasSize(1);
  }
}
