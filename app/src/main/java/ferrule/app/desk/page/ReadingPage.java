package ferrule.app.desk.page;

import java.util.List;

/**
 * One entry of a reading: what it says, what became of it, and how it is corrected or withdrawn.
 *
 * @param frame what surrounds it
 * @param job tells this job from every other
 * @param reading the entry
 * @param history every entry of its fibre, direction and wavelength, in the order entered
 * @param key under which a correction is stored once
 * @param typed number typed as the correction
 * @param why reason typed
 * @param typedWrong what is wrong with the number, one line; empty if nothing is
 * @param whyWrong what is wrong with the reason, one line; empty if nothing is
 * @param back where its reader came from
 * @param done whether something was just stored
 */
public record ReadingPage(
    Frame frame,
    String job,
    EnteredReading reading,
    List<EnteredReading> history,
    String key,
    String typed,
    String why,
    String typedWrong,
    String whyWrong,
    String back,
    boolean done) {

  /** Copies the list. */
  public ReadingPage {
    history = List.copyOf(history);
  }

  /** "dB" if a loss was entered, "dBm" if a level was. */
  public String unit() {
    return reading.kept().reading().hasLoss() ? "dB" : "dBm";
  }
}
