package ferrule.app.demo;

import ferrule.core.optics.FibreKind;
import java.time.OffsetDateTime;
import java.util.Set;

/**
 * One half-day of one crew on one kind of fibre, with the zero it set at the start.
 *
 * @param zero id of the zero
 * @param crew the crew's operator
 * @param setAt when the zero was set
 * @param kind kind of fibre
 * @param links how many links it tested
 * @param plants trouble planted into this session
 */
record Session(
    String zero,
    Crew crew,
    OffsetDateTime setAt,
    FibreKind kind,
    int links,
    Set<Plant> plants) {

  /**
   * A crew: one person and two test sets, one for each end.
   *
   * @param operator invented first name
   * @param letter in the names of its kit
   */
  record Crew(String operator, String letter) {}

  /** What can be wrong with a session. */
  enum Plant {
    /** The verification of the zero was not written down. */
    UNVERIFIED,
    /** The launch cord was dirty when the A-B zero was set, and cleaned before the readings. */
    DIRTY_ZERO,
    /** The zero was set through two cords. */
    TWO_CORD,
    /** The source's power at one wavelength is far too low. */
    LOW_POWER,
    /** The last two links were read the next morning, without a new zero. */
    WENT_ON
  }
}
