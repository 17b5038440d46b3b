package ferrule.app.face;

import ferrule.app.Lines;
import ferrule.app.Terminal;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.GradeReason;
import ferrule.core.face.RowGrade;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/** Grades of end faces in words. */
public final class FacesText {

  private static final String CAUTION =
      "Caution: the light in a fibre is invisible; never look into a fibre, a plug or a port. Be"
          + " sure that a fibre is dark before you put a microscope on it, clean it or mate it;"
          + " broken glass cuts. Ferrule does not judge eye safety: local codes, the network owner"
          + " and licensed practice decide what may be done.";

  private final Terminal terminal;
  private final Map<FaceOutcome, Integer> counts = new EnumMap<>(FaceOutcome.class);
  private int unusable;

  /**
   * @param terminal where the words go
   */
  public FacesText(Terminal terminal) {
    this.terminal = terminal;
  }

  private void say(String line) {
    Lines.say(terminal.out(), line);
  }

  /** Says by what everything is graded. */
  public void head(FaceTerms terms) {
    say(
        terms.criteria().title()
            + ", "
            + terms.criteria().edition()
            + "; class "
            + terms.faceClass().id()
            + ": "
            + terms.faceClass().shown());
    say("");
  }

  /** Says what became of one picture. */
  public void one(Looked looked) {
    if (looked instanceof Looked.Unusable) {
      unusable++;
      return;
    }
    Looked.Graded graded = (Looked.Graded) looked;
    counts.merge(graded.grade().outcome(), 1, Integer::sum);
    say(
        terminal.strong(graded.picture() + ": " + graded.grade().outcome().word())
            + (graded.grade().close() ? ", close" : "")
            + fibres(graded));
    for (GradeReason reason : graded.grade().reasons()) {
      String text = reason.text();
      say("  " + text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1));
    }
    terminal.out().flush();
  }

  /** "; 12 fibres: 11 conform, 1 rejected" of a row. */
  private static String fibres(Looked.Graded graded) {
    if (!(graded.grade() instanceof RowGrade row)) {
      return "";
    }
    Map<FaceOutcome, Integer> counts = new EnumMap<>(FaceOutcome.class);
    row.fibres().forEach(fibre -> counts.merge(fibre.outcome(), 1, Integer::sum));
    return "; "
        + row.fibres().size()
        + " fibres: "
        + counts.entrySet().stream()
            .map(entry -> entry.getKey().counted(entry.getValue()))
            .collect(Collectors.joining(", "));
  }

  /** Says how many came to what, and what to mind. */
  public void foot() {
    int graded = counts.values().stream().mapToInt(Integer::intValue).sum();
    if (graded == 0) {
      return;
    }
    say("");
    StringBuilder line = new StringBuilder();
    line.append(graded).append(graded == 1 ? " picture: " : " pictures: ");
    String between = "";
    for (FaceOutcome outcome : FaceOutcome.values()) {
      line.append(between).append(outcome.counted(counts.getOrDefault(outcome, 0)));
      between = ", ";
    }
    if (unusable > 0) {
      line.append("; ").append(unusable).append(unusable == 1 ? " file is" : " files are");
      line.append(" no picture that can be read");
    }
    say(line.toString());
    say(CAUTION);
  }
}
