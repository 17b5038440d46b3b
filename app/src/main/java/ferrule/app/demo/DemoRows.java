package ferrule.app.demo;

import ferrule.core.plant.Cord;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import java.util.List;

/**
 * The rows of the invented job, before they become text.
 *
 * @param links the schedule
 * @param instruments of the crews
 * @param cords of the crews
 * @param zeros in the order in which they were set
 * @param readings zero by zero, in the order in which they were taken
 */
public record DemoRows(
    List<Link> links,
    List<Instrument> instruments,
    List<Cord> cords,
    List<Zero> zeros,
    List<Reading> readings) {

  /** Copies the lists. */
  public DemoRows {
    links = List.copyOf(links);
    instruments = List.copyOf(instruments);
    cords = List.copyOf(cords);
    zeros = List.copyOf(zeros);
    readings = List.copyOf(readings);
  }

  /** The rows of a seed. */
  static DemoRows of(long seed) {
    Dice dice = new Dice(seed);
    List<Link> links = Plan.links();
    Survey survey = new Survey(BuiltFibre.all(links, dice.split()), dice.split());
    Plan.SESSIONS.forEach(survey::run);
    return new DemoRows(links, Kit.instruments(), Kit.cords(), survey.zeros(), survey.readings());
  }
}
