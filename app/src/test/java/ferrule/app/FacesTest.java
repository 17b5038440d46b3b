package ferrule.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.awt.image.DataBuffer;
import java.awt.image.Raster;
import java.awt.image.WritableRaster;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.zip.CRC32;
import java.util.zip.DeflaterOutputStream;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriter;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Pictures of end faces through the command, good ones and such as a crew hands in by mistake. */
class FacesTest {

  private static final Path EXAMPLES = Ran.ROOT.resolve("examples/faces");
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir private Path temp = Path.of("");

  private static byte[] found() throws IOException {
    return Files.readAllBytes(EXAMPLES.resolve("heron-2-found.jpg"));
  }

  private static List<String> outcomes(JsonNode list) {
    List<String> outcomes = new ArrayList<>();
    list.forEach(one -> outcomes.add(one.get("outcome").asText()));
    return outcomes;
  }

  @Test
  void aFolderIsGradedInOrderOfNameAndAsTheContractSays() throws IOException {
    Ran ran = Ran.here("faces", EXAMPLES.toString(), "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    assertThat(ran.err()).contains("README.md").doesNotContain("expected");
    JsonNode list = JSON.readTree(ran.out());
    assertThat(outcomes(list))
        .containsExactly("conforms", "conforms", "rejected", "rejected", "unreadable", "rejected");
    JsonNode rejected = list.get(2);
    assertThat(rejected.get("picture").asText()).endsWith("heron-2-found.jpg");
    assertThat(rejected.get("class").asText()).isEqualTo("sm-pc");
    assertThat(rejected.get("edition").asText()).isEqualTo("2015");
    assertThat(rejected.get("resolution_ok").asBoolean()).isTrue();
    // As rendered: 0.42 µm/px, a cladding of 125 µm in the middle of 640 by 480 pixels.
    assertThat(rejected.at("/cladding/cx").asDouble()).isBetween(319.0, 320.0);
    assertThat(rejected.at("/cladding/cy").asDouble()).isBetween(239.0, 240.0);
    assertThat(rejected.at("/cladding/r_px").asDouble()).isBetween(148.3, 149.3);
    assertThat(rejected.get("um_per_px").asDouble()).isBetween(0.418, 0.422);
    boolean planted = false;
    for (JsonNode flaw : rejected.get("flaws")) {
      assertThat(flaw.get("kind").asText()).isIn("defect", "scratch");
      assertThat(flaw.has("counted")).isTrue();
      planted |=
          flaw.get("zone").asText().equals("B")
              && Math.hypot(flaw.get("x_um").asDouble() + 21, flaw.get("y_um").asDouble() - 14) < 1
              && Math.abs(flaw.get("size_um").asDouble() - 9) < 1.35;
    }
    assertThat(planted).as("the 9 µm defect at -21, 14 is told").isTrue();
    assertThat(list.get(4).get("cladding").isNull()).isTrue();
  }

  @Test
  void aRejectedFaceSaysFlawZoneSizeLimitTableAndConfidence() {
    Ran ran = Ran.here("faces", EXAMPLES.resolve("heron-2-found.jpg").toString());
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    assertThat(ran.out())
        .contains("heron-2-found.jpg: rejected")
        .contains("zone B (cladding)")
        .contains("allowed is no defect")
        .contains("IEC 61300-3-35, 2015")
        .contains("never look into a fibre")
        .contains("Ferrule does not judge eye safety");
    Ran clean = Ran.here("faces", EXAMPLES.resolve("heron-1-clean.jpg").toString());
    assertThat(clean.code()).isEqualTo(ExitCode.DONE);
  }

  @Test
  void figuresFromMemorySaySoWhereTheyReject() {
    Ran ran =
        Ran.here("faces", EXAMPLES.resolve("heron-2-found.jpg").toString(), "--edition", "2009");
    assertThat(ran.out()).contains("from memory: confirm against the standard");
  }

  @Test
  void badFilesGetOneLineEachAndTheOthersAreGraded() throws Exception {
    Path folder = Files.createDirectory(temp.resolve("mixed"));
    byte[] whole = found();
    Files.write(folder.resolve("a-truncated.jpg"), Arrays.copyOf(whole, whole.length / 3));
    Files.write(folder.resolve("b-bomb.png"), bomb());
    Files.write(folder.resolve("c-empty.png"), new byte[0]);
    Files.write(folder.resolve("d-animated.gif"), animatedGif());
    Files.writeString(folder.resolve("e-text.png"), "link,fibre\nK001,1\n");
    Files.write(folder.resolve("f-cmyk.jpg"), cmyk());
    // A JPEG that calls itself PNG: the bytes count.
    Files.write(folder.resolve("g-wrongly-named.png"), whole);
    Files.write(folder.resolve("h-turned.jpg"), turned(whole));
    Files.write(folder.resolve("i-cat.png"), cat());
    Ran ran = Ran.here("faces", folder.toString(), "--json");
    assertThat(ran.code()).isEqualTo(ExitCode.BAD_INPUT);
    List<String> lines = ran.err().strip().lines().toList();
    assertThat(lines).hasSize(6);
    assertThat(lines).allMatch(line -> line.contains("expected") && line.contains("found"));
    assertThat(lines.get(0)).contains("a-truncated.jpg");
    assertThat(lines.get(1)).contains("b-bomb.png").contains("40 megapixels");
    assertThat(lines.get(2)).contains("c-empty.png").contains("empty file");
    assertThat(lines.get(3)).contains("d-animated.gif").contains("GIF");
    assertThat(lines.get(4)).contains("e-text.png").contains("text");
    assertThat(lines.get(5)).contains("f-cmyk.jpg").contains("CMYK");
    JsonNode list = JSON.readTree(ran.out());
    assertThat(list).hasSize(9);
    assertThat(outcomes(list).subList(6, 9)).containsExactly("rejected", "rejected", "unreadable");
    assertThat(list.get(0).get("sha256").isNull()).isTrue();
    // A quarter turn to the right moves what was at x, y to -y, x.
    assertThat(list.get(7).at("/cladding/cx").asDouble()).isBetween(239.0, 240.0);
    boolean moved = false;
    for (JsonNode flaw : list.get(7).get("flaws")) {
      moved |= Math.hypot(flaw.get("x_um").asDouble() + 14, flaw.get("y_um").asDouble() + 21) < 1.5;
    }
    assertThat(moved).isTrue();
  }

  @Test
  void overlaysAreWrittenBesideEachOtherAndNeverOver() throws IOException {
    Path folder = Files.createDirectories(temp.resolve("in/sub"));
    Files.write(folder.resolve("one.jpg"), found());
    Files.write(folder.resolveSibling("one.jpg"), found());
    Path out = temp.resolve("out");
    String[] command = {"faces", temp.resolve("in").toString(), "--overlay", out.toString()};
    assertThat(Ran.here(command).code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    BufferedImage drawn = ImageIO.read(out.resolve("one.jpg.overlay.png").toFile());
    assertThat(drawn.getWidth()).isEqualTo(960);
    assertThat(drawn.getHeight()).as("a legend stands below").isGreaterThan(720 + 100);
    byte[] before = Files.readAllBytes(out.resolve("sub/one.jpg.overlay.png"));
    Ran again = Ran.here(command);
    assertThat(again.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(again.out()).isEmpty();
    assertThat(again.err().strip().lines()).hasSize(2).allMatch(l -> l.contains("written over"));
    assertThat(Files.readAllBytes(out.resolve("sub/one.jpg.overlay.png"))).isEqualTo(before);
  }

  @Test
  void wrongOptionsGetALineOfTheirOwn() {
    String picture = EXAMPLES.resolve("heron-1-clean.jpg").toString();
    for (String[] wrong :
        List.of(
            new String[] {"--class", "sm"},
            new String[] {"--edition", "1066"},
            new String[] {"--um-per-px", "0"},
            new String[] {"--um-per-px", "NaN"},
            new String[] {"--fibres", "0"})) {
      Ran ran = Ran.here("faces", picture, wrong[0], wrong[1]);
      assertThat(ran.code()).isEqualTo(ExitCode.BAD_INPUT);
      assertThat(ran.err()).contains(wrong[0]).contains("expected");
    }
    Ran none = Ran.here("faces", temp.resolve("nothing.png").toString());
    assertThat(none.code()).isEqualTo(ExitCode.BAD_INPUT);
    assertThat(none.err()).contains("no file of this name");
    assertThat(Ran.here("faces", temp.toString()).err()).contains("a folder with pictures");
  }

  private Path job() throws IOException {
    Path folder = Files.createDirectory(temp.resolve("job"));
    try (var files = Files.list(Ran.ROOT.resolve("examples/library"))) {
      for (Path file : files.toList()) {
        Files.copy(file, folder.resolve(file.getFileName()));
      }
    }
    Path toml = folder.resolve("job.toml");
    Files.writeString(toml, Files.readString(toml).stripTrailing() + "\nfaces = \"ends\"\n");
    Path faces = Files.createDirectory(folder.resolve("faces"));
    for (String name : List.of("heron-1-clean", "heron-2-found", "heron-2-cleaned")) {
      Files.copy(EXAMPLES.resolve(name + ".jpg"), faces.resolve(name + ".jpg"));
    }
    Files.writeString(
        folder.resolve("faces.csv"),
        """
        picture,subject,stage,class,taken_at
        heron-1-clean.jpg,port:C:01/1,found,,2026-10-05T08:00:00Z
        heron-2-found.jpg,port:R:01/1,found,,2026-10-05T08:05:00Z
        heron-2-cleaned.jpg,port:R:01/1,cleaned,,2026-10-05T08:10:00Z
        heron-2-found.jpg,port:C:01/2,found,sm-apc,2026-10-05T08:15:00Z
        """);
    return folder;
  }

  private static List<String> faceDoubts(String out) throws IOException {
    List<String> doubts = new ArrayList<>();
    for (JsonNode doubt : JSON.readTree(out).get("doubts")) {
      if (doubt.get("kind").asText().startsWith("face")) {
        doubts.add(doubt.get("kind").asText() + " " + doubt.get("subject").asText());
      }
    }
    return doubts;
  }

  @Test
  void aJobKnowsItsFacesFromTheFolderAndFromTheFileAlike() throws IOException {
    Path folder = job();
    Ran direct = Ran.here("judge", folder.toString(), "--json");
    assertThat(direct.err()).isEmpty();
    List<String> doubts = faceDoubts(direct.out());
    // L01/1 was cleaned and conforms at both ends; end A of L01/2 is rejected, its end B not seen.
    assertThat(doubts)
        .contains("face-rejected L01/2", "face-unseen L01/2", "face-unseen L02/1")
        .noneMatch(doubt -> doubt.endsWith("L01/1"));
    String file = temp.resolve("site.ferrule").toString();
    Ran made = Ran.here("new", file, "--from", folder.toString());
    assertThat(made.code()).as(made.err()).isEqualTo(ExitCode.DONE);
    assertThat(faceDoubts(Ran.here("judge", file, "--json").out())).isEqualTo(doubts);
    Ran again = Ran.here("add", file, folder.resolve("faces.csv").toString());
    assertThat(again.code()).isEqualTo(ExitCode.DONE);
    assertThat(again.out()).contains("Nothing was added");
  }

  @Test
  void picturesComeInLaterAndBadOnesAreListedWithTheirRows() throws IOException {
    Path folder = job();
    Path table = folder.resolve("faces.csv");
    String rows = Files.readString(table);
    Files.delete(table);
    String file = temp.resolve("site.ferrule").toString();
    assertThat(Ran.here("new", file, "--from", folder.toString()).code()).isZero();
    Files.writeString(folder.resolve("faces/text.png"), "no picture");
    Files.createSymbolicLink(
        folder.resolve("faces/link.jpg"), EXAMPLES.resolve("heron-1-clean.jpg"));
    Files.writeString(
        table,
        rows
            + "text.png,port:R:01/2,,,2026-10-05T08:20:00Z\n"
            + "../job.toml,port:R:01/2,,,2026-10-05T08:20:00Z\n"
            + "link.jpg,port:R:01/2,,,2026-10-05T08:20:00Z\n"
            + "gone.png,port:R:01/2,,,2026-10-05T08:20:00Z\n");
    Ran added = Ran.here("add", file, table.toString());
    assertThat(added.code()).isEqualTo(ExitCode.BAD_INPUT);
    List<String> lines = added.err().strip().lines().toList();
    assertThat(lines).hasSize(4);
    assertThat(lines.get(0)).contains("row 6, picture").contains("text");
    assertThat(lines.get(1)).contains("row 7, picture").contains("inside the folder faces");
    assertThat(lines.get(2)).contains("row 8, picture").contains("inside the folder faces");
    assertThat(lines.get(3)).contains("row 9, picture").contains("none");
    assertThat(added.out()).contains("pictures of faces: 4 rows: 4 entered");
    Ran judged = Ran.here("judge", file, "--json");
    assertThat(faceDoubts(judged.out())).contains("face-rejected L01/2", "face-unseen L01/2");
    assertThat(JSON.readTree(judged.out()).get("problems")).hasSize(4);
  }

  @Test
  void theRecordHoldsGradesPicturesAndDrawings() throws Exception {
    Path folder = job();
    String file = temp.resolve("site.ferrule").toString();
    assertThat(Ran.here("new", file, "--from", folder.toString()).code()).isZero();
    // From here on the pictures are in the job file alone.
    try (var pictures = Files.list(folder.resolve("faces"))) {
      for (Path picture : pictures.toList()) {
        Files.delete(picture);
      }
    }
    Path record = temp.resolve("record");
    Ran ran = Ran.here("record", file, "-o", record.toString());
    assertThat(ran.err()).isEmpty();
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    List<String> lines = Files.readAllLines(record.resolve("faces.jsonl"));
    assertThat(lines).hasSize(4);
    JsonNode second = JSON.readTree(lines.get(1));
    assertThat(second.get("outcome").asText()).isEqualTo("rejected");
    assertThat(Files.readAllBytes(record.resolve(second.get("file").asText()))).isEqualTo(found());
    String index = Files.readString(record.resolve("index.txt"));
    assertThat(index).contains(second.get("sha256").asText() + "  " + second.get("file").asText());
    assertThat(index).contains("  faces.jsonl");
    try (PDDocument pdf = Loader.loadPDF(record.resolve("record.pdf").toFile())) {
      String text = new PDFTextStripper().getText(pdf);
      assertThat(text).contains("4 pictures graded").contains("port:C:01/2, found");
      int images = 0;
      for (var page : pdf.getPages()) {
        for (var name : page.getResources().getXObjectNames()) {
          images += page.getResources().isImageXObject(name) ? 1 : 0;
        }
      }
      assertThat(images).as("both pictures that are rejected are drawn").isEqualTo(2);
    }
  }

  @Test
  void aPictureOfSeveralFibresIsNotTakenForOne() throws IOException {
    Path folder = job();
    Files.writeString(
        folder.resolve("faces.csv"), "picture,subject\nheron-1-clean.jpg,port:C:01/1-2\n");
    Ran ran = Ran.here("judge", folder.toString(), "--json");
    assertThat(faceDoubts(ran.out())).contains("face-unseen L01/1", "face-unseen L01/2");
    // Nor without being told so: the same face three times, one pitch (250 µm) apart.
    BufferedImage one =
        ImageIO.read(EXAMPLES.resolve("heron-1-clean.jpg").toFile())
            .getSubimage(333 - 240, 0, 480, 480);
    int pitch = (int) Math.round(250 / 0.42);
    BufferedImage row = new BufferedImage(480 + 2 * pitch, 480, BufferedImage.TYPE_BYTE_GRAY);
    Graphics2D drawn = row.createGraphics();
    drawn.setColor(new Color(184, 184, 184));
    drawn.fillRect(0, 0, row.getWidth(), 480);
    for (int i = 0; i < 3; i++) {
      drawn.drawImage(one, i * pitch, 0, null);
    }
    drawn.dispose();
    Path picture = temp.resolve("row.png");
    ImageIO.write(row, "png", picture.toFile());
    JsonNode list = JSON.readTree(Ran.here("faces", picture.toString(), "--json").out());
    assertThat(outcomes(list)).containsExactly("unreadable");
    assertThat(list.get(0).get("reasons").get(0).asText()).contains("3 fibres");
    assertThat(ran.out()).contains("one fibre was found, 2 were expected");
  }

  /** As rendered: a defect in the core of fibre 3, a scratch on 7, a defect of 9 µm on 10. */
  @Test
  void aRowIsGradedFibreByFibreAndAsAWhole() throws IOException {
    String picture = EXAMPLES.resolve("tern-row.jpg").toString();
    Path out = temp.resolve("out");
    Ran ran = Ran.here("faces", picture, "--json", "--overlay", out.toString());
    assertThat(ran.code()).isEqualTo(ExitCode.NOT_ALL_PROVED);
    JsonNode row = JSON.readTree(ran.out()).get(0);
    assertThat(row.get("outcome").asText()).isEqualTo("rejected");
    assertThat(row.get("cladding").isNull()).isTrue();
    JsonNode fibres = row.get("fibres");
    assertThat(fibres).hasSize(12);
    int flaws = 0;
    for (int i = 0; i < 12; i++) {
      JsonNode fibre = fibres.get(i);
      assertThat(fibre.get("fibre").asInt()).isEqualTo(i + 1);
      for (String key :
          List.of("picture", "class", "edition", "reasons", "resolution_ok", "um_per_px")) {
        assertThat(fibre.has(key)).as(key).isTrue();
      }
      assertThat(fibre.at("/cladding/cx").asDouble()).isGreaterThan(290 * i);
      assertThat(fibre.get("um_per_px").asDouble()).isBetween(0.847, 0.853);
      boolean bad = i == 2 || i == 9;
      assertThat(fibre.get("outcome").asText()).isEqualTo(bad ? "rejected" : "conforms");
      flaws += fibre.get("flaws").size();
    }
    assertThat(row.get("flaws")).hasSize(flaws);
    BufferedImage drawn = ImageIO.read(out.resolve("tern-row.jpg.overlay.png").toFile());
    assertThat(drawn.getWidth()).isBetween(2000, 3700);
    Ran words = Ran.here("faces", picture, "--fibres", "12");
    assertThat(words.out())
        .contains("rejected; 12 fibres: 10 conform, 2 rejected")
        .contains("Fibre 3: Defect")
        .contains("only zones A, B are graded");
    Ran fewer = Ran.here("faces", picture, "--fibres", "8");
    assertThat(fewer.out()).contains("12 fibres were found, 8 were expected");
  }

  @Test
  void aRowInAJobDoubtsTheFibresConcernedAndIsDrawnForTheRecord() throws Exception {
    Path folder = job();
    Path links = folder.resolve("links.csv");
    List<String> rows = new ArrayList<>(Files.readAllLines(links));
    List<String> columns = List.of(rows.get(0).split(",", -1));
    String[] first = rows.get(1).split(",", -1);
    first[columns.indexOf("fibres")] = "12";
    first[columns.indexOf("a_connector")] = "MPO-PC";
    first[columns.indexOf("b_connector")] = "MPO-PC";
    rows.set(1, String.join(",", first));
    Files.write(links, rows);
    Files.copy(EXAMPLES.resolve("tern-row.jpg"), folder.resolve("faces/tern-row.jpg"));
    Files.writeString(
        folder.resolve("faces.csv"),
        "picture,subject,stage,taken_at\n"
            + "tern-row.jpg,port:C:01/1-12,found,2026-10-05T08:00:00Z\n");
    Ran judged = Ran.here("judge", folder.toString(), "--json");
    assertThat(faceDoubts(judged.out()))
        .contains("face-rejected L01/3", "face-rejected L01/10")
        .doesNotContain("face-rejected L01/1", "face-rejected L01/4");
    String file = temp.resolve("site.ferrule").toString();
    assertThat(Ran.here("new", file, "--from", folder.toString()).code()).isZero();
    assertThat(faceDoubts(Ran.here("judge", file, "--json").out()))
        .isEqualTo(faceDoubts(judged.out()));
    Path record = temp.resolve("record");
    assertThat(Ran.here("record", file, "-o", record.toString()).err()).isEmpty();
    JsonNode grade = JSON.readTree(Files.readString(record.resolve("faces.jsonl")));
    assertThat(grade.get("fibres")).hasSize(12);
    assertThat(grade.get("fibres").get(2).get("outcome").asText()).isEqualTo("rejected");
    try (PDDocument pdf = Loader.loadPDF(record.resolve("record.pdf").toFile())) {
      String text = new PDFTextStripper().getText(pdf);
      assertThat(text).contains("port:C:01/1-12, found").doesNotContain("No drawing");
    }
  }

  /** A PNG whose header promises 60000 by 60000 pixels. */
  private static byte[] bomb() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10});
    chunk(
        out, "IHDR", new byte[] {0, 0, (byte) 0xEA, 0x60, 0, 0, (byte) 0xEA, 0x60, 8, 0, 0, 0, 0});
    ByteArrayOutputStream data = new ByteArrayOutputStream();
    try (OutputStream packed = new DeflaterOutputStream(data)) {
      packed.write(new byte[1 << 20]);
    }
    chunk(out, "IDAT", data.toByteArray());
    chunk(out, "IEND", new byte[0]);
    return out.toByteArray();
  }

