package ferrule.record;

import ferrule.core.Problem;
import ferrule.core.application.JobApplications;
import ferrule.core.face.GradedFace;
import ferrule.core.trust.Judgement;
import ferrule.record.data.ApplicationsCsv;
import ferrule.record.data.FibresCsv;
import ferrule.record.data.GradesJsonl;
import ferrule.record.data.JudgementJson;
import ferrule.record.data.ReadingsCsv;
import ferrule.record.page.DoubtEntry;
import ferrule.record.page.FaceEntry;
import ferrule.record.page.RecordPage;
import ferrule.record.pdf.RecordPdf;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Writes a record: one folder with pages to read, the data they were made from, and the hash of
 * each file. The folder appears whole or not at all. The same judgement, problems, notes, time of
 * issue and version give the same bytes.
 */
public final class RecordWriter {

  /** The pages. */
  public static final String PAGES = "record.pdf";

  /** The list of hashes, which names every other file. */
  public static final String INDEX = "index.txt";

  private static final String GRADES = "faces.jsonl";
  private static final String PICTURES = "pictures";
  private static final String APPLICATIONS = "applications.csv";

  private static final List<String> FILES =
      List.of(PAGES, "judgement.json", "fibres.csv", "readings.csv", "rulebook.txt", "README.txt");

  private RecordWriter() {}

  /**
   * Writes a record.
   *
   * @param judgement what was found
   * @param problems what was wrong with the input
   * @param notes what else a reader of the input must know, each a sentence
   * @param folder to be made; must not exist, or be an empty folder
   * @param issuedAt time of issue
   * @param ferruleVersion version of the program
   * @throws RecordException if the folder exists and is not empty, or cannot be written
   */
  public static void write(
      Judgement judgement,
      List<Problem> problems,
      List<String> notes,
      Path folder,
      Instant issuedAt,
      String ferruleVersion)
      throws RecordException {
    write(judgement, problems, notes, folder, issuedAt, ferruleVersion, FacePictures.NONE);
  }

  /**
   * Writes a record with the pictures of end faces that the job's grades name.
   *
   * @param judgement what was found
   * @param problems what was wrong with the input
   * @param notes what else a reader of the input must know, each a sentence
   * @param folder to be made; must not exist, or be an empty folder
   * @param issuedAt time of issue
   * @param ferruleVersion version of the program
   * @param pictures gives the pictures; those that it does not have are left out
   * @throws RecordException if the folder exists and is not empty, or cannot be written
   */
  public static void write(
      Judgement judgement,
      List<Problem> problems,
      List<String> notes,
      Path folder,
      Instant issuedAt,
      String ferruleVersion,
      FacePictures pictures)
      throws RecordException {
    Path target = folder.toAbsolutePath().normalize();
    refuseUnlessFree(target);
    RecordPage page =
        new RecordPage(
            judgement,
            problems,
            notes,
            issuedAt,
            ferruleVersion,
            DoubtEntry.of(judgement),
            FaceEntry.of(judgement.ledger().job().graded(), pictures::drawn));
    try {
      Path parent = target.getParent();
      if (parent == null) {
        throw new IOException("a folder cannot be made there");
      }
      Files.createDirectories(parent);
      Path draft = draft(parent, target.getFileName().toString());
      try {
        fill(draft, page, pictures);
        // An empty folder in the way would stop the move on some systems.
        Files.deleteIfExists(target);
        Files.move(draft, target);
      } finally {
        discard(draft);
      }
    } catch (IOException | UncheckedIOException e) {
      throw new RecordException(
          new Problem(
              folder.toString(),
              0,
              "",
              "a folder that can be written",
              e.getMessage() == null ? e.toString() : e.getMessage(),
              "name another folder, or make room"),
          e);
    }
  }

