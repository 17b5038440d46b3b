package ferrule.app;

import ferrule.app.audit.AuditReport;
import ferrule.record.JobLog;
import ferrule.record.audit.Difference;
import ferrule.record.audit.SealCheck;
import java.io.PrintWriter;

/** What an audit came to, for a person at a terminal. */
public final class AuditText {

  private static final int MOST = 500;

  private AuditText() {}

  /** Prints it. */
  public static void print(Terminal terminal, AuditReport report) {
    PrintWriter out = terminal.out();
    report
        .about()
        .ifPresentOrElse(
            about -> {
              out.println(terminal.strong(about.title()));
              out.println(
                  "Record, issue "
                      + about.issue()
                      + ", issued "
                      + about.issuedAt()
                      + " with Ferrule "
                      + about.ferruleVersion()
                      + ", made from a "
                      + about.origin().word());
            },
            () -> out.println("What this record says of itself cannot be understood"));
    out.println();
    out.println("Signature   " + signature(report.seal()));
    out.println("Files       " + files(report.seal()));
    out.println("Entries     " + entries(report));
    out.println("Computed    " + computed(report));
    out.println();
    for (String note : report.notes()) {
      Lines.say(out, note);
    }
    if (!report.notes().isEmpty()) {
      out.println();
    }
    if (report.agrees()) {
      out.println(report.whole() ? "All agrees." : "All that was compared agrees.");
      return;
    }
    long all = report.differences().size() + report.beyond();
    out.println(terminal.strong(all + (all == 1 ? " difference:" : " differences:")));
    int shown = 0;
    for (Difference difference : report.differences()) {
      if (shown++ == MOST) {
        break;
      }
      out.println("  " + difference.shown());
    }
    if (all > MOST) {
      out.println("  ... and " + (all - MOST) + " more; audit --json lists most of them");
    }
  }

  private static String signature(SealCheck seal) {
    return switch (seal.signature()) {
      case NONE -> "none: whoever changed a file could change its hash as well";
      case FITS ->
          "fits, of key "
              + seal.fingerprint().orElse("")
              + "\n            Compare this with what you have from the signer by another way.";
      case DOES_NOT_FIT -> "does not fit";
    };
  }

  private static String files(SealCheck seal) {
    String each = seal.files() == 1 ? "1 file" : seal.files() + " files";
    return seal.changed().isEmpty()
        ? each + ", each fits its hash"
        : each + ", and " + seal.changed().size() + " that should not be as they are";
  }

  private static String entries(AuditReport report) {
    if (!report.chain()) {
      return "not one whole chain";
    }
    return report
            .recomputed()
            .map(r -> r.entries() + " in one whole chain, head " + r.head())
            .orElse("one whole chain")
        + (report.about().filter(a -> a.origin() == JobLog.Origin.JOB_FOLDER).isPresent()
            ? "\n            They were made with the record: a job folder has no history."
            : "");
  }

  private static String computed(AuditReport report) {
    return report
        .recomputed()
        .map(
            r ->
                r.fibres()
                    + " fibres, "
                    + r.readings()
                    + " readings, "
                    + r.zeros()
                    + " zeros, "
                    + r.doubts()
                    + " doubts, from the entries alone")
        .orElse("nothing");
  }
}