  private static void chunk(ByteArrayOutputStream out, String name, byte[] data) {
    byte[] named = name.getBytes(StandardCharsets.US_ASCII);
    CRC32 crc = new CRC32();
    crc.update(named);
    crc.update(data);
    number(out, data.length);
    out.writeBytes(named);
    out.writeBytes(data);
    number(out, (int) crc.getValue());
  }

  private static void number(ByteArrayOutputStream out, int number) {
    for (int shift = 24; shift >= 0; shift -= 8) {
      out.write(number >> shift);
    }
  }

  private static byte[] animatedGif() throws IOException {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("gif").next();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (var stream = ImageIO.createImageOutputStream(out)) {
      writer.setOutput(stream);
      writer.prepareWriteSequence(null);
      for (int i = 0; i < 2; i++) {
        BufferedImage frame = new BufferedImage(80, 80, BufferedImage.TYPE_BYTE_GRAY);
        writer.writeToSequence(new IIOImage(frame, null, null), null);
      }
      writer.endWriteSequence();
    }
    writer.dispose();
    return out.toByteArray();
  }

  private static byte[] cmyk() throws IOException {
    WritableRaster raster = Raster.createInterleavedRaster(DataBuffer.TYPE_BYTE, 80, 80, 4, null);
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (var stream = ImageIO.createImageOutputStream(out)) {
      writer.setOutput(stream);
      writer.write(null, new IIOImage(raster, null, null), null);
    }
    writer.dispose();
    return out.toByteArray();
  }

