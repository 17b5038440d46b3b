package ferrule.app;

import ferrule.core.optics.Decibels;
import ferrule.core.sample.AcceptanceSample;
import ferrule.core.sample.Drawn;
import ferrule.core.sample.Stratum;
import ferrule.core.uncertainty.SampleSize;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** An acceptance sample in words. */
public final class SampleText {

  private static final String CAUTION =
      "Caution: the light used for testing is invisible; never look into a fibre or a plug. Local"
          + " codes, the network owner and licensed practice decide what may be done.";

  private SampleText() {}

  /**
   * Prints a sample.
   *
   * @param title of the job
   * @param shares shares of the lot for which to say how often the sample misses as many
   */
  public static void print(
      Terminal terminal, String title, AcceptanceSample sample, double... shares) {
    PrintWriter out = terminal.out();
    Lines.say(out, terminal.strong(title));
    if (sample.size() == 0) {
      Lines.say(out, "No fibre has a reading yet: there is nothing to read again.");
      return;
    }
    Lines.say(
        out,
        "Read again "
            + sample.size()
            + " of "
            + sample.lot()
            + " fibres, "
            + sample.byLot()
            + " of them drawn by lot with seed "
            + sample.seed()
            + " (the same seed draws the same fibres).");
    if (sample.unread() > 0) {
      Lines.say(out, "Not in the lot, for want of a reading: " + sample.unread() + ".");
    }
    out.println();
    Lines.say(out, "What is drawn by lot misses all bad fibres with these chances:");
    for (int bad : bad(sample.lot(), shares)) {
      Lines.say(
          out,
          String.format(
              Locale.ROOT,
              "  %5d bad of %d: %.1f %%",
              bad,
              sample.lot(),
              100 * sample.missed(bad)));
    }
    out.println();
    Map<Stratum, List<Drawn>> parts = new LinkedHashMap<>();
    sample.drawn().forEach(d -> parts.computeIfAbsent(d.stratum(), k -> new ArrayList<>()).add(d));
    parts.forEach(
        (part, drawn) -> {
          Lines.say(out, terminal.strong(part.shown()));
          drawn.forEach(d -> Lines.say(out, "  " + line(d)));
        });
    out.println();
    Lines.say(
        out,
        "Compare each reading with the one on record: it is met if it differs by no more than the"
            + " tolerance (two expanded uncertainties added in squares). Agree before the first"
            + " one what a miss triggers; for instance: the zero is verified and the fibre read"
            + " once more; if it is missed again, as many fibres of its part are drawn anew; if one"
            + " of these is missed, the whole part is read again.");
    Lines.say(out, CAUTION);
  }

  private static int[] bad(int lot, double... shares) {
    return Arrays.stream(shares).mapToInt(s -> SampleSize.badOf(lot, s)).distinct().toArray();
  }

  /** "K001/2 (longest) A-B 1310 nm 0.58, 1550 nm 0.45; B-A ...; each ± 0.20 dB". */
  private static String line(Drawn drawn) {
    Map<String, List<String>> ways = new LinkedHashMap<>();
    double tolerance = 0;
    for (Drawn.Compared compared : drawn.compared()) {
      ways.computeIfAbsent(compared.reading().reading().direction().word(), k -> new ArrayList<>())
          .add(compared.reading().nm() + " nm " + Decibels.shown(compared.reading().lossDb()));
      tolerance = Math.max(tolerance, compared.toleranceDb());
    }
    List<String> told = new ArrayList<>();
    ways.forEach((way, readings) -> told.add(way + " " + String.join(", ", readings)));
    return drawn.fibre().fibre()
        + (drawn.why() == Drawn.Why.DRAWN ? "" : " (" + drawn.why().word() + ")")
        + "  "
        + String.join("; ", told)
        + "; each \u00B1 "
        + Decibels.shown(tolerance)
        + " dB";
  }
}
