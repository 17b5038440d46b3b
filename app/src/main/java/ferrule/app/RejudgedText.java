package ferrule.app;

import ferrule.core.job.Requirement;
import ferrule.core.trust.Rejudged;
import ferrule.core.trust.Standing;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.Map;

/** What another requirement would change, in words. */
public final class RejudgedText {

  private static final int FEW = 20;

  private RejudgedText() {}

  /**
   * Prints what would change.
   *
   * @param all whether to list every fibre, however many
   */
  public static void print(Terminal terminal, Rejudged rejudged, boolean all) {
    PrintWriter out = terminal.out();
    Requirement agreed = rejudged.agreed().ledger().requirement();
    Requirement supposed = rejudged.supposed().ledger().requirement();
    Lines.say(out, terminal.strong(agreed.title()));
    boolean methods = agreed.method() != supposed.method();
    Lines.say(out, "agreed:   " + shown(agreed, methods));
    Lines.say(out, "supposed: " + shown(supposed, methods));
    if (supposed.rulebook().figuresFromMemory() > 0) {
      Lines.say(
          out,
          terminal.faint(
              supposed.rulebook().figuresFromMemory()
                  + " figures of the rulebook supposed are from memory: confirm against the"
                  + " standard"));
    }
    out.println();
    Map<Standing, Integer> before = rejudged.agreed().totals();
    Map<Standing, Integer> after = rejudged.supposed().totals();
    out.println(String.format(Locale.ROOT, "  %-10s %8s %9s", "", "agreed", "supposed"));
    for (Standing standing : Standing.values()) {
      out.println(
          String.format(
              Locale.ROOT,
              "  %-10s %8d %9d",
              standing.word(),
              before.getOrDefault(standing, 0),
              after.getOrDefault(standing, 0)));
    }
    out.println();
    String moves = rejudged.limitMovesShown();
    if (!moves.isEmpty()) {
      Lines.say(out, moves);
    }
    changes(terminal, rejudged, all);
    Lines.say(
        out, "The job itself is as it was: what is agreed stands in its papers, not in a command.");
  }

  private static String shown(Requirement requirement, boolean method) {
    return requirement.rulebook().id()
        + (method ? ", " + requirement.method().word() : "")
        + ", decision rule "
        + requirement.decision().word();
  }

  private static void changes(Terminal terminal, Rejudged rejudged, boolean all) {
    PrintWriter out = terminal.out();
    int count = rejudged.changes().size();
    if (count == 0) {
      Lines.say(out, "Nothing would change: every reading is decided as it is.");
      return;
    }
    Lines.say(
        out,
        terminal.strong(
            (count == 1 ? "1 fibre has" : count + " fibres have")
                + " a reading decided otherwise; "
                + rejudged.standingsChanged()
                + " would stand elsewhere:"));
    int told = 0;
    for (Rejudged.Change change : rejudged.changes()) {
      if (!all && told++ == FEW) {
        Lines.say(out, "  and " + (count - FEW) + " more; --all lists them");
        break;
      }
      Lines.say(out, "  " + change.agreed().fibre() + "  " + standings(change));
      for (Rejudged.ReadingChange reading : change.readings()) {
        Lines.say(out, "      " + reading.shown());
      }
    }
    out.println();
  }

  private static String standings(Rejudged.Change change) {
    String before = change.agreed().standing().word();
    return change.ofStanding()
        ? before + ", would be " + change.supposed().standing().word()
        : before + ", as before";
  }
}
