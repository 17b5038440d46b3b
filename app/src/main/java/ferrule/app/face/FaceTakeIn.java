package ferrule.app.face;

import ferrule.core.Problem;
import ferrule.core.face.Criteria;
import ferrule.core.face.FaceClass;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.FacePicture;
import ferrule.core.face.GradedFace;
import ferrule.core.face.PortSubject;
import ferrule.core.face.ShippedCriteria;
import ferrule.core.job.Job;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Link;
import ferrule.store.intake.Sha256;
import ferrule.store.intake.TableFile;
import ferrule.store.intake.TableKind;
import ferrule.store.intake.TableRow;
import ferrule.store.job.KeptPicture;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.LongConsumer;

/**
 * Grades the pictures that tables of faces list, on their way into a job. The pictures lie in the
 * folder {@code faces} beside the table; nothing outside of it is read. A picture that the job
 * holds a grade of, by the same bytes, criteria and class, is not graded again.
 *
 * @param tables all tables, those of faces with the problems of their pictures
 * @param grades what the pictures came to, in the order listed
 * @param pictures the graded pictures
 */
public record FaceTakeIn(
    List<TableFile> tables, List<GradedFace> grades, List<KeptPicture> pictures) {

  /** Largest picture that a job keeps, bytes. */
  public static final long MOST_BYTES = 64L << 20;

  /**
   * A table with the folder that its file lies in.
   *
   * @param table any table
   * @param folder of its file
   */
  public record Source(TableFile table, Path folder) {}

  private record Listed(int table, long row, Path folder, FacePicture picture) {}

  private record Found(Listed listed, Optional<GradedFace> grade, Optional<Problem> problem) {}

  /**
   * Grades them.
   *
   * @param sources tables of any kind
   * @param job the job as it is without these tables, or with them
   * @param progress told how many pictures are graded
   */
  public static FaceTakeIn grade(List<Source> sources, Job job, LongConsumer progress) {
    List<Listed> listed = listed(sources);
    if (listed.isEmpty()) {
      return new FaceTakeIn(sources.stream().map(Source::table).toList(), List.of(), List.of());
    }
    Criteria criteria = ShippedCriteria.find(job.requirement().rulebook().faces()).orElseThrow();
    FaceClasses classes = classes(sources, job);
    Set<GradedFace> known = new HashSet<>();
    // What one version of Ferrule could not read, another may.
    job.graded().stream()
        .filter(grade -> grade.outcome() != FaceOutcome.UNREADABLE)
        .forEach(grade -> known.add(bare(grade)));
    PictureGrader grader = new PictureGrader();
    List<GradedFace> grades = new ArrayList<>();
    List<KeptPicture> pictures = new ArrayList<>();
    List<List<Problem>> problems = new ArrayList<>();
    sources.forEach(source -> problems.add(new ArrayList<>(source.table().problems())));
    long[] done = {0};
    InOrder.run(
        listed,
        one -> look(one, sources.get(one.table()).table().name(), criteria, classes, known, grader),
        found -> {
          found.problem().ifPresent(problems.get(found.listed().table())::add);
          if (found.grade().isPresent()) {
            GradedFace grade = found.grade().get();
            Path file = faces(found.listed().folder()).resolve(grade.listed().picture());
            pictures.add(
                new KeptPicture(grade.sha256(), file.toString(), () -> Files.readAllBytes(file)));
            if (!known.contains(bare(grade))) {
              grades.add(grade);
            }
          }
          progress.accept(++done[0]);
        });
    List<TableFile> tables = new ArrayList<>();
    for (int i = 0; i < sources.size(); i++) {
      tables.add(with(sources.get(i).table(), problems.get(i)));
    }
    return new FaceTakeIn(tables, grades, pictures);
  }

  private static List<Listed> listed(List<Source> sources) {
    List<Listed> listed = new ArrayList<>();
    for (int i = 0; i < sources.size(); i++) {
      TableFile table = sources.get(i).table();
      for (int k = 0; table.kind() == TableKind.FACES && k < table.rows().size(); k++) {
        if (table.rows().get(k) instanceof TableRow.FaceRow row) {
          listed.add(new Listed(i, table.rowNumbers().get(k), sources.get(i).folder(), row.face()));
        }
      }
    }
    return listed;
  }

  private static FaceClasses classes(List<Source> sources, Job job) {
    Collection<Link> links = new ArrayList<>(job.links());
    Collection<Cord> cords = new ArrayList<>(job.cords());
    for (Source source : sources) {
      for (TableRow row :
          source.table().kind() == TableKind.READINGS
              ? List.<TableRow>of()
              : source.table().rows()) {
        if (row instanceof TableRow.LinkRow link) {
          links.add(link.link());
        } else if (row instanceof TableRow.CordRow cord) {
          cords.add(cord.cord());
        }
      }
    }
    return new FaceClasses(links, cords);
  }

  /** A grade without what it came to: which picture was graded, and by what. */
  private static GradedFace bare(GradedFace grade) {
    return bare(grade.listed(), grade.sha256(), grade.criteria(), grade.faceClass());
  }

  private static GradedFace bare(
      FacePicture listed, String sha256, String criteria, FaceClass faceClass) {
    return new GradedFace(
        listed, sha256, criteria, faceClass, FaceOutcome.UNREADABLE, false, List.of(""));
  }

  private static Path faces(Path folder) {
    return folder.resolve("faces");
  }

  private static Found look(
      Listed one,
      String table,
      Criteria criteria,
      FaceClasses classes,
      Set<GradedFace> known,
      PictureGrader grader) {
    String name = one.picture().picture();
    try {
      Path file = inside(faces(one.folder()), name);
      if (!Files.isRegularFile(file)) {
        return bad(
            one,
            table,
            "a picture of this name in the folder faces beside the table",
            "none",
            name,
            "put it there and hand the table in again");
      }
      if (Files.size(file) > MOST_BYTES) {
        return bad(
            one,
            table,
            "at most " + (MOST_BYTES >> 20) + " MiB",
            (Files.size(file) >> 20) + " MiB",
            name,
            "save it smaller");
      }
      byte[] bytes = Files.readAllBytes(file);
      FaceTerms terms =
          new FaceTerms(
              criteria,
              classes.of(one.picture()),
              OptionalDouble.empty(),
              fibres(one.picture().subject()));
      return look(one, table, bytes, terms, known, grader);
    } catch (InvalidPathException e) {
      return bad(
          one,
          table,
          "a file inside the folder faces beside the table",
          "another place",
          name,
          "put the picture there");
    } catch (IOException e) {
      return bad(
          one, table, "a picture that can be read", "one that cannot", name, "check file and disk");
    }
  }

  private static Found look(
      Listed one,
      String table,
      byte[] bytes,
      FaceTerms by,
      Set<GradedFace> known,
      PictureGrader grader) {
    String sha256 = Sha256.of(bytes);
    GradedFace perhapsKnown = bare(one.picture(), sha256, by.criteria().id(), by.faceClass());
    if (known.contains(perhapsKnown)) {
      return new Found(one, Optional.of(perhapsKnown), Optional.empty());
    }
    Looked looked = grader.grade(bytes, one.picture().picture(), by, (picture, graded) -> {});
    if (looked instanceof Looked.Unusable unusable) {
      Problem why = unusable.problem();
      return bad(
          one,
          table,
          why.expected(),
          why.found(),
          one.picture().picture(),
          why.action().isEmpty() ? "hand in another picture" : why.action());
    }
    Looked.Graded graded = (Looked.Graded) looked;
    return new Found(
        one,
        Optional.of(GradedFace.of(one.picture(), sha256, by.criteria(), graded.grade())),
        Optional.empty());
  }

  /** How many fibres a picture of this subject must show; of a cord's end nobody says. */
  static OptionalInt fibres(String subject) {
    return PortSubject.of(subject)
        .map(port -> OptionalInt.of(port.fibres()))
        .orElse(OptionalInt.empty());
  }

  /**
   * A file below a folder.
   *
   * @throws InvalidPathException if it would lie elsewhere, be it through a link
   */
  static Path inside(Path folder, String name) throws IOException {
    Path below = Path.of(name);
    Path file = folder.resolve(below).normalize();
    if (below.isAbsolute() || !file.startsWith(folder.normalize())) {
      throw new InvalidPathException(name, "outside");
    }
    for (Path part : below) {
      if (part.toString().equals("..")) {
        throw new InvalidPathException(name, "outside");
      }
    }
    if (Files.exists(file) && !file.toRealPath().startsWith(folder.toRealPath())) {
      throw new InvalidPathException(name, "outside");
    }
    return file;
  }

  private static Found bad(
      Listed one, String table, String expected, String found, String name, String action) {
    return new Found(
        one,
        Optional.empty(),
        Optional.of(
            new Problem(table, one.row(), "picture", expected, found + ": " + name, action)));
  }

  private static TableFile with(TableFile table, List<Problem> problems) {
    return new TableFile(
        table.name(),
        table.kind(),
        table.sha256(),
        table.rows(),
        table.rowNumbers(),
        table.rowCount(),
        problems,
        table.unknownColumns(),
        table.unreadSheets());
  }
}
