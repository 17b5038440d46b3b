package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.Problem;
import ferrule.core.job.OtherPapers;
import ferrule.core.job.Requirement;
import ferrule.core.job.Requirement.Directions;
import ferrule.core.job.Requirement.FaceDemand;
import ferrule.core.job.Settings;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.uncertainty.Budget;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import ferrule.core.zero.MethodNames;
import ferrule.core.zero.PowerWindow;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JobPaperTest {

  private static final String REQUIREMENT =
      """
      title = "Kettle Mill (invented)"
      [requirement]
      rulebook = "iso-11801-1"
      wavelengths_nm = [1310, 1550]
      directions = "both"
      method = "one-cord"
      decision = "simple"
      """;
  private static final String RULEBOOKS =
      "one of "
          + String.join(", ", ShippedRulebooks.ids())
          + ", or a rulebook file in the job's folder";

  private final Path temp;
  private final List<Problem> problems = new ArrayList<>();
  private final List<String> notes = new ArrayList<>();

  JobPaperTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @BeforeEach
  void forget() {
    problems.clear();
    notes.clear();
  }

  private Optional<JobPaper> read(String toml) throws IOException {
    Path folder = Files.createDirectories(temp.resolve("job"));
    Path file = folder.resolve("job.toml");
    Files.writeString(file, toml);
    problems.clear();
    notes.clear();
    return JobFolder.readPaper(file, "job.toml", problems, notes);
  }

  private void assertRefused(String toml, String... lines) throws IOException {
    assertThat(read(toml)).isEmpty();
    assertThat(problems).extracting(Problem::line).containsExactly(lines);
  }

  private static String with(String old, String now) {
    assertThat(REQUIREMENT).contains(old);
    return REQUIREMENT.replace(old, now);
  }

  @Test
  void aWholePaperIsReadWithEverySetting() throws IOException {
    Requirement requirement =
        read("""
                title = " Kettle Mill (invented) "
                owner = "Kettle Mill Trust (invented)"
                contractor = "Alder Cabling (invented)"
                [requirement]
                rulebook = "tia-568.3-d"
                wavelengths_nm = [1550, 1310, 1550]
                directions = "one"
                method = "three-cord"
                decision = "guarded"
                applications = ["10GBASE-LR"]
                faces = "ends"
                [zero]
                valid_hours = 8
                verify_every_hours = 1.5
                window_single_mode_dbm = [-9, -3.5]
                window_multimode_dbm = [-25.0, -18]
                [uncertainty]
                """
                + Budget.IDS.iterator().next()
                + " = 0.07\n")
            .orElseThrow()
            .requirement();
    assertThat(problems).isEmpty();
    assertThat(requirement.title()).isEqualTo("Kettle Mill (invented)");
    assertThat(requirement.owner()).isEqualTo("Kettle Mill Trust (invented)");
    assertThat(requirement.rulebook().id()).isEqualTo("tia-568.3-d");
    assertThat(requirement.wavelengths())
        .containsExactly(new Wavelength(1310), new Wavelength(1550));
    assertThat(requirement.directions()).isEqualTo(Directions.ONE);
    assertThat(requirement.method()).isEqualTo(Method.THREE_CORD);
    assertThat(requirement.decision()).isEqualTo(DecisionRule.GUARDED);
    assertThat(requirement.faces()).isEqualTo(FaceDemand.ENDS);
    Settings settings = requirement.settings();
    assertThat(settings.zeroValidFor()).isEqualTo(Duration.ofHours(8));
    assertThat(settings.verifyEvery()).isEqualTo(Duration.ofMinutes(90));
    assertThat(settings.powerWindow(FibreKind.SINGLE_MODE))
        .isEqualTo(new PowerWindow(new LevelDbm(-9), new LevelDbm(-3.5), "set for this job"));
    assertThat(settings.powerWindow(FibreKind.MULTIMODE))
        .isEqualTo(new PowerWindow(new LevelDbm(-25), new LevelDbm(-18), "set for this job"));
    assertThat(settings.uncertainty()).isEqualTo(Map.of(Budget.IDS.iterator().next(), 0.07));
    assertThat(notes).singleElement().asString().contains("10GBASE-LR");
  }

  @Test
  void whatIsNotGivenIsTakenAsUsualAndNoted() throws IOException {
    Requirement requirement =
        read(with("directions = \"both\"\n", "").replace("decision = \"simple\"\n", ""))
            .orElseThrow()
            .requirement();
    assertThat(requirement.directions()).isEqualTo(Directions.BOTH);
    assertThat(requirement.decision()).isEqualTo(DecisionRule.SIMPLE);
    assertThat(requirement.settings()).isEqualTo(Settings.USUAL);
    assertThat(notes)
        .containsExactly(
            "No directions is given in job.toml; the usual one is taken",
            "No decision is given in job.toml; the usual one is taken");
  }

  @Test
  void everythingMissingIsNamed() throws IOException {
    assertRefused(
        "",
        "job.toml, requirement: expected a table [requirement]; found none; add it: rulebook,"
            + " wavelengths_nm, directions, method, decision");
    assertRefused(
        "[requirement]",
        "job.toml, requirement.rulebook: expected " + RULEBOOKS + "; found nothing; correct it",
        "job.toml, requirement.wavelengths_nm: expected a list of whole nanometres from 600 to"
            + " 1700, such as [1310, 1550]; found nothing; correct it",
        "job.toml, requirement.method: expected one-cord, two-cord or three-cord (the count, never"
            + " a letter); found nothing; correct it");
  }

  @Test
  void unknownKeysAreRefusedByTheirLine() throws IOException {
    assertRefused(
        with("decision", "descision"),
        "job.toml, row 7, requirement.descision: expected one of applications, decision,"
            + " directions, faces, method, rulebook, wavelengths_nm; found descision; correct it");
    assertRefused(
        "colour = 1\n" + REQUIREMENT,
        "job.toml, row 1, colour: expected one of contractor, owner, papers, requirement, title,"
            + " uncertainty, zero; found colour; correct it");
    assertRefused(
        REQUIREMENT + "[zero]\nvalid_days = 2\n",
        "job.toml, row 9, zero.valid_days: expected one of valid_hours, verify_every_hours,"
            + " window_multimode_dbm, window_single_mode_dbm; found valid_days; correct it");
    assertThat(read(REQUIREMENT + "[uncertainty]\nweather = \"bad\"\n")).isEmpty();
    assertThat(problems).hasSize(1);
    assertThat(problems.get(0).line())
        .startsWith("job.toml, row 9, uncertainty.weather: expected one of ");
  }

  @Test
  void keysInQuotesThatAreNoBareKeysAreRefusedLikeAnyOther() throws IOException {
    for (String key : List.of("a b", "a.b", "", "requirement.method", "\u00e9", "[x", "tit\\nle")) {
      assertThat(read("\"" + key + "\" = 1\n" + REQUIREMENT)).as(key).isEmpty();
      assertThat(problems).as(key).hasSize(1);
      assertThat(problems.get(0).row()).as(key).isEqualTo(1);
      assertThat(problems.get(0).line()).as(key).doesNotContain("\n");
      assertThat(read(REQUIREMENT + "\"" + key + "\" = 1\n")).as(key).isEmpty();
      assertThat(problems).as(key).hasSize(1);
      assertThat(read(REQUIREMENT + "[uncertainty]\n\"" + key + "\" = 1\n")).as(key).isEmpty();
      assertThat(problems).as(key).hasSize(1);
    }
  }

  @Test
  void wrongTypesAreRefusedByTheirLineInPlainWords() throws IOException {
    assertRefused(
        with("\"Kettle Mill (invented)\"", "7"),
        "job.toml, row 1, title: expected a text in quotes; found 7; correct it");
    assertRefused(
        with("\"Kettle Mill (invented)\"", "[\"a\", [1, 2]]"),
        "job.toml, row 1, title: expected a text in quotes; found [a, [1, 2]]; correct it");
    assertRefused(
        with("\"Kettle Mill (invented)\"", "\"\"\"two\nlines\"\"\""),
        "job.toml, row 1, title: expected one line of at most 1000 characters; found two·lines;"
            + " correct it");
    assertRefused(
        "requirement = \"iso-11801-1\"",
        "job.toml, row 1, requirement: expected a table [requirement]; found iso-11801-1; correct"
            + " it");
    assertRefused(
        with("[1310, 1550]", "1310"),
        "job.toml, row 4, requirement.wavelengths_nm: expected a list of whole nanometres from 600"
            + " to 1700, such as [1310, 1550]; found 1310; correct it");
    assertRefused(
        with("[1310, 1550]", "[1310, 85, \"1550\", 1550.5, [1625]]"),
        wavelength("85"),
        wavelength("1550"),
        wavelength("1550.5"),
        wavelength("[1625]"));
    assertRefused(with("[1310, 1550]", "[]"), wavelength("[]"));
    assertRefused(
        with("\"both\"", "true"),
        "job.toml, row 5, requirement.directions: expected one or both; found true; correct it");
    assertRefused(
        with("\"simple\"", "{ a = 1 }"),
        "job.toml, row 7, requirement.decision: expected simple or guarded; found a table; correct"
            + " it");
    assertRefused(
        REQUIREMENT + "applications = [\"a\", 7]\n",
        "job.toml, row 8, requirement.applications: expected texts in quotes; found 7; correct it");
  }

  private static String wavelength(String found) {
    return "job.toml, row 4, requirement.wavelengths_nm: expected a list of whole nanometres from"
        + " 600 to 1700, such as [1310, 1550]; found "
        + found
        + "; correct it";
  }

  @Test
  void aLetterIsNoMethod() throws IOException {
    for (String letter : List.of("A", "B", "C", "b", "method B", "1", "one")) {
      assertThat(read(with("\"one-cord\"", "\"" + letter + "\""))).isEmpty();
      assertThat(problems).hasSize(1);
      assertThat(problems.get(0).line())
          .startsWith(
              "job.toml, row 6, requirement.method: expected one-cord, two-cord or three-cord (the"
                  + " count, never a letter); found "
                  + letter
                  + "; ")
          .endsWith(
              letter.equals("one")
                  ? "; correct it"
                  : "; ask the owner how many test cords: it is "
                      + MethodNames.shown(letter).orElseThrow()
                      + ", from memory");
    }
  }

  @Test
  void whatElseThePapersSayIsKeptAndJudgesNothing() throws IOException {
    Requirement requirement =
        read(REQUIREMENT
                + """
                [papers]
                other_rulebooks = ["tia-568.3-e"]
                method_as_written = "Method B"
                traces = "all"
                """)
            .orElseThrow()
            .requirement();
    assertThat(problems).isEmpty();
    assertThat(requirement.papers().rulebooks())
        .extracting(r -> r.id())
        .containsExactly("tia-568.3-e");
    assertThat(requirement.papers().methodAsWritten()).isEqualTo("Method B");
    assertThat(requirement.papers().traces()).isEqualTo(OtherPapers.Traces.ALL);
    assertThat(requirement.by(DecisionRule.GUARDED).papers()).isEqualTo(requirement.papers());
    assertThat(read(REQUIREMENT).orElseThrow().requirement().papers())
        .isEqualTo(OtherPapers.SILENT);
  }

  @Test
  void whatElseThePapersSayIsRefusedByItsLineWhereItIsWrong() throws IOException {
    assertRefused(
        REQUIREMENT + "[papers]\ntraces = \"some\"\n",
        "job.toml, row 9, papers.traces: expected none, spliced or all; found some; correct it");
    assertRefused(
        REQUIREMENT + "[papers]\nletter = \"B\"\n",
        "job.toml, row 9, papers.letter: expected one of method_as_written, other_rulebooks,"
            + " traces; found letter; correct it");
    assertThat(read(REQUIREMENT + "[papers]\nother_rulebooks = [\"iso-9999\", 7]\n")).isEmpty();
    assertThat(problems)
        .hasSize(2)
        .allSatisfy(p -> assertThat(p.column()).isEqualTo("papers.other_rulebooks"));
  }

  @Test
  void settingsOutOfRangeAreRefusedByTheirLine() throws IOException {
    for (String hours : List.of("0", "-1", "nan", "inf", "10000", "\"8\"", "[8]")) {
      assertThat(read(REQUIREMENT + "[zero]\nvalid_hours = " + hours + "\n")).as(hours).isEmpty();
      assertThat(problems).as(hours).hasSize(1);
      assertThat(problems.get(0).line())
          .startsWith("job.toml, row 9, zero.valid_hours: expected hours, more than 0; found ");
    }
    for (String window :
        List.of("-9", "[-9]", "[-3, -9]", "[-9, -3, 0]", "[-9, 41]", "[\"a\", 1]")) {
      assertThat(read(REQUIREMENT + "[zero]\nwindow_multimode_dbm = " + window + "\n"))
          .as(window)
          .isEmpty();
      assertThat(problems).as(window).hasSize(1);
      assertThat(problems.get(0).row()).isEqualTo(9);
    }
    String id = Budget.IDS.iterator().next();
    for (String size : List.of("-0.01", "5.01", "nan", "\"0.1\"", "true")) {
      assertThat(read(REQUIREMENT + "[uncertainty]\n" + id + " = " + size + "\n"))
          .as(size)
          .isEmpty();
      assertThat(problems).as(size).hasSize(1);
      assertThat(problems.get(0).row()).isEqualTo(9);
    }
    assertThat(read(REQUIREMENT + "[uncertainty]\n" + id + " = 0\n")).isPresent();
    assertThat(read(REQUIREMENT + "zero = 7\n")).isEmpty();
  }

  @Test
  void badTomlIsRefusedByItsLine() throws IOException {
    List<String> bad =
        List.of(
            with("title = \"Kettle Mill (invented)\"", "title = Kettle Mill"),
            with("title = \"Kettle Mill (invented)\"", "title = \"Kettle Mill"),
            with("title = \"Kettle Mill (invented)\"", "title = 'a"),
            with("title = \"Kettle Mill (invented)\"", "title"),
            with("title = \"Kettle Mill (invented)\"", "= 7"),
            with("title = \"Kettle Mill (invented)\"", "title = \"\\q\""),
            with("title = \"Kettle Mill (invented)\"", "title = \"a\u0000b\""));
    for (String toml : bad) {
      assertThat(read(toml)).as(toml).isEmpty();
      assertThat(problems).as(toml + problems).hasSize(1);
      assertThat(problems.get(0).line())
          .startsWith("job.toml, row 1: expected TOML; found ")
          .endsWith("; correct the line");
    }
    assertThat(read(REQUIREMENT + "method = \"two-cord\"\n")).isEmpty();
    assertThat(problems).hasSize(1);
    assertThat(problems.get(0).row()).isEqualTo(8);
  }

  @Test
  void textThatIsNotUtf8AndTextWithoutEndAreRefused() throws IOException {
    Path file = Files.createDirectories(temp.resolve("job")).resolve("job.toml");
    Files.write(file, (REQUIREMENT + "# caf\u00e9").getBytes(StandardCharsets.ISO_8859_1));
    assertThat(JobFolder.readPaper(file, "job.toml", problems, notes)).isEmpty();
    assertThat(problems)
        .extracting(Problem::line)
        .containsExactly(
            "job.toml, row 8: expected text in UTF-8; found byte 0xE9; save the file as CSV in"
                + " UTF-8 and try again");
    assertRefused(
        REQUIREMENT + "#".repeat(1 << 20),
        "job.toml: expected at most 1 MiB of text; found "
            + (REQUIREMENT.length() + (1 << 20))
            + " bytes; check the file");
    assertThat(read("\uFEFF" + REQUIREMENT)).isPresent();
    assertThat(read(REQUIREMENT.replace("\n", "\r\n"))).isPresent();
  }

  @Test
  void anOwnersRulebookBesideThePaperCounts() throws IOException {
    String own = ShippedRulebooks.text("iso-11801-1").orElseThrow();
    String id = "id = \"iso-11801-1\"";
    assertThat(own).contains(id);
    own = own.replace(id, "id = \"kettle-mill\"");
    Path folder = Files.createDirectories(temp.resolve("job/rulebooks"));
    Files.writeString(temp.resolve("job/own.toml"), own);
    Files.writeString(folder.resolve("mill.toml"), own);
    for (String name : List.of("own.toml", "./own.toml", "rulebooks/mill.toml", "mill")) {
      JobPaper paper = read(with("\"iso-11801-1\"", "\"" + name + "\"")).orElseThrow();
      assertThat(paper.requirement().rulebook().id()).isEqualTo("kettle-mill");
      assertThat(paper.rulebookFile()).isEqualTo(name);
      assertThat(paper.rulebookText()).isEqualTo(own);
    }
  }

  /** What a job is judged by travels with it whole, whatever a later version ships. */
  @Test
  void aRulebookBasedOnAShippedOneIsKeptWithEveryFigure() throws IOException {
    Files.createDirectories(temp.resolve("job"));
    Files.writeString(
        temp.resolve("job/own.toml"),
        "id = \"own\"\ntitle = \"Own\"\nedition = \"1\"\nbased_on = \"tia-568.3-e\"\n");
    JobPaper paper = read(with("\"iso-11801-1\"", "\"own.toml\"")).orElseThrow();
    assertThat(paper.rulebookText()).doesNotContain("based_on").contains("limit_db_per_km = 0.4");
    JobPaper.Outcome kept =
        JobPaper.readStored(paper.toml(), paper.rulebookFile(), paper.rulebookText());
    assertThat(kept.paper().orElseThrow().requirement()).isEqualTo(paper.requirement());
  }

  @Test
  void aRulebookMissingOrOutsideTheFolderIsRefusedByItsLine() throws IOException {
    Files.writeString(
        temp.resolve("outside.toml"), ShippedRulebooks.text("iso-11801-1").orElseThrow());
    Files.createDirectories(temp.resolve("job/rulebooks"));
    for (String name :
        List.of(
            "missing.toml",
            "../outside.toml",
            temp.resolve("outside.toml").toString(),
            "rulebooks/../../outside.toml",
            "rulebooks",
            ".",
            "ISO-11801-1",
            "../../../../../../../etc/hostname")) {
      assertRefused(
          with("\"iso-11801-1\"", "\"" + name + "\""),
          "job.toml, row 3, requirement.rulebook: expected "
              + RULEBOOKS
              + "; found "
              + Problem.printable(name)
              + "; correct it");
    }
    assertThat(read(with("\"iso-11801-1\"", "\"nul\\u0000.toml\""))).isEmpty();
    assertThat(problems).hasSize(1);
  }

  @Test
  void aDamagedRulebookIsRefusedByItsOwnNameAndLine() throws IOException {
    Path own = Files.createDirectories(temp.resolve("job")).resolve("own.toml");
    String paper = with("\"iso-11801-1\"", "\"own.toml\"");
    Files.writeString(own, "id = \"x\"\ntitle = \n");
    assertThat(read(paper)).isEmpty();
    assertThat(problems).hasSize(1);
    assertThat(problems.get(0).line()).startsWith("own.toml, row 2: expected TOML; found ");

    Files.writeString(own, "# " + "x".repeat(1 << 20));
    assertRefused(
        paper, "own.toml: expected at most 1 MiB of text; found 1048578 bytes; check the file");

    Files.write(own, "id = \"caf\u00e9\"".getBytes(StandardCharsets.ISO_8859_1));
    assertThat(read(paper)).isEmpty();
    assertThat(problems).hasSize(1);
    assertThat(problems.get(0).line())
        .startsWith("own.toml, row 1: expected text in UTF-8; found byte 0xE9");
  }

  @Test
  void randomDamageNeverThrowsAndAlwaysSaysSomething() throws IOException {
    SplittableRandom random = new SplittableRandom(2026);
    String whole =
        REQUIREMENT + "[zero]\nvalid_hours = 8\nwindow_multimode_dbm = [-25, -18]\n[uncertainty]\n";
    String alphabet = "\"'[]{}=.,#\n\\x7-\u00e9 ";
    int refused = 0;
    for (int i = 0; i < 120; i++) {
      StringBuilder toml = new StringBuilder(whole);
      for (int spoils = random.nextInt(1, 4); spoils > 0; spoils--) {
        int at = random.nextInt(toml.length());
        switch (random.nextInt(4)) {
          case 0 -> toml.setCharAt(at, alphabet.charAt(random.nextInt(alphabet.length())));
          case 1 -> toml.delete(at, Math.min(toml.length(), at + random.nextInt(1, 30)));
          case 2 -> toml.insert(at, alphabet.charAt(random.nextInt(alphabet.length())));
          default -> toml.insert(at, toml.substring(at, Math.min(toml.length(), at + 20)));
        }
      }
      boolean read = read(toml.toString()).isPresent();
      assertThat(problems.isEmpty()).as(toml.toString()).isEqualTo(read);
      assertThat(problems)
          .allMatch(p -> p.line().startsWith("job.toml") && p.line().indexOf('\n') < 0);
      refused += read ? 0 : 1;
    }
    assertThat(refused).isGreaterThan(60);
  }
}
