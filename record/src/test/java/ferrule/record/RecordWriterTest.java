package ferrule.record;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.ObjectMapper;
import ferrule.core.job.Requirement;
import ferrule.core.optics.FibreKind;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Rejudged;
import ferrule.core.trust.Standing;
import ferrule.record.seal.PublicKeys;
import ferrule.record.seal.RecordKey;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RecordWriterTest {

  private static final Instant ISSUED = Instant.parse("2026-03-20T09:00:00Z");

  private final Path dir;

  RecordWriterTest(@TempDir Path dir) {
    this.dir = dir;
  }

  private static void write(Judgement judgement, Path folder) throws RecordException {
    RecordWriter.write(issue(judgement, ISSUED), Optional.empty(), folder);
  }

  private static RecordIssue issue(Judgement judgement, Instant issuedAt) {
    return new RecordIssue(
        judgement,
        List.of(),
        List.of(),
        issuedAt,
        "9.9",
        FacePictures.NONE,
        new TestLog(),
        Optional.empty());
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> inside = Files.list(folder)) {
      return inside.map(p -> p.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void whatTheJobWantsIsToldLinkByLink() throws Exception {
    Judgement plain = Jobs.mixed();
    Requirement r = plain.ledger().requirement();
    Requirement wanting =
        new Requirement(
            r.title(),
            r.owner(),
            r.contractor(),
            r.rulebook(),
            r.wavelengths(),
            r.directions(),
            r.method(),
            r.decision(),
            List.of("10GBASE-LR", "a thing nobody knows"),
            r.faces(),
            r.settings());
    Judgement judgement = Rejudged.of(plain, wanting).supposed();
    Path folder = dir.resolve("record");
    write(judgement, folder);
    List<String> rows = Files.readAllLines(folder.resolve("applications.csv"));
    long singleMode =
        judgement.ledger().job().links().stream()
            .filter(l -> l.category().kind() == FibreKind.SINGLE_MODE)
            .count();
    assertThat(rows).hasSize((int) singleMode + 1);
    assertThat(rows.get(0)).startsWith("link,application,answer,decided_by,room,unit,limit");
    assertThat(rows.subList(1, rows.size())).allMatch(row -> row.contains(",10GBASE-LR,"));
    assertThat(Files.readString(folder.resolve("index.txt"))).contains("applications.csv");
    try (PDDocument pdf = Loader.loadPDF(folder.resolve("record.pdf").toFile())) {
      assertThat(new PDFTextStripper().getText(pdf))
          .contains("Applications wanted")
          .contains("a thing nobody knows: no limits are held; cannot be told");
    }
  }

  @Test
  void theFolderHoldsWhatItsIndexSays() throws Exception {
    Path folder = dir.resolve("deep/record");
    write(Jobs.mixed(), folder);
    assertThat(names(folder))
        .containsExactly(
            "README.txt",
            "audit.html",
            "dictionary.csv",
            "entries.jsonl",
            "fibres.csv",
            "index.txt",
            "job.toml",
            "judgement.json",
            "readings.csv",
            "record.json",
            "record.pdf",
            "rulebook.toml",
            "rulebook.txt");
    List<String> index = Files.readAllLines(folder.resolve(RecordFiles.INDEX));
    assertThat(index).hasSize(12);
    for (String line : index) {
      String[] parts = line.split("  ", 2);
      byte[] bytes = Files.readAllBytes(folder.resolve(parts[1]));
      assertThat(parts[0])
          .isEqualTo(HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes)));
      assertThat(Files.readString(folder.resolve("README.txt"))).contains(parts[1]);
    }
    assertThat(names(dir.resolve("deep"))).containsExactly("record");
  }

  @Test
  void theDataOfTheRecordAgreesWithTheJudgement() throws Exception {
    Judgement judgement = Jobs.mixed();
    Path folder = dir.resolve("record");
    write(judgement, folder);
    assertThat(
            new ObjectMapper()
                .readTree(folder.resolve("judgement.json").toFile())
                .at("/totals/proved")
                .asInt())
        .isEqualTo(judgement.totals().get(Standing.PROVED));
    assertThat(Files.readAllLines(folder.resolve("fibres.csv")))
        .hasSize(judgement.fibres().size() + 1);
    assertThat(Files.readAllLines(folder.resolve("readings.csv")))
        .hasSize(judgement.ledger().readings().size() + 1);
    assertThat(Files.readString(folder.resolve("rulebook.txt")))
        .contains("OM4 at 850 nm: 3.50 dB/km")
        .contains("from memory: confirm against the standard");
  }

  @Test
  void theSignatureIsOfTheKeyOverTheIndexAndTheRecordNamesTheKey() throws Exception {
    RecordKey key = RecordKey.generate(new SecureRandom());
    Path folder = dir.resolve("record");
    RecordWriter.write(issue(Jobs.tiny(), ISSUED), Optional.of(key), folder);
    byte[] index = Files.readAllBytes(folder.resolve(RecordFiles.INDEX));
    assertThat(
            PublicKeys.verify(
                PublicKeys.ofPem(Files.readString(folder.resolve(RecordFiles.PUBLIC_KEY)))
                    .orElseThrow(),
                index,
                Files.readAllBytes(folder.resolve(RecordFiles.SIGNATURE))))
        .isTrue();
    assertThat(About.read(Files.readString(folder.resolve(RecordFiles.ABOUT))))
        .hasValueSatisfying(
            about -> {
              assertThat(about.signedBy()).contains(key.fingerprint());
              assertThat(about.issuedAt()).isEqualTo(ISSUED);
            });
    assertThat(Files.readString(folder.resolve(RecordFiles.README))).contains(key.fingerprint());
    try (PDDocument pdf = Loader.loadPDF(folder.resolve(RecordFiles.PAGES).toFile())) {
      String text = new PDFTextStripper().getText(pdf).replaceAll("\\s+", "");
      assertThat(text).contains(key.fingerprint()).contains(new TestLog().head());
    }
  }

  @Test
  void theSameIssueAndKeyGiveTheSameBytes() throws Exception {
    Optional<RecordKey> key = Optional.of(RecordKey.generate(new SecureRandom()));
    RecordWriter.write(issue(Jobs.mixed(), ISSUED), key, dir.resolve("one"));
    RecordWriter.write(issue(Jobs.mixed(), ISSUED), key, dir.resolve("two"));
    for (String name : names(dir.resolve("one"))) {
      assertThat(Files.mismatch(dir.resolve("one").resolve(name), dir.resolve("two").resolve(name)))
          .as(name)
          .isEqualTo(-1);
    }
  }

  @Test
  void anotherTimeOfIssueGivesAnotherDocument() throws Exception {
    write(Jobs.tiny(), dir.resolve("one"));
    RecordWriter.write(
        issue(Jobs.tiny(), ISSUED.plusSeconds(60)), Optional.empty(), dir.resolve("two"));
    assertThat(
            Files.mismatch(
                dir.resolve("one").resolve("record.pdf"), dir.resolve("two").resolve("record.pdf")))
        .isNotEqualTo(-1);
    assertThat(
            Files.mismatch(
                dir.resolve("one").resolve("judgement.json"),
                dir.resolve("two").resolve("judgement.json")))
        .isEqualTo(-1);
  }

  @Test
  void aFolderThatHoldsSomethingIsRefusedAndLeftAlone() throws Exception {
    Path folder = Files.createDirectory(dir.resolve("record"));
    Files.writeString(folder.resolve("mine.txt"), "mine");
    assertThatThrownBy(() -> write(Jobs.tiny(), folder))
        .isInstanceOfSatisfying(
            RecordException.class,
            e -> {
              assertThat(e.problem().file()).isEqualTo(folder.toString());
              assertThat(e.problem().expected()).contains("does not exist yet, or is empty");
              assertThat(e.problem().action()).contains("another folder");
            });
    assertThat(names(folder)).containsExactly("mine.txt");
    assertThat(names(dir)).containsExactly("record");
  }

  @Test
  void anEmptyFolderIsFilled() throws Exception {
    Path folder = Files.createDirectory(dir.resolve("record"));
    write(Jobs.tiny(), folder);
    assertThat(names(folder)).contains("record.pdf", "index.txt");
  }

  @Test
  void whatCannotBeWrittenLeavesNothingBehind() throws Exception {
    Path file = Files.writeString(dir.resolve("file"), "x");
    assertThatThrownBy(() -> write(Jobs.tiny(), file)).isInstanceOf(RecordException.class);
    assertThatThrownBy(() -> write(Jobs.tiny(), file.resolve("record")))
        .isInstanceOf(RecordException.class);
    assertThat(Files.readString(file)).isEqualTo("x");
    assertThat(names(dir)).containsExactly("file");
  }

  @Test
  void aDraftOfAnotherRunIsLeftAlone() throws Exception {
    Path other = Files.createDirectory(dir.resolve(".record.draft-1"));
    write(Jobs.tiny(), dir.resolve("record"));
    assertThat(other).isEmptyDirectory();
    assertThat(names(dir)).containsExactly(".record.draft-1", "record");
  }
}
