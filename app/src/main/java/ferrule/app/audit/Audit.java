package ferrule.app.audit;

import ferrule.app.BadInputException;
import ferrule.app.Version;
import ferrule.app.face.DrawnPictures;
import ferrule.core.Problem;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.record.About;
import ferrule.record.JobLog;
import ferrule.record.RecordFiles;
import ferrule.record.RecordIssue;
import ferrule.record.RecordWriter;
import ferrule.record.Scratch;
import ferrule.record.audit.Difference;
import ferrule.record.audit.Difference.Kind;
import ferrule.record.audit.RecordComparison;
import ferrule.record.audit.RecordNotes;
import ferrule.record.audit.SealCheck;
import ferrule.store.job.JobFileException;
import ferrule.store.job.OpenLog;
import ferrule.store.job.WrittenJob;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Audits a record: signature and hashes, the chain of entries, and everything computed anew from
 * the entries and compared. Takes nothing but the record's folder.
 */
public final class Audit {

  private final Path folder;
  private final Optional<String> expectedKey;
  private final Remaker remaker;
  private final List<Difference> differences = new ArrayList<>();
  private final List<String> notes = new ArrayList<>();

  /**
   * @param folder of the record
   * @param expectedKey fingerprint that its key must have; empty if any will do
   */
  public Audit(Path folder, Optional<String> expectedKey) {
    this(folder, expectedKey, Audit::remake);
  }

  Audit(Path folder, Optional<String> expectedKey, Remaker remaker) {
    this.folder = folder;
    this.expectedKey = expectedKey;
    this.remaker = remaker;
  }

  /**
   * Does it.
   *
   * @throws BadInputException if the folder is no record, or one of a later format
   * @throws IOException if it cannot be read, or there is no room to make it anew
   */
  public AuditReport run() throws BadInputException, IOException {
    refuseUnlessRecord();
    Optional<About> about = About.in(folder);
    SealCheck seal = SealCheck.of(folder, expectedKey);
    boolean aboutChanged = seal.changed().contains(RecordFiles.ABOUT);
    if (about.isPresent() && about.get().format() > About.FORMAT && !aboutChanged) {
      throw refused(
          RecordFiles.ABOUT,
          "a record of format " + About.FORMAT + " or older",
          "format " + about.get().format() + ", by Ferrule " + about.get().ferruleVersion(),
          "audit it with that version, or a newer one");
    }
    timeStamp(seal);
    if (about.isPresent()) {
      signer(about.get(), seal);
    } else if (!aboutChanged) {
      differences.add(
          new Difference(
              Kind.DIFFERS,
              RecordFiles.ABOUT,
              0,
              "",
              "nothing that can be understood",
              "what a record says of itself"));
    }
    Optional<WrittenJob> job = entries(seal);
    Optional<AuditReport.Recomputed> recomputed = Optional.empty();
    long beyond = 0;
    boolean whole = false;
    if (job.isPresent()) {
      Optional<About> issue = aboutChanged ? asInReadme(job.get(), seal) : about;
      if (issue.isPresent()) {
        Path scratch = Files.createTempDirectory("ferrule-audit-");
        try {
          Remaker.Remade remade =
              remaker.remake(folder, issue.get(), job.get(), issuedNotes(job.get(), seal), scratch);
          recomputed = Optional.of(remade.recomputed());
          boolean sameVersion = issue.get().ferruleVersion().equals(Version.number());
          RecordComparison comparison =
              new RecordComparison(folder, remade.folder(), seal.changed(), sameVersion);
          comparison.compare();
          seal.differences().forEach(d -> differences.add(comparison.located(d)));
          differences.addAll(comparison.differences());
          beyond = comparison.beyond();
          notes.addAll(comparison.notes());
          whole = sameVersion;
          if (!sameVersion) {
            notes.add(
                "The record is by Ferrule "
                    + issue.get().ferruleVersion()
                    + ", this is "
                    + Version.number()
                    + ": its data were compared as far as both know them, its pages and pages of"
                    + " help were not made anew");
          }
        } finally {
          Scratch.discard(scratch);
        }
      }
    }
    if (recomputed.isEmpty()) {
      // Entries that are no chain are named with their line already.
      boolean broken = differences.stream().anyMatch(d -> d.kind() == Kind.CHAIN);
      seal.differences().stream()
          .filter(d -> !broken || !d.file().equals(RecordFiles.ENTRIES))
          .forEach(differences::add);
      notes.add("Nothing could be computed anew");
    }
    differences.sort(Comparator.comparing(Difference::kind));
    return new AuditReport(
        about, seal, job.isPresent(), recomputed, whole, differences, beyond, notes);
  }

  private void refuseUnlessRecord() throws BadInputException {
    if (!Files.isDirectory(folder)) {
      throw refused("", "the folder of a record", "no folder of this name", "check the name");
    }
    boolean about = Files.isRegularFile(folder.resolve(RecordFiles.ABOUT));
    boolean index = Files.isRegularFile(folder.resolve(RecordFiles.INDEX));
    boolean entries = Files.isRegularFile(folder.resolve(RecordFiles.ENTRIES));
    if (!about && !entries) {
      throw refused(
          "",
          "a record with " + RecordFiles.ABOUT + " and " + RecordFiles.ENTRIES,
          index
              ? "an index and neither: a record from before these were kept"
              : "a folder that is no record",
          index
              ? "issue it anew; its hashes alone: sha256sum --check index.txt"
              : "check the name");
    }
    if (!index) {
      throw refused(
          RecordFiles.INDEX, "the index of the record", "none", "ask for the record anew");
    }
  }

