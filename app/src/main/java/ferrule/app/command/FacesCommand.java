package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.ExitCode;
import ferrule.app.Terminal;
import ferrule.app.face.FaceTerms;
import ferrule.app.face.FacesText;
import ferrule.app.face.InOrder;
import ferrule.app.face.Looked;
import ferrule.app.face.Overlay;
import ferrule.app.face.OverlayFolder;
import ferrule.app.face.PictureFiles;
import ferrule.app.face.PictureGrader;
import ferrule.core.Problem;
import ferrule.core.face.Criteria;
import ferrule.core.face.FaceClass;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.ShippedCriteria;
import ferrule.core.rulebook.Rulebook;
import ferrule.record.data.FacesJson;
import ferrule.vision.PictureReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code ferrule faces PICTURE...}. */
@Command(
    name = "faces",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Grade pictures of connector end faces: PNG, JPEG, BMP or TIFF; of one fibre each, or of a"
          + " whole ferrule with fibres 250 µm apart in one row or two.",
      "Says for each whether it conforms, is rejected or unreadable, and why. Be sure that a fibre"
          + " is dark before you put a microscope on it.",
      "Exit code 0 if every face conforms, 1 if one is rejected or unreadable, 2 if a file is no"
          + " picture that can be read; the others are graded all the same."
    })
final class FacesCommand implements Callable<Integer> {

  private static final double LEAST_UM_PER_PX = 0.005;
  private static final double MOST_UM_PER_PX = 2;
  private static final int MOST_FIBRES = 96;

  @ParentCommand private FerruleCommand parent;

  @Parameters(
      arity = "1..*",
      paramLabel = "PICTURE",
      description = "Pictures, and folders of which all pictures are graded, in order of name.")
  private List<Path> named;

  @Option(
      names = "--class",
      paramLabel = "CLASS",
      defaultValue = "sm-pc",
      description =
          "Class of the ends: sm-pc, sm-apc, sm-pc26 or mm. Where none is given: ${DEFAULT-VALUE}.")
  private String faceClass;

  @Option(
      names = "--edition",
      paramLabel = "YEAR",
      description =
          "Edition of the criteria: 2015 or 2009. Where none is given, the one that rulebooks use.")
  private @Nullable String edition;

  @Option(
      names = "--um-per-px",
      paramLabel = "SCALE",
      description =
          "Calibrated scale in micrometres per pixel; else the cladding's 125 µm give it.")
  private @Nullable Double umPerPx;

  @Option(
      names = "--fibres",
      paramLabel = "COUNT",
      description = {
        "Fibres of each ferrule. A picture that shows more or fewer is unreadable; where none is"
            + " given, a row must look whole."
      })
  private @Nullable Integer fibres;

  @Option(names = "--json", description = "One JSON list.")
  private boolean json;

  @Option(
      names = "--overlay",
      paramLabel = "DIR",
      description = "Write each picture with its zones and numbered flaws to this folder.")
  private @Nullable Path overlay;

  @SuppressWarnings("NullAway.Init") // picocli fills the fields
  FacesCommand() {}

  /** A step of the run: counts, and shows what came of one picture. */
  private interface Shown extends AutoCloseable {
    void show(Looked looked) throws IOException;

    @Override
    void close() throws IOException;
  }

  @Override
  public Integer call() throws BadInputException, IOException {
    Terminal terminal = parent.terminal();
    FaceTerms terms = terms();
    PictureFiles files = PictureFiles.of(named);
    terminal.problems(files.problems());
    files.notes().forEach(note -> terminal.err().println("Note: " + note));
    int[] worst = {files.problems().isEmpty() ? ExitCode.DONE : ExitCode.BAD_INPUT};
    @Nullable OverlayFolder overlays =
        overlay == null ? null : OverlayFolder.plan(overlay, files.pictures());
    PictureGrader grader = new PictureGrader();
    int all = files.pictures().size();
    int[] done = {0};
    try (Shown shown = json ? asJson(terminal, terms) : asText(terminal, terms)) {
      InOrder.run(
          files.pictures().keySet(),
          file ->
              grader.grade(
                  file,
                  file.toString(),
                  PictureReader.MOST_BYTES,
                  terms,
                  (picture, graded) -> {
                    if (overlays != null) {
                      overlays.write(file, Overlay.png(picture.original(), graded, terms));
                    }
                  }),
          looked -> {
            terminal.progressDone();
            if (looked instanceof Looked.Unusable unusable) {
              terminal.problems(List.of(unusable.problem()));
            }
            worst[0] = Math.max(worst[0], code(looked));
            show(shown, looked);
            terminal.progress(++done[0] + " of " + all + " pictures graded");
          });
      terminal.progressDone();
    } catch (IllegalStateException e) {
      if (e.getCause() instanceof UncheckedIOException io && overlay != null) {
        throw new BadInputException(
            new Problem(
                overlay.toString(),
                0,
                "--overlay",
                "a folder that can be written",
                why(io.getCause()),
                "name another folder, or make room"));
      }
      throw e;
    } finally {
      terminal.out().flush();
    }
    return worst[0];
  }

