package ferrule.app;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreKind;
import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Rulebook;
import java.io.PrintWriter;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** Rulebooks in words: what one holds, and in what two differ. */
public final class RulebookText {

  private RulebookText() {}

  /** Prints every figure of a rulebook with its source. */
  public static void show(Terminal terminal, Rulebook rulebook) {
    PrintWriter out = terminal.out();
    Lines.say(out, terminal.strong(rulebook.id() + ": " + rulebook.title()));
    Lines.say(out, "Edition: " + rulebook.edition());
    Lines.say(out, "End faces by: " + rulebook.faces());
    rulebook.notes().forEach(note -> Lines.say(out, "Note: " + note));
    out.println();
    figures(rulebook)
        .forEach(
            (what, figure) ->
                Lines.say(
                    out,
                    "  " + what + ": " + value(what, figure) + ", " + figure.provenance().line()));
  }

  /**
   * Prints in what two rulebooks differ.
   *
   * @param matters whether a figure, named as {@link #figures} names it, is asked about
   * @return how many figures differ
   */
  public static int compare(
      Terminal terminal, Rulebook one, Rulebook other, Predicate<String> matters) {
    PrintWriter out = terminal.out();
    SortedMap<String, Figure> first = figures(one);
    SortedMap<String, Figure> second = figures(other);
    TreeSet<String> all = new TreeSet<>(first.keySet());
    all.addAll(second.keySet());
    Lines.say(out, terminal.strong(one.id() + " against " + other.id()));
    int differ = 0;
    for (String what : all) {
      Figure a = first.get(what);
      Figure b = second.get(what);
      if (!matters.test(what) || (a != null && b != null && a.value() == b.value())) {
        continue;
      }
      differ++;
      Lines.say(out, "  " + what + ": " + side(what, a) + " against " + side(what, b));
    }
    if (!one.faces().equals(other.faces())) {
      differ++;
      Lines.say(out, "  end faces: " + one.faces() + " against " + other.faces());
    }
    if (differ == 0) {
      Lines.say(out, "No figure differs.");
    }
    return differ;
  }

  /** Every figure under words that tell what it limits. */
  public static SortedMap<String, Figure> figures(Rulebook rulebook) {
    SortedMap<String, Figure> found = new TreeMap<>();
    rulebook
        .fibre()
        .forEach((k, f) -> found.put("fibre " + k.category().label() + " at " + k.wavelength(), f));
    put(found, "connection inside the link", rulebook.inner());
    rulebook
        .end()
        .forEach(
            (k, f) ->
                found.put(
                    "end connection, " + k.cord().word() + "-grade cord, " + k.kind().word(), f));
    put(found, "pair of reference plugs", rulebook.referencePair());
    put(found, "splice", rulebook.splice());
    rulebook.device().forEach((name, f) -> found.put("device " + name, f));
    put(found, "a whole link", rulebook.link());
    return found;
  }

  private static void put(Map<String, Figure> found, String what, Map<FibreKind, Figure> figures) {
    figures.forEach((kind, f) -> found.put(what + ", " + kind.word(), f));
  }

  private static String side(String what, @Nullable Figure figure) {
    return figure == null
        ? "none"
        : value(what, figure) + " (" + figure.provenance().confidence().shown() + ")";
  }

  private static String value(String what, Figure figure) {
    return Decibels.shown(figure.value()) + (what.startsWith("fibre ") ? " dB/km" : " dB");
  }
}
