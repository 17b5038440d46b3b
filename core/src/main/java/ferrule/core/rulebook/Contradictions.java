package ferrule.core.rulebook;

import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Glass;
import ferrule.core.rulebook.Rulebook.EndKey;
import ferrule.core.rulebook.Rulebook.FibreKey;
import ferrule.core.rulebook.toml.Section;
import java.util.Comparator;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Figures of a rulebook that no cabling can meet, or that contradict each other: a limit of
 * nothing, glass better than glass can be, a splitter that splits without loss, an end connection
 * that may lose more with the better cord. Only figures of the text at hand are blamed, never those
 * of the rulebook that it is based on.
 */
final class Contradictions {

  /**
   * Share of what ordinary glass must lose that the best pure-silica cores reach: 0.14 of 0.17
   * dB/km at 1550 nm (from memory).
   */
  private static final double BEST_GLASS = 0.8;

  /** Ideal losses are written as 3.0, 6.02 or 18.0 dB as often as with all their decimals. */
  private static final double ROUNDED_DB = 0.1;

  private static final Pattern SPLITTER = Pattern.compile("splitter-([12])x([0-9]{1,4})");

  private final Rulebook book;
  private final Map<Object, Section> rows;
  private final SourcedToml form;

  /**
   * @param rows by the key of a figure, the table of the text that gives it
   * @param form takes the problems
   */
  Contradictions(Rulebook book, Map<Object, Section> rows, SourcedToml form) {
    this.book = book;
    this.rows = rows;
    this.form = form;
  }

  /** Notes every contradiction, in a fixed order. */
  void find() {
    book.fibre().entrySet().stream()
        .sorted(
            Comparator.comparing(
                e -> e.getKey().category().label() + " at " + e.getKey().wavelength()))
        .forEach(e -> fibre(e.getKey(), e.getValue().value()));
    for (FibreKind kind : FibreKind.values()) {
      connections(kind);
    }
    new TreeMap<>(book.device()).forEach(this::device);
  }

  private void fibre(FibreKey key, double limit) {
    String name = key.category().label() + " at " + key.wavelength();
    OptionalDouble floor = leastDbPerKm(key);
    if (limit == 0 || (floor.isPresent() && limit < floor.getAsDouble())) {
      blame(
          key,
          "limit_db_per_km",
          floor.isPresent()
              ? "at least the " + shown(floor.getAsDouble()) + " dB/km that any such glass loses"
              : "a number above 0",
          shown(limit) + " for " + name);
      return;
    }
    if (key.category().kind() != FibreKind.MULTIMODE) {
      return;
    }
    book.fibre().entrySet().stream()
        .filter(e -> e.getKey().category() == key.category())
        .filter(e -> e.getKey().wavelength().nm() < key.wavelength().nm())
        .filter(e -> e.getValue().value() < limit)
        .findFirst()
        .ifPresent(
            shorter ->
                blame(
                    key,
                    shorter.getKey(),
                    "limit_db_per_km",
                    "no more than the "
                        + shown(shorter.getValue().value())
                        + " dB/km at "
                        + shorter.getKey().wavelength()
                        + ": multimode glass loses less at the longer wavelength",
                    shown(limit) + " for " + name));
  }

  /** Attenuation that no glass comes below, dB/km; empty where it is not known. */
  private static OptionalDouble leastDbPerKm(FibreKey key) {
    OptionalDouble ordinary = Glass.floorDbPerKm(key.category().kind(), key.wavelength());
    return ordinary.isPresent()
        ? OptionalDouble.of(BEST_GLASS * ordinary.getAsDouble())
        : OptionalDouble.empty();
  }

  private void connections(FibreKind kind) {
    Optional<Figure> reference = book.endLimit(kind, CordGrade.REFERENCE);
    Optional<Figure> ordinary = book.endLimit(kind, CordGrade.STANDARD);
    Optional<Figure> pair = book.referencePairLimit(kind);
    EndKey referenceKey = new EndKey(kind, CordGrade.REFERENCE);
    EndKey ordinaryKey = new EndKey(kind, CordGrade.STANDARD);
    positive(referenceKey, reference);
    positive(ordinaryKey, ordinary);
    positive("inner " + kind, book.innerLimit(kind));
    positive("reference-pair " + kind, pair);
    positive("splice " + kind, book.spliceLimit(kind));
    positive("link " + kind, book.linkLimit(kind));
    if (reference.isPresent()
        && ordinary.isPresent()
        && reference.get().value() > ordinary.get().value()) {
      blame(
          referenceKey,
          ordinaryKey,
          "limit_db",
          "an end connection with a reference-grade cord that may lose no more than one with an"
              + " ordinary cord, "
              + shown(ordinary.get().value())
              + " dB",
          shown(reference.get().value()) + ", " + kind.word());
    }
    if (pair.isPresent() && reference.isPresent() && pair.get().value() > reference.get().value()) {
      blame(
          "reference-pair " + kind,
          referenceKey,
          "limit_db",
          "two reference-grade plugs that may lose no more than one against the link, "
              + shown(reference.get().value())
              + " dB",
          shown(pair.get().value()) + ", " + kind.word());
    }
  }

  /** A splitter cannot lose less than its share: {@code 10 log10 N}. */
  private void device(String name, Figure limit) {
    Matcher splitter = SPLITTER.matcher(name);
    double ideal =
        splitter.matches() ? Splitter.idealDb(Math.max(1, Integer.parseInt(splitter.group(2)))) : 0;
    if (limit.value() == 0 || limit.value() < ideal - ROUNDED_DB) {
      blame(
          name,
          "limit_db",
          ideal > 0
              ? "at least " + shown(ideal) + " dB, what splitting alone costs (10 log10 N)"
              : "a number above 0",
          shown(limit.value()) + " for " + name);
    }
  }

  private void positive(Object key, Optional<Figure> figure) {
    if (figure.isPresent() && figure.get().value() == 0) {
      blame(key, "limit_db", "a number above 0", "0");
    }
  }

  /** Of two figures that disagree, the one of this text is blamed; the first if both are. */
  private void blame(Object one, Object other, String column, String expected, String found) {
    blame(rows.containsKey(one) ? one : other, column, expected, found);
  }

  private void blame(Object key, String column, String expected, String found) {
    @Nullable Section row = rows.get(key);
    if (row != null) {
      form.wrong(row, column, expected, found);
    }
  }

  private static String shown(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }
}
