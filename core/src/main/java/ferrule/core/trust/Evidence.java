package ferrule.core.trust;

import ferrule.core.optics.Decibels;

/** One figure or fact that a doubt rests on. */
public sealed interface Evidence {

  /** Name with its unit: "verification_db", "window", "readings". */
  String name();

  /** For a reader: two decimals for numbers. */
  String shown();

  /**
   * A number.
   *
   * @param name with unit
   * @param value unrounded, finite
   */
  record Measure(String name, double value) implements Evidence {
    @Override
    public String shown() {
      return name.endsWith("_db") || name.endsWith("_dbm") || name.endsWith("_m")
          ? Decibels.shown(value)
          : value == Math.rint(value) ? Long.toString((long) value) : Decibels.shown(value);
    }
  }

  /**
   * A fact in words.
   *
   * @param name what it is
   * @param text the fact
   */
  record Note(String name, String text) implements Evidence {
    @Override
    public String shown() {
      return text;
    }
  }

  /** A number. */
  static Evidence of(String name, double value) {
    return new Measure(name, value);
  }

  /** A fact in words. */
  static Evidence of(String name, String text) {
    return new Note(name, text);
  }
}