  private BadInputException refused(String file, String expected, String found, String action) {
    return new BadInputException(
        new Problem(folder.resolve(file).toString(), 0, "", expected, found, action));
  }

  /** What record.json said before it was changed, if the page of help still says so. */
  private Optional<About> asInReadme(WrittenJob job, SealCheck seal) throws IOException {
    String changedAbout =
        new String(
            Files.readAllBytes(folder.resolve(RecordFiles.ABOUT)), StandardCharsets.ISO_8859_1);
    Path readme = folder.resolve(RecordFiles.README);
    if (!Files.isRegularFile(readme) || seal.changed().contains(RecordFiles.README)) {
      return Optional.empty();
    }
    return RecordNotes.issueIn(Files.readString(readme))
        .map(
            issue ->
                new About(
                    About.FORMAT,
                    job.stored().job().requirement().title(),
                    issue.at(),
                    issue.version(),
                    job.stored().job().requirement().decision().word(),
                    changedAbout.contains(JobLog.Origin.JOB_FOLDER.word())
                        ? JobLog.Origin.JOB_FOLDER
                        : JobLog.Origin.JOB_FILE,
                    job.stored().entries(),
                    job.stored().head(),
                    seal.fingerprint(),
                    issue.number(),
                    issue.since()));
  }

  private void signer(About about, SealCheck seal) {
    if (about.signedBy().equals(seal.fingerprint())
        || seal.changed().contains(RecordFiles.ABOUT)
        || seal.changed().contains(RecordFiles.PUBLIC_KEY)) {
      return;
    }
    differences.add(
        new Difference(
            Kind.SIGNATURE,
            RecordFiles.ABOUT,
            0,
            "signed_by",
            about.signedBy().map(f -> "names key " + f).orElse("says that it is not signed")
                + "; there is "
                + seal.fingerprint().map(f -> "key " + f).orElse("no key"),
            ""));
  }

  private Optional<WrittenJob> entries(SealCheck seal) throws IOException {
    Path file = folder.resolve(RecordFiles.ENTRIES);
    if (!Files.isRegularFile(file)) {
      if (!seal.changed().contains(RecordFiles.ENTRIES)) {
        differences.add(
            new Difference(
                Kind.MISSING,
                RecordFiles.ENTRIES,
                0,
                "",
                "not there, and the index does not list it: nothing can be computed anew",
                ""));
      }
      return Optional.empty();
    }
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(Files.newInputStream(file), StandardCharsets.UTF_8))) {
      return Optional.of(OpenLog.read(RecordFiles.ENTRIES, in));
    } catch (JobFileException e) {
      differences.add(
          new Difference(
              Kind.CHAIN,
              RecordFiles.ENTRIES,
              e.problem().row(),
              "",
              "expected " + e.problem().expected() + "; found " + e.problem().found(),
              ""));
      return Optional.empty();
    }
  }

  /**
   * Notes are what the maker was told; they follow from nothing and are taken as they stand. If
   * they were changed, those that follow from the papers are left.
   */
  private List<String> issuedNotes(WrittenJob job, SealCheck seal) throws IOException {
    Path file = folder.resolve(RecordFiles.JUDGEMENT);
    return Files.isRegularFile(file) && !seal.changed().contains(RecordFiles.JUDGEMENT)
        ? RecordNotes.of(file)
        : job.stored().notes();
  }

  private void timeStamp(SealCheck seal) throws IOException {
    Path token = folder.resolve(RecordFiles.TIME_STAMP);
    if (!Files.isRegularFile(token)) {
      return;
    }
    notes.add(
        RecordFiles.TIME_STAMP
            + (RecordNotes.holdsHash(token, folder.resolve(RecordFiles.INDEX))
                ? " holds the hash of this index; Ferrule does not check who stamped it: openssl ts"
                    + " -verify does"
                : " does not hold the SHA-256 hash of this index: it is of something else"));
  }

  /** Judges what the entries say and writes the record of it. */
  static Remaker.Remade remake(
      Path record, About about, WrittenJob job, List<String> notes, Path scratch)
      throws IOException {
    Judgement judgement = Judge.judge(job.stored().job());
    Optional<RecordIssue.Earlier> earlier = Optional.empty();
    if (about.since().isPresent()) {
      earlier =
          Optional.of(
              EarlierIssue.of(
                  record.resolve(RecordFiles.ENTRIES),
                  about.issue() - 1,
                  about.since().get().issuedAt(),
                  about.since().get().entries()));
    }
    RecordWriter.fill(
        scratch,
        new RecordIssue(
            judgement,
            job.stored().problems(),
            notes,
            about.issuedAt(),
            about.ferruleVersion(),
            new DrawnPictures(new RecordFolderPictures(record)),
            new WrittenLog(job, about.origin(), out -> copyEntries(record, out)),
            earlier),
        about.signedBy());
    return new Remaker.Remade(
        scratch,
        new AuditReport.Recomputed(
            job.stored().entries(),
            job.stored().head(),
            judgement.fibres().size(),
            judgement.ledger().readings().size(),
            judgement.zeros().size(),
            judgement.doubts().size()));
  }

  /** The entries of the record itself: they have been checked and are what all is made of. */
  private static void copyEntries(Path record, Writer out) throws IOException {
    try (BufferedReader in =
        Files.newBufferedReader(record.resolve(RecordFiles.ENTRIES), StandardCharsets.UTF_8)) {
      in.transferTo(out);
    }
  }
}
