package ferrule.record;

import ferrule.core.Problem;
import ferrule.core.application.JobApplications;
import ferrule.core.face.GradedFace;
import ferrule.core.trust.Judgement;
import ferrule.record.data.ApplicationsCsv;
import ferrule.record.data.Changes;
import ferrule.record.data.ChangesCsv;
import ferrule.record.data.Dictionary;
import ferrule.record.data.FibresCsv;
import ferrule.record.data.GradesJsonl;
import ferrule.record.data.JudgementJson;
import ferrule.record.data.ReadingsCsv;
import ferrule.record.page.DoubtEntry;
import ferrule.record.page.FaceEntry;
import ferrule.record.page.RecordPage;
import ferrule.record.pdf.RecordPdf;
import ferrule.record.seal.FileIndex;
import ferrule.record.seal.PublicKeys;
import ferrule.record.seal.RecordKey;
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
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Writes a record: one folder with pages to read, all that they were made from, the hash of each
 * file, and a signature over the hashes. The folder appears whole or not at all. The same issue and
 * key give the same bytes.
 */
public final class RecordWriter {

  private RecordWriter() {}

  /**
   * Writes a record.
   *
   * @param issue all that it is made of
   * @param key that signs it; without one it is not signed and says so
   * @param folder to be made; must not exist, or be an empty folder
   * @throws RecordException if the folder exists and is not empty, or cannot be written
   */
  public static void write(RecordIssue issue, Optional<RecordKey> key, Path folder)
      throws RecordException {
    Path target = folder.toAbsolutePath().normalize();
    refuseUnlessFree(target);
    try {
      Path parent = target.getParent();
      if (parent == null) {
        throw new IOException("a folder cannot be made there");
      }
      Files.createDirectories(parent);
      Path draft = draft(parent, target.getFileName().toString());
      try {
        fill(draft, issue, key.map(RecordKey::fingerprint));
        if (key.isPresent()) {
          sign(draft, key.get());
        } else {
          Files.writeString(draft.resolve(RecordFiles.INDEX), FileIndex.of(draft).text());
        }
        // An empty folder in the way would stop the move on some systems.
        Files.deleteIfExists(target);
        Files.move(draft, target);
      } finally {
        Scratch.discard(draft);
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

  private static void sign(Path draft, RecordKey key) throws IOException {
    Files.writeString(draft.resolve(RecordFiles.PUBLIC_KEY), PublicKeys.pem(key.open()));
    byte[] index = FileIndex.of(draft).text().getBytes(StandardCharsets.UTF_8);
    Files.write(draft.resolve(RecordFiles.INDEX), index);
    Files.write(draft.resolve(RecordFiles.SIGNATURE), key.sign(index));
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

  /**
   * Writes every file of a record but its public key, index and signature.
   *
   * @param folder there, and empty
   * @param fingerprint of the key that will sign it
   * @throws IOException if it cannot be written
   */
  public static void fill(Path folder, RecordIssue issue, Optional<String> fingerprint)
      throws IOException {
    RecordPage page =
        new RecordPage(
            issue.judgement(),
            issue.problems(),
            issue.notes(),
            issue.issuedAt(),
            issue.ferruleVersion(),
            DoubtEntry.of(issue.judgement()),
            FaceEntry.of(issue.judgement().ledger().job().graded(), issue.pictures()::drawn),
            Optional.of(
                new RecordPage.Proof(issue.log().entries(), issue.log().head(), fingerprint)),
            changes(issue));
    Judgement judgement = issue.judgement();
    try (OutputStream out =
        new BufferedOutputStream(Files.newOutputStream(folder.resolve(RecordFiles.PAGES)))) {
      RecordPdf.write(out, page);
    }
    try (Writer out = writer(folder, RecordFiles.JUDGEMENT)) {
      JudgementJson.write(out, judgement, issue.problems(), issue.notes(), false);
      out.write('\n');
    }
    try (Writer out = writer(folder, RecordFiles.FIBRES)) {
      FibresCsv.write(out, judgement);
    }
    try (Writer out = writer(folder, RecordFiles.READINGS)) {
      ReadingsCsv.write(out, judgement);
    }
    try (Writer out = writer(folder, RecordFiles.ENTRIES)) {
      issue.log().write(out);
    }
    write(folder, RecordFiles.PAPER, issue.log().paper());
    write(folder, RecordFiles.RULEBOOK, issue.log().rulebook());
    write(
        folder,
        RecordFiles.RULEBOOK_TEXT,
        RulebookText.of(judgement.ledger().requirement().rulebook()));
    write(folder, RecordFiles.DICTIONARY, Dictionary.csv());
    About about = About.of(issue, fingerprint);
    write(folder, RecordFiles.ABOUT, about.json());
    write(folder, RecordFiles.README, Readme.of(page, about));
    try (InputStream in = RecordWriter.class.getResourceAsStream("/" + RecordFiles.AUDIT_PAGE)) {
      if (in == null) {
        throw new IllegalStateException("Built without " + RecordFiles.AUDIT_PAGE);
      }
      Files.copy(in, folder.resolve(RecordFiles.AUDIT_PAGE));
    }
    if (page.changes().isPresent()) {
      try (Writer out = writer(folder, RecordFiles.CHANGES)) {
        ChangesCsv.write(out, page.changes().get().fibres());
      }
    }
    List<GradedFace> graded = judgement.ledger().job().graded();
    if (!graded.isEmpty()) {
      Map<String, String> kept = pictures(folder, graded, issue.pictures());
      try (Writer out = writer(folder, RecordFiles.GRADES)) {
        GradesJsonl.write(out, graded, kept);
      }
    }
    Optional<JobApplications> wanted = page.wanted();
    if (wanted.isPresent()) {
      try (Writer out = writer(folder, RecordFiles.APPLICATIONS)) {
        ApplicationsCsv.write(out, wanted.get().checks());
      }
    }
  }

  private static Optional<Changes> changes(RecordIssue issue) {
    return issue
        .earlier()
        .map(
            earlier ->
                Changes.of(
                    earlier.issue(),
                    earlier.issuedAt(),
                    earlier.judgement(),
                    issue.judgement(),
                    issue.log().entries() - earlier.entries()));
  }

  /** Writes each picture once, under the hash of its bytes, and names the files by hash. */
  private static Map<String, String> pictures(
      Path folder, List<GradedFace> graded, FacePictures pictures) throws IOException {
    Map<String, String> files = new LinkedHashMap<>();
    for (GradedFace face : graded) {
      Optional<byte[]> bytes =
          files.containsKey(face.sha256()) ? Optional.empty() : pictures.picture(face.sha256());
      if (bytes.isPresent()) {
        String file = RecordFiles.PICTURES + "/" + face.sha256() + ending(bytes.get());
        Files.createDirectories(folder.resolve(RecordFiles.PICTURES));
        Files.write(folder.resolve(file), bytes.get());
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

  private static Writer writer(Path folder, String file) throws IOException {
    return Files.newBufferedWriter(folder.resolve(file), StandardCharsets.UTF_8);
  }

  private static void write(Path folder, String file, String text) throws IOException {
    Files.writeString(folder.resolve(file), text);
  }
}
