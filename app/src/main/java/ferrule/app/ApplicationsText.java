package ferrule.app;

import ferrule.core.application.Application;
import ferrule.core.application.ApplicationCheck;
import ferrule.core.application.Carriage;
import ferrule.core.application.JobApplications;
import ferrule.core.application.LossSpan;
import ferrule.core.optics.Decibels;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.Figure;
import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Which applications links carry, in words: a table of a job, or the page of a link. */
public final class ApplicationsText {

  private static final String CHANNEL =
      "Limits are those of a channel: the equipment cords at both ends come on top of the loss and"
          + " length given here. Losses are compared as they are, without their uncertainty.";

  private ApplicationsText() {}

  /**
   * Prints a table: for each application, how many links carry it and what decides for the others.
   *
   * @param title of the job
   * @param shown the checks that the user asked for
   */
  public static void table(
      Terminal terminal, String title, JobApplications all, List<ApplicationCheck> shown) {
    PrintWriter out = terminal.out();
    Lines.say(out, terminal.strong(title));
    Map<String, Row> rows = new LinkedHashMap<>();
    for (ApplicationCheck check : shown) {
      rows.computeIfAbsent(
              check.application().family() + "\n" + check.application().name(),
              k -> new Row(check.application()))
          .add(check);
    }
    if (rows.isEmpty()) {
      Lines.say(out, "No limits are held for the fibre of these links.");
    }
    String family = "";
    for (Row row : rows.values()) {
      if (!row.application.family().equals(family)) {
        family = row.application.family();
        out.println();
        Lines.say(out, terminal.strong(family));
        Lines.say(
            out, String.format(Locale.ROOT, "  %-22s %8s %8s %8s", "", "carry", "do not", "open"));
      }
      Lines.say(
          out,
          String.format(
                  Locale.ROOT,
                  "  %-22s %8d %8d %8d  %s",
                  row.application.name(),
                  row.carry,
                  row.doNot,
                  row.open,
                  row.example
                      + (all.wants(row.application)
                          ? (row.example.isEmpty() ? "" : "; ") + "wanted"
                          : ""))
              .stripTrailing());
    }
    wanted(terminal, all);
    out.println();
    Lines.say(out, CHANNEL);
  }

  /** The links that are not shown to carry what the job wants. */
  private static void wanted(Terminal terminal, JobApplications all) {
    PrintWriter out = terminal.out();
    if (all.wanted().isEmpty()) {
      return;
    }
    out.println();
    Lines.say(out, terminal.strong("Wanted: " + String.join(", ", all.wanted())));
    all.unknown()
        .forEach(name -> Lines.say(out, "  " + name + ": no limits are held; cannot be told"));
    List<ApplicationCheck> wanting = all.wanting();
    wanting.forEach(
        c -> Lines.say(out, "  " + c.link().id() + "  " + c.application().name() + ": " + why(c)));
    all.undefined()
        .forEach(
            (name, links) ->
                Lines.say(
                    out,
                    "  "
                        + name
                        + ": no limits on the fibre of "
                        + count(links.size())
                        + ", from "
                        + links.get(0).id()
                        + " ("
                        + links.get(0).category().label()
                        + ") on"));
    if (wanting.isEmpty() && all.unknown().isEmpty() && all.undefined().isEmpty()) {
      Lines.say(out, "  Every link carries what is wanted.");
    }
  }

  /** Prints the page of one link. */
  public static void page(
      Terminal terminal, Link link, JobApplications all, List<ApplicationCheck> shown) {
    PrintWriter out = terminal.out();
    Lines.say(
        out,
        terminal.strong(
            link.id()
                + ", "
                + link.category().label()
                + ", "
                + metres(link.lengthM())
                + " as scheduled"));
    if (shown.isEmpty()) {
      Lines.say(out, "No limits are held for its fibre.");
    }
    for (ApplicationCheck check : shown) {
      out.println();
      Lines.say(
          out,
          check.application().name()
              + (all.wants(check.application()) ? " (wanted)" : "")
              + ": "
              + why(check));
      check.loss().ifPresent(loss -> Lines.say(out, "  loss: " + loss(loss, link.fibres())));
      for (Carriage.Term term : Carriage.Term.values()) {
        check
            .figure(term)
            .ifPresent(
                f ->
                    Lines.say(
                        out, "  " + term.word() + " " + amount(term, f.value()) + ": " + line(f)));
      }
      if (!check.application().note().isEmpty()) {
        Lines.say(out, "  note: " + check.application().note());
      }
    }
    out.println();
    Lines.say(out, CHANNEL);
  }

  private static String line(Figure figure) {
    return figure.provenance().line();
  }

  /** "does not, by 0.31 dB of most loss (2.60 dB; measured 2.91 dB at 850 nm)". */
  private static String why(ApplicationCheck check) {
    if (check.carriage() instanceof Carriage.Carries yes) {
      return "carries; least room "
          + amount(yes.term(), yes.room())
          + ", "
          + yes.term().word()
          + confirm(check, yes.term());
    }
    if (check.carriage() instanceof Carriage.DoesNot no) {
      return "does not, by "
          + amount(no.term(), no.by())
          + ", "
          + no.term().word()
          + confirm(check, no.term());
    }
    return check.carriage() instanceof Carriage.CannotBeTold open
        ? "cannot be told: " + open.why()
        : "";
  }

  private static String confirm(ApplicationCheck check, Carriage.Term term) {
    return check
        .figure(term)
        .map(
            f ->
                " "
                    + amount(term, f.value())
                    + (f.provenance().fromMemory()
                        ? " (" + f.provenance().confidence().shown() + ")"
                        : ""))
        .orElse("");
  }

  private static String loss(LossSpan loss, int fibres) {
    String at = String.join(", ", loss.windowsNm().stream().map(String::valueOf).toList()) + " nm";
    return loss.origin() == LossSpan.Origin.EXPECTED
        ? "expected " + Decibels.shown(loss.mostDb()) + " dB at " + at + "; not measured"
        : "measured "
            + Decibels.shown(loss.leastDb())
            + " to "
            + Decibels.shown(loss.mostDb())
            + " dB at "
            + at
            + ", "
            + loss.fibres()
            + " of "
            + fibres
            + (fibres == 1 ? " fibre" : " fibres");
  }

  private static String amount(Carriage.Term term, double value) {
    return term.unit().equals("m") ? metres(value) : Decibels.shown(value) + " dB";
  }

  private static String metres(double value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f m", value)
        : String.format(Locale.ROOT, "%.1f m", value);
  }

  private static String count(int links) {
    return links + (links == 1 ? " link" : " links");
  }

  private static final class Row {
    private final Application application;
    private int carry;
    private int doNot;
    private int open;
    private String example = "";

    Row(Application application) {
      this.application = application;
    }

    void add(ApplicationCheck check) {
      if (check.carriage() instanceof Carriage.Carries) {
        carry++;
      } else if (check.carriage() instanceof Carriage.DoesNot no) {
        doNot++;
        if (example.isEmpty()) {
          example =
              check.link().id() + " by " + amount(no.term(), no.by()) + ", " + no.term().word();
        }
      } else {
        open++;
      }
    }
  }
}
