package ferrule.app;

import ferrule.core.application.Application;
import ferrule.core.application.ApplicationCheck;
import ferrule.core.application.Carriage;
import ferrule.core.application.JobApplications;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.Figure;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;

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
    List<JobApplications.Row> rows = JobApplications.rows(shown);
    if (rows.isEmpty()) {
      Lines.say(out, "No limits are held for the fibre of these links.");
    }
    String family = "";
    for (JobApplications.Row row : rows) {
      Application application = row.application();
      if (!application.family().equals(family)) {
        family = application.family();
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
                  application.name(),
                  row.carry(),
                  row.doNot(),
                  row.open(),
                  example(row)
                      + (all.wants(application) ? (row.doNot() > 0 ? "; wanted" : "wanted") : ""))
              .stripTrailing());
    }
    wanted(terminal, all);
    out.println();
    Lines.say(out, CHANNEL);
  }

  private static String example(JobApplications.Row row) {
    ApplicationCheck first = row.firstNot().orElse(null);
    return first != null && first.carriage() instanceof Carriage.DoesNot no
        ? first.link().id() + " by " + no.term().amount(no.by()) + ", " + no.term().word()
        : "";
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
        c ->
            Lines.say(
                out, "  " + c.link().id() + "  " + c.application().name() + ": " + c.shown()));
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
                + Carriage.Term.LENGTH.amount(link.lengthM())
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
              + check.shown());
      check.loss().ifPresent(loss -> Lines.say(out, "  loss: " + loss.shown(link.fibres())));
      for (Carriage.Term term : Carriage.Term.values()) {
        check
            .figure(term)
            .ifPresent(
                f ->
                    Lines.say(
                        out, "  " + term.word() + " " + term.amount(f.value()) + ": " + line(f)));
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

  private static String count(int links) {
    return links + (links == 1 ? " link" : " links");
  }
}
