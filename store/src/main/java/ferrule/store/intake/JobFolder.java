package ferrule.store.intake;

import ferrule.core.Problem;
import ferrule.core.face.GradedFace;
import ferrule.core.job.Job;
import ferrule.core.plant.FeedTree;
import ferrule.core.plant.Link;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A job folder: {@code job.toml} and its tables.
 *
 * @param paper what is required; empty if job.toml could not be used
 * @param tables in the order in which they must be put together
 * @param problems everything wrong, of files and of rows
 * @param fileNotes what a reader should know about the files; what there is to know about columns
 *     and sheets is with each table: {@link #notes(TableFile)}
 * @param whole whether every file that is there could be read: only then may the folder be judged
 */
public record JobFolder(
    Optional<JobPaper> paper,
    List<TableFile> tables,
    List<Problem> problems,
    List<String> fileNotes,
    boolean whole) {

  private static final long LARGEST_TOML = 1 << 20;
  private static final int MOST_LISTED = 20;

  /**
   * Reads a folder. Never throws for what is in it.
   *
   * @param purpose what for
   */
  public static JobFolder read(Path folder, Purpose purpose) {
    List<Problem> problems = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    Optional<JobPaper> paper = Optional.empty();
    List<TableFile> tables = new ArrayList<>();
    boolean whole = true;
    try {
      Map<TableKind, Path> files = files(folder, problems, notes);
      Path toml = folder.resolve("job.toml");
      if (Files.isRegularFile(toml)) {
        paper = readPaper(toml, "job.toml", problems, notes);
      } else {
        problems.add(
            new Problem(
                "job.toml",
                0,
                "",
                "a file job.toml in the folder",
                "none",
                "write one: title and [requirement]"));
      }
      if (!files.containsKey(TableKind.LINKS)) {
        problems.add(
            new Problem(
                "links.csv",
                0,
                "",
                "a file links.csv or links.xlsx in the folder",
                "none",
                "hand in the link schedule"));
      }
      whole = problems.isEmpty();
      // Each file is read for itself; what is said of them keeps their order.
      List<TableReader.Outcome> outcomes =
          files.entrySet().parallelStream()
              .map(
                  entry ->
                      TableReader.read(
                          entry.getValue(),
                          fileName(entry.getValue()),
                          Optional.of(entry.getKey()),
                          purpose))
              .toList();
      for (TableReader.Outcome outcome : outcomes) {
        problems.addAll(outcome.problems());
        whole &= outcome.problems().isEmpty();
        tables.addAll(outcome.tables());
      }
    } catch (IOException e) {
      whole = false;
      problems.add(
          new Problem(
              folder.toString(),
              0,
              "",
              "a folder that can be read",
              TableReader.reason(e),
              "check the name"));
    }
    for (TableFile table : tables) {
      problems.addAll(table.problems());
    }
    return new JobFolder(paper, tables, problems, notes, whole);
  }

  /** What a reader should know of a table: columns and sheets that are kept nowhere. */
  public static List<String> notes(TableFile table) {
    List<String> notes = new ArrayList<>();
    if (!table.unknownColumns().isEmpty()) {
      notes.add(
          table.name() + ": unknown columns, kept nowhere: " + listed(table.unknownColumns()));
    }
    if (!table.unreadSheets().isEmpty()) {
      notes.add(
          table.name()
              + ": only the first sheet is read; kept nowhere: "
              + listed(table.unreadSheets()));
    }
    return notes;
  }

  private static String listed(List<String> names) {
    return String.join(", ", names.subList(0, Math.min(names.size(), MOST_LISTED)))
        + (names.size() > MOST_LISTED ? " and " + (names.size() - MOST_LISTED) + " more" : "");
  }

  static String fileName(Path path) {
    Path name = path.getFileName();
    return name == null ? path.toString() : name.toString();
  }

  private static Map<TableKind, Path> files(Path folder, List<Problem> problems, List<String> notes)
      throws IOException {
    Map<TableKind, Path> files = new EnumMap<>(TableKind.class);
    List<Path> found;
    try (Stream<Path> list = Files.list(folder)) {
      found = list.filter(Files::isRegularFile).sorted().toList();
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    for (Path path : found) {
      String name = fileName(path);
      if (name.startsWith(".") || name.toLowerCase(Locale.ROOT).endsWith(".toml")) {
        continue;
      }
      Optional<TableKind> kind = TableKind.ofFileName(name);
      if (!TableReader.reads(name) || kind.isEmpty()) {
        notes.add(
            Problem.printable(name)
                + (kind.isEmpty()
                    ? ": not a table of a job folder; not read"
                    : ": neither .csv nor .xlsx; not read"));
        continue;
      }
      Path earlier = files.putIfAbsent(kind.get(), path);
      if (earlier != null) {
        problems.add(
            new Problem(
                name,
                0,
                "",
                "one file of " + kind.get().stem(),
                fileName(earlier) + " as well",
                "keep one of the two"));
      }
    }
    return files;
  }

  /**
   * Reads a job.toml.
   *
   * @param name name to show in problems
   */
  public static Optional<JobPaper> readPaper(
      Path toml, String name, List<Problem> problems, List<String> notes) {
    Optional<String> text = readText(toml, name, problems);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    List<Problem> unreadable = new ArrayList<>();
    JobPaper.Outcome outcome =
        JobPaper.read(name, text.get(), rulebook -> ownRulebook(toml, rulebook, unreadable));
    problems.addAll(unreadable);
    for (Problem problem : outcome.problems()) {
      // A rulebook that is there but cannot be read has been complained of already.
      if (unreadable.isEmpty() || !problem.column().equals(JobPaper.RULEBOOK_KEY)) {
        problems.add(problem);
      }
    }
    notes.addAll(outcome.notes());
    return outcome.paper();
  }

  /**
   * The text of a paper or a rulebook; empty, with a problem, if it is no UTF-8 of at most 1 MiB.
   *
   * @param name name to show in problems
   */
  public static Optional<String> readText(Path path, String name, List<Problem> problems) {
    try {
      if (Files.size(path) > LARGEST_TOML) {
        problems.add(
            new Problem(
                name,
                0,
                "",
                "at most 1 MiB of text",
                Files.size(path) + " bytes",
                "check the file"));
        return Optional.empty();
      }
      String text = Files.readString(path);
      return Optional.of(text.startsWith("\uFEFF") ? text.substring(1) : text);
    } catch (CharacterCodingException e) {
      problems.add(EncodingFault.locate(path, name));
    } catch (IOException e) {
      problems.add(
          new Problem(name, 0, "", "a file that can be read", TableReader.reason(e), "check it"));
    }
    return Optional.empty();
  }

  private static Optional<String> ownRulebook(Path toml, String name, List<Problem> problems) {
    try {
      Path beside = toml.toAbsolutePath().normalize();
      Path path = beside.resolveSibling(name).normalize();
      if (!Files.isRegularFile(path) && !name.toLowerCase(Locale.ROOT).endsWith(".toml")) {
        path = beside.resolveSibling("rulebooks").resolve(name + ".toml").normalize();
      }
      Path folder = beside.getParent();
      boolean inside = folder != null && path.startsWith(folder);
      return inside && Files.isRegularFile(path)
          ? readText(path, name, problems)
          : Optional.empty();
    } catch (InvalidPathException e) {
      return Optional.empty();
    }
  }

  /**
   * The folder as a job, with every row that did not fit among the problems; empty if it is not
   * whole.
   */
  public Assembled assemble() {
    return assemble(List.of());
  }

  /**
   * The folder as a job with the grades of its pictures, which were given elsewhere.
   *
   * @param grades grades of pictures that faces.csv lists
   */
  public Assembled assemble(List<GradedFace> grades) {
    List<Problem> all = new ArrayList<>(problems);
    List<String> notes = new ArrayList<>(fileNotes);
    tables.forEach(table -> notes.addAll(notes(table)));
    if (!whole || paper.isEmpty()) {
      return new Assembled(Optional.empty(), all, notes);
    }
    JobAssembler assembler = new JobAssembler();
    for (TableFile table : tables) {
      List<TableRow> rows = table.rows();
      for (int i = 0; i < rows.size(); i++) {
        TableRow row = rows.get(i);
        if (assembler.admit(row, table.name(), table.rowNumbers().get(i), all::add)) {
          assembler.add(row);
        }
      }
    }
    for (TableFile table : tables) {
      feedFaults(table, all);
    }
    grades.forEach(grade -> assembler.add(new TableRow.GradeRow(grade)));
    return new Assembled(Optional.of(assembler.assemble(paper.get().requirement())), all, notes);
  }

  /** Links whose feeders lead to no head: the rows stay, and their readings prove nothing. */
  private static void feedFaults(TableFile table, List<Problem> problems) {
    if (table.kind() != TableKind.LINKS) {
      return;
    }
    Map<String, Long> rows = new HashMap<>();
    List<Link> links = new ArrayList<>();
    for (int i = 0; i < table.rows().size(); i++) {
      if (table.rows().get(i) instanceof TableRow.LinkRow row) {
        links.add(row.link());
        rows.put(row.link().id(), (long) table.rowNumbers().get(i));
      }
    }
    for (FeedTree.Fault fault : FeedTree.faults(links)) {
      problems.add(
          new Problem(
              table.name(),
              rows.getOrDefault(fault.link(), 0L),
              "fed_by",
              fault.expected(),
              fault.found(),
              fault.action()));
    }
  }

  /** A job with what was wrong on the way to it. */
  public record Assembled(Optional<Job> job, List<Problem> problems, List<String> notes) {}
}