  /** A JPEG with an EXIF entry that asks for a quarter turn to the right. */
  private static byte[] turned(byte[] jpeg) {
    String exif =
        "ffe1002245786966" + "0000" + "4d4d002a00000008" + "0001" + "01120003000000010006";
    byte[] entry = HexFormat.of().parseHex(exif + "0000" + "00000000");
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(jpeg, 0, 2);
    out.writeBytes(entry);
    out.write(jpeg, 2, jpeg.length - 2);
    return out.toByteArray();
  }

  /** The face of a cat, drawn. */
  private static byte[] cat() throws IOException {
    BufferedImage image = new BufferedImage(400, 300, BufferedImage.TYPE_INT_RGB);
    Graphics2D out = image.createGraphics();
    out.setColor(Color.WHITE);
    out.fillRect(0, 0, 400, 300);
    out.setColor(Color.ORANGE);
    out.fillOval(110, 80, 180, 150);
    out.fillPolygon(new int[] {115, 130, 190}, new int[] {130, 30, 95}, 3);
    out.fillPolygon(new int[] {285, 270, 210}, new int[] {130, 30, 95}, 3);
    out.setColor(Color.BLACK);
    out.fillOval(155, 130, 24, 24);
    out.fillOval(221, 130, 24, 24);
    out.drawLine(200, 170, 170, 195);
    out.drawLine(200, 170, 230, 195);
    out.dispose();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    ImageIO.write(image, "png", bytes);
    return bytes.toByteArray();
  }
}