  private static void refuseUnlessFree(Path target) throws RecordException {
    if (!Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    String found;
    if (Files.isDirectory(target, LinkOption.NOFOLLOW_LINKS)) {
      try (Stream<Path> inside = Files.list(target)) {
        if (inside.findAny().isEmpty()) {
          return;
        }
        found = "a folder that holds something";
      } catch (IOException e) {
        found = "a folder that cannot be read";
      }
    } else {
      found = "a file of that name";
    }
    throw new RecordException(
        new Problem(
            target.toString(),
            0,
            "",
            "a folder that does not exist yet, or is empty",
            found,
            "name another folder: a record is never written over"));
  }

  /** A folder beside the target, so that moving it is one step of the file system. */
  private static Path draft(Path parent, String name) throws IOException {
    for (int i = 1; ; i++) {
      Path draft = parent.resolve("." + name + ".draft-" + i);
      try {
        return Files.createDirectory(draft);
      } catch (FileAlreadyExistsException e) {
        if (i == 1000) {
          throw e;
        }
      }
    }
  }

  private static void discard(Path draft) throws IOException {
    if (Files.exists(draft)) {
      for (String file : FILES) {
        Files.deleteIfExists(draft.resolve(file));
      }
      Files.deleteIfExists(draft.resolve(INDEX));
      Files.deleteIfExists(draft.resolve(GRADES));
      Files.deleteIfExists(draft.resolve(APPLICATIONS));
      Path pictures = draft.resolve(PICTURES);
      if (Files.isDirectory(pictures, LinkOption.NOFOLLOW_LINKS)) {
        try (Stream<Path> inside = Files.list(pictures)) {
          for (Path picture : inside.toList()) {
            Files.delete(picture);
          }
        }
        Files.delete(pictures);
      }
      Files.deleteIfExists(draft);
    }
  }

  private static void fill(Path draft, RecordPage page, FacePictures pictures) throws IOException {
    Judgement judgement = page.judgement();
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(draft.resolve(PAGES)))) {
      RecordPdf.write(out, page);
    }
    try (Writer out = writer(draft, "judgement.json")) {
      JudgementJson.write(out, judgement, page.problems(), page.notes(), false);
      out.write('\n');
    }
    try (Writer out = writer(draft, "fibres.csv")) {
      FibresCsv.write(out, judgement);
    }
    try (Writer out = writer(draft, "readings.csv")) {
      ReadingsCsv.write(out, judgement);
    }
    try (Writer out = writer(draft, "rulebook.txt")) {
      out.write(RulebookText.of(judgement.ledger().requirement().rulebook()));
    }
    try (Writer out = writer(draft, "README.txt")) {
      out.write(readme(page));
    }
    List<String> files = new ArrayList<>(FILES);
    List<GradedFace> graded = judgement.ledger().job().graded();
    if (!graded.isEmpty()) {
      files.add(GRADES);
      Map<String, String> kept = pictures(draft, graded, pictures);
      files.addAll(kept.values());
      try (Writer out = writer(draft, GRADES)) {
        GradesJsonl.write(out, graded, kept);
      }
    }
    Optional<JobApplications> wanted = page.wanted();
    if (wanted.isPresent()) {
      files.add(APPLICATIONS);
      try (Writer out = writer(draft, APPLICATIONS)) {
        ApplicationsCsv.write(out, wanted.get().checks());
      }
    }
    try (Writer out = writer(draft, INDEX)) {
      for (String file : files) {
        out.write(sha256(draft.resolve(file)) + "  " + file + "\n");
      }
    }
  }

  /** Writes each picture once, under the hash of its bytes, and names the files by hash. */
  private static Map<String, String> pictures(
      Path draft, List<GradedFace> graded, FacePictures pictures) throws IOException {
    Map<String, String> files = new LinkedHashMap<>();
    for (GradedFace face : graded) {
      Optional<byte[]> bytes =
          files.containsKey(face.sha256()) ? Optional.empty() : pictures.picture(face.sha256());
      if (bytes.isPresent()) {
        String file = PICTURES + "/" + face.sha256() + ending(bytes.get());
        Files.createDirectories(draft.resolve(PICTURES));
        Files.write(draft.resolve(file), bytes.get());
        files.put(face.sha256(), file);
      }
    }
    return files;
  }

  private static String ending(byte[] bytes) {
    int first = bytes.length == 0 ? 0 : bytes[0] & 0xFF;
    return switch (first) {
      case 0x89 -> ".png";
      case 0xFF -> ".jpg";
      case 'B' -> ".bmp";
      default -> ".tif";
    };
  }

  private static Writer writer(Path draft, String file) throws IOException {
    return Files.newBufferedWriter(draft.resolve(file), StandardCharsets.UTF_8);
  }

  private static String readme(RecordPage page) {
    return page.cover().title().replaceAll("\\R", " ")
        + "\nRecord of fibre loss tests, issued "
        + page.issuedAt()
        + " with Ferrule "
        + page.version()
        + """


        record.pdf      the pages to read; begin here
        judgement.json  everything on the pages and more, for programs: every fibre, reading,
                        zero, doubt and action; numbers unrounded
        fibres.csv      one row for each fibre: where it runs, where it stands and why
        readings.csv    one row for each reading handed in, replaced ones included; unrounded
        rulebook.txt    every figure of the rulebook with its source
        faces.jsonl     if pictures of end faces were graded: one line for each grade
        applications.csv
                        if the job wants applications: one row for each link and application
        pictures        those pictures, each named after the SHA-256 hash of its bytes
        README.txt      this page
        index.txt       the SHA-256 hash of each file above, as sha256sum prints it: a file
                        that was changed afterwards no longer fits its hash

        Text is UTF-8. Tables are comma separated with a decimal point; times are UTC. In a table,
        an apostrophe before a text keeps spreadsheets from taking it for a formula.
        In record.pdf, \uFFFD stands for a letter that the fonts do not hold; the other
        files have the letter.

        A limit can be added up again: in judgement.json each reading has limit_terms, a count and
        the number of a part, and limit_parts gives each part's loss and its source.

        proved    every required reading is there, within its limit, and not in doubt
        failed    a reading that can be believed is over its limit
        doubtful  a doubt holds readings back: they prove nothing until it is settled
        open      something required is missing, or a reading lies too near its limit

        Figures marked † are from memory: confirm against the standard.
        Light in a fibre is invisible and may hurt. Never look into a fibre that may be lit.
        Local codes, the network owner and licensed practice decide.
        """;
  }

  private static String sha256(Path file) throws IOException {
    MessageDigest digest;
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("Every Java has SHA-256", e);
    }
    byte[] buffer = new byte[64 * 1024];
    try (InputStream in = Files.newInputStream(file)) {
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        digest.update(buffer, 0, n);
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }
}
