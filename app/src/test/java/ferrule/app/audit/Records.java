package ferrule.app.audit;

import ferrule.app.Main;
import ferrule.app.Terminal;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** Records for tests, made by the command. */
final class Records {

  /** The root of the project. */
  static final Path ROOT = Path.of("..").toAbsolutePath().normalize();

  static final Path LIBRARY = ROOT.resolve("examples/library");

  private Records() {}

  /** What a run of the command gave: its exit code, and all that it printed. */
  record Run(int code, String out, String err) {}

  static Run run(String... arguments) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    Terminal terminal =
        new Terminal(new PrintWriter(out), new PrintWriter(err, true), false, Map.of());
    int code = Main.run(arguments, terminal);
    terminal.out().flush();
    return new Run(code, out.toString(), err.toString());
  }

  /** The library as a job file with a correction in it, and its record. */
  static Path library(Path temp) throws IOException {
    Path job = temp.resolve("library.ferrule");
    must(run("new", job.toString(), "--from", LIBRARY.toString()));
    Path more = Files.createDirectories(temp.resolve("more")).resolve("links.csv");
    List<String> rows = Files.readAllLines(LIBRARY.resolve("links.csv"));
    Files.writeString(more, rows.get(0) + "\n" + rows.get(1).replace(",180,", ",181.5,") + "\n");
    must(run("add", job.toString(), more.toString(), "--supersede", "measured with a wheel"));
    return record(job, temp.resolve("record"));
  }

  /** The library with a graded end face, and the second issue of its record: all kinds of files. */
  static Path libraryWithAFace(Path temp) throws IOException {
    Path folder = Files.createDirectories(temp.resolve("folder"));
    try (Stream<Path> files = Files.list(LIBRARY)) {
      for (Path file : files.toList()) {
        Files.copy(file, folder.resolve(String.valueOf(file.getFileName())));
      }
    }
    Path faces = Files.createDirectory(folder.resolve("faces"));
    Files.copy(ROOT.resolve("examples/faces/heron-2-found.jpg"), faces.resolve("heron.jpg"));
    Files.writeString(
        folder.resolve("faces.csv"),
        "picture,subject,stage,class,taken_at,operator\n"
            + "heron.jpg,port:C:01/1,found,sm-pc,2026-10-05T07:50:00Z,Wren\n");
    Path toml = folder.resolve("job.toml");
    Files.writeString(toml, Files.readString(toml) + "applications = [\"10GBASE-LR\"]\n");
    Path job = temp.resolve("faces.ferrule");
    must(run("new", job.toString(), "--from", folder.toString()));
    Path first = record(job, temp.resolve("first"));
    Path more = Files.createDirectories(temp.resolve("more")).resolve("readings.csv");
    Files.writeString(
        more,
        Files.readAllLines(LIBRARY.resolve("readings.csv")).get(0)
            + "\nL02,1,B-A,1550,,0.47,240.4,R1,2026-10-05T10:14:00+01:00,Wren\n");
    must(run("add", job.toString(), more.toString()));
    return record(job, temp.resolve("record"), "--since", first.toString());
  }

  /** The record of a job. */
  static Path record(Path job, Path folder, String... options) {
    String[] arguments =
        Stream.concat(
                Stream.of(
                    "record",
                    job.toString(),
                    "-o",
                    folder.toString(),
                    "--issued-at",
                    "2026-10-06T09:00:00+02:00"),
                Stream.of(options))
            .toArray(String[]::new);
    must(run(arguments));
    return folder;
  }

  private static void must(Run run) {
    boolean said = run.err().lines().anyMatch(line -> !line.startsWith("Note: "));
    if (run.code() > 1 || said) {
      throw new AssertionError(run.toString());
    }
  }

  /** Two crews' files of the library that say differently how long a link is, joined. */
  static Path joined(Path temp) throws IOException {
    Path one = temp.resolve("one.ferrule");
    must(run("new", one.toString(), "--from", LIBRARY.toString(), "--by", "Wren"));
    Path other = Files.copy(one, temp.resolve("other.ferrule"));
    for (Path job : List.of(one, other)) {
      Path folder = Files.createDirectories(temp.resolve("by-" + job.getFileName()));
      List<String> links = Files.readAllLines(LIBRARY.resolve("links.csv"));
      String length = job.equals(one) ? ",181.5," : ",182.5,";
      Path changed = folder.resolve("links.csv");
      Files.writeString(
          changed,
          links.get(0)
              + "\n"
              + links.get(1).replace(",180,", length)
              + "\n"
              + links.get(2).replace(",OS2,", ",OS9,")
              + "\n");
      run("add", job.toString(), changed.toString(), "--supersede", "measured");
    }
    Path job = temp.resolve("joined.ferrule");
    Run run = run("join", one.toString(), other.toString(), "--into", job.toString());
    if (!Files.exists(job)) {
      throw new AssertionError(run.toString());
    }
    return job;
  }

  /** A copy of a record that may be damaged. */
  static Path copy(Path record, Path folder) throws IOException {
    try (Stream<Path> inside = Files.walk(record)) {
      for (Path path : inside.sorted().toList()) {
        Files.copy(path, folder.resolve(record.relativize(path).toString()));
      }
    }
    return folder;
  }
}
