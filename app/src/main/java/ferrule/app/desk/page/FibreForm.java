package ferrule.app.desk.page;

import ferrule.core.entry.PortRound;
import ferrule.core.entry.Slip;
import ferrule.core.optics.Wavelength;
import ferrule.store.job.KeptReading;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The form in which one fibre's readings are typed.
 *
 * @param stop the fibre and where it ends
 * @param key under which what is typed is stored once
 * @param fields one for each wavelength
 * @param why the reason typed for reading again or correcting
 * @param again whether it was read again; else what is there was entered wrongly
 * @param whyWrong what is wrong with the reason, one line; empty if nothing is
 * @param wrong what is wrong with the form as a whole, one line; empty if nothing is
 */
public record FibreForm(
    PortRound.Stop stop,
    String key,
    List<Field> fields,
    String why,
    boolean again,
    String whyWrong,
    String wrong) {

  /**
   * One number.
   *
   * @param wavelength at which it is read
   * @param typed what was typed
   * @param wrong what is wrong with it, one line; empty if nothing is
   * @param slip what is asked about it, if anything
   * @param there the reading that stands for this case, if there is one
   * @param newThere whether that came in since the form was made
   * @param zeroDbm level of the zero in force, dBm, if it has one
   * @param limitDb most loss permitted, dB; NaN if not known
   * @param expectedDb expected loss, dB; NaN if not known
   */
  public record Field(
      Wavelength wavelength,
      String typed,
      String wrong,
      Optional<Slip> slip,
      Optional<KeptReading> there,
      boolean newThere,
      OptionalDouble zeroDbm,
      double limitDb,
      double expectedDb) {

    /** Its name in the form. */
    public String name() {
      return "v" + wavelength.nm();
    }

    /** Number of the entry that is there; 0 if none is. */
    public long known() {
      return there.map(KeptReading::seq).orElse(0L);
    }

    /** "0.42 dB", "-5.60 dBm". */
    public String thereInWords() {
      return there.map(kept -> inWords(kept)).orElse("");
    }
  }

  /** Copies the list. */
  public FibreForm {
    fields = List.copyOf(fields);
  }

  /** The same with something wrong with it as a whole. */
  public FibreForm refused(String line) {
    return new FibreForm(stop, key, fields, why, again, whyWrong, line);
  }

  /** The number of a reading as it was handed in. */
  public static String inWords(KeptReading kept) {
    return kept.reading().hasLoss()
        ? Show.db(kept.reading().lossDb()) + " dB"
        : Show.db(kept.reading().powerDbm()) + " dBm";
  }

  /** Whether a reading is there already. */
  public boolean anyThere() {
    return fields.stream().anyMatch(f -> f.there().isPresent());
  }

  /** Whether a reading came in since the form was made. */
  public boolean overtaken() {
    return fields.stream().anyMatch(Field::newThere);
  }

  /** Whether something must be said before it can be stored. */
  public boolean anyWrong() {
    return !wrong.isEmpty()
        || !whyWrong.isEmpty()
        || overtaken()
        || fields.stream().anyMatch(f -> !f.wrong().isEmpty() || f.slip().isPresent());
  }
}
