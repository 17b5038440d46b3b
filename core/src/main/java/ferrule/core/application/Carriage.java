package ferrule.core.application;

import ferrule.core.optics.Decibels;
import java.util.Locale;

/** Whether a link carries an application. */
public sealed interface Carriage {

  /** "carries", "does not" or "cannot be told". */
  String word();

  /** What a limit is on. */
  enum Term {
    /** Most loss, dB. */
    MOST_LOSS("most loss", "dB"),
    /** Least loss, dB: with less the receiver is overloaded. */
    LEAST_LOSS("least loss (overload)", "dB"),
    /** Longest channel, metres. */
    LENGTH("length", "m"),
    /** Shortest channel, metres. */
    LEAST_LENGTH("least length", "m");

    private final String word;
    private final String unit;

    Term(String word, String unit) {
      this.word = word;
      this.unit = unit;
    }

    /** For a reader. */
    public String word() {
      return word;
    }

    /** "dB" or "m". */
    public String unit() {
      return unit;
    }

    /** "2.60 dB", "300 m". */
    public String amount(double value) {
      if (unit.equals("dB")) {
        return Decibels.shown(value) + " dB";
      }
      String metres = value == Math.rint(value) ? "%.0f m" : "%.1f m";
      return String.format(Locale.ROOT, metres, value);
    }
  }

  /**
   * Every limit is kept.
   *
   * @param term the one with least room, measured by its limit
   * @param room how much is left to it, in the term's unit, 0 or more
   */
  record Carries(Term term, double room) implements Carriage {
    @Override
    public String word() {
      return "carries";
    }
  }

  /**
   * A limit is broken.
   *
   * @param term the one broken most, measured by its limit
   * @param by how much, in the term's unit, above 0
   */
  record DoesNot(Term term, double by) implements Carriage {
    @Override
    public String word() {
      return "does not";
    }
  }

  /**
   * Something that the answer needs is not known.
   *
   * @param why what is wanting
   */
  record CannotBeTold(String why) implements Carriage {
    @Override
    public String word() {
      return "cannot be told";
    }
  }
}