  private static String why(@Nullable IOException failed) {
    if (failed instanceof NoSuchFileException || failed instanceof AccessDeniedException) {
      return "one that cannot";
    }
    return failed == null ? "a fault" : String.valueOf(failed.getMessage());
  }

  private static void show(Shown shown, Looked looked) {
    try {
      shown.show(looked);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static int code(Looked looked) {
    if (looked instanceof Looked.Graded graded) {
      return graded.grade().outcome() == FaceOutcome.CONFORMS
          ? ExitCode.DONE
          : ExitCode.NOT_ALL_PROVED;
    }
    return ExitCode.BAD_INPUT;
  }

  private static Shown asText(Terminal terminal, FaceTerms terms) {
    FacesText text = new FacesText(terminal);
    text.head(terms);
    return new Shown() {
      @Override
      public void show(Looked looked) {
        text.one(looked);
      }

      @Override
      public void close() {
        text.foot();
      }
    };
  }

  private static Shown asJson(Terminal terminal, FaceTerms terms) throws IOException {
    FacesJson document = new FacesJson(terminal.out(), terms.criteria());
    return new Shown() {
      @Override
      public void show(Looked looked) throws IOException {
        if (looked instanceof Looked.Graded graded) {
          document.graded(graded.picture(), graded.sha256(), graded.face(), graded.grade());
        } else if (looked instanceof Looked.Unusable unusable) {
          document.unusable(
              unusable.picture(),
              terms.faceClass(),
              "Expected "
                  + unusable.problem().expected()
                  + "; found "
                  + unusable.problem().found());
        }
      }

      @Override
      public void close() throws IOException {
        document.close();
        terminal.out().println();
      }
    };
  }

  private FaceTerms terms() throws BadInputException {
    String name = edition == null ? Rulebook.USUAL_FACES : edition;
    Criteria criteria =
        ShippedCriteria.find(name)
            .orElseThrow(
                () ->
                    new BadInputException(
                        new Problem(
                            "",
                            0,
                            "--edition",
                            "an edition that comes with Ferrule: "
                                + String.join(", ", ShippedCriteria.ids()),
                            name,
                            "write its year: 2015")));
    FaceClass wanted =
        FaceClass.ofId(faceClass)
            .filter(c -> criteria.of(c).isPresent())
            .orElseThrow(
                () ->
                    new BadInputException(
                        new Problem(
                            "",
                            0,
                            "--class",
                            "sm-pc, sm-apc, sm-pc26 or mm",
                            faceClass,
                            "write one of these")));
    Double scale = umPerPx;
    if (scale != null && !(scale >= LEAST_UM_PER_PX && scale <= MOST_UM_PER_PX)) {
      throw new BadInputException(
          new Problem(
              "",
              0,
              "--um-per-px",
              "from " + LEAST_UM_PER_PX + " to " + MOST_UM_PER_PX + " µm",
              scale.toString(),
              "leave it out, and the cladding's 125 µm give the scale"));
    }
    Integer count = fibres;
    if (count != null && (count < 1 || count > MOST_FIBRES)) {
      throw new BadInputException(
          new Problem(
              "",
              0,
              "--fibres",
              "from 1 to " + MOST_FIBRES,
              count.toString(),
              "leave it out, or write how many fibres the ferrule holds"));
    }
    return new FaceTerms(
        criteria,
        wanted,
        scale == null ? OptionalDouble.empty() : OptionalDouble.of(scale),
        count == null ? OptionalInt.empty() : OptionalInt.of(count));
  }
}
