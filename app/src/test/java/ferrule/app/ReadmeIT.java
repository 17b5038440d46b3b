package ferrule.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Runs the README's session through the script and compares every line that it prints. */
class ReadmeIT {

  private record Step(List<String> command, String output) {}

  @TempDir private Path temp = Path.of("");

  /** The package phase has just built what the script would build again for itself. */
  @BeforeAll
  static void markTheBuildAsFresh() throws IOException {
    Path built = Ran.ROOT.resolve("app/target/ferrule.built");
    Files.deleteIfExists(built);
    Files.createFile(built);
  }

  @Test
  void theSessionOfTheReadmePrintsWhatTheReadmeSays() throws IOException, InterruptedException {
    Files.createSymbolicLink(temp.resolve("examples"), Ran.ROOT.resolve("examples"));
    List<Step> steps = steps(Files.readAllLines(Ran.ROOT.resolve("README.md")));
    assertThat(steps).hasSizeGreaterThanOrEqualTo(3);
    for (Step step : steps) {
      Ran ran = Ran.script(temp, step.command());
      assertThat(ran.err()).isEmpty();
      assertThat(ran.out().strip())
          .as(String.join(" ", step.command()))
          .isEqualTo(step.output().strip());
    }
  }

  @Test
  void theDemoEndsWithARecord() throws IOException, InterruptedException {
    Ran ran = Ran.script(temp, List.of("demo", "--no-desk"));
    assertThat(ran.err()).isEmpty();
    assertThat(ran.code()).isEqualTo(ExitCode.DONE);
    assertThat(temp.resolve("ferrule-demo/record/record.pdf")).isNotEmptyFile();
    assertThat(temp.resolve("ferrule-demo/demo.ferrule")).isNotEmptyFile();
  }

  private static List<Step> steps(List<String> lines) {
    List<Step> steps = new ArrayList<>();
    boolean inside = false;
    List<String> command = List.of();
    StringBuilder output = new StringBuilder();
    for (String line : lines) {
      if (line.startsWith("```")) {
        if (inside && !command.isEmpty()) {
          steps.add(new Step(command, output.toString()));
        }
        inside = line.equals("```console");
        command = List.of();
        output.setLength(0);
      } else if (inside && line.startsWith("$ ./ferrule ")) {
        command = List.of(line.substring("$ ./ferrule ".length()).split(" "));
      } else if (inside) {
        output.append(line).append('\n');
      }
    }
    return steps;
  }
}
