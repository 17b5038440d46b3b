package ferrule.core.plan;

/**
 * Figures of practice from which a plan is made, each with where it comes from. They are defaults:
 * a job's own observed pace replaces the times.
 */
public enum Practice {
  /** Move and plug both ends of one pair of fibres. */
  MOVE_AND_PLUG(
      Range.between(30, 40), "s", "two people, duplex single-fibre connectors", Practice.COMMON),
  /** One automatic reading of one pair of fibres at two wavelengths. */
  MEASURE(Range.between(5, 15), "s", "a pair of fibres at two wavelengths", Practice.COMMON),
  /** Look at one end face that is clean. */
  CLEAN_FACE(Range.between(8, 15), "s", "a single face", Practice.COMMON),
  /** Look at one end face, clean it, look again. */
  DIRTY_FACE(Range.between(25, 60), "s", "a single face", Practice.COMMON),
  /** Share of faces that must be cleaned. */
  DIRTY_SHARE(
      new Range(0.05, 0.10, 0.40),
      "of 1",
      "5 to 10 % in a finished room, 20 to 40 % on a live site",
      Practice.COMMON),
  /** Keep and name a picture of a face that is in view anyway. */
  KEEP_PICTURE(Range.between(5, 15), "s", "a face", "assumed, no source"),
  /** Look at, and clean if needed, one array ferrule. */
  ARRAY_FERRULE(Range.between(1, 2), "min", "a ferrule", Practice.COMMON),
  /** Test twelve fibres of an array link natively. */
  ARRAY_TEST(
      Range.between(1.5, 3), "min", "12 fibres, a tester that takes arrays", Practice.COMMON),
  /** Test twelve fibres of an array link through fan-outs. */
  FAN_OUT_TEST(Range.between(10, 15), "min", "12 fibres, through fan-outs", Practice.COMMON),
  /** Set up, and clear away, at one place. */
  SET_UP(
      new Range(20, 20, 30),
      "min",
      "a location, longer alone or between buildings",
      "trade article \"Termination processes decide costs\""),
  /** Share of links that fail the first time. */
  FIRST_FAILS(
      new Range(0.01, 0.02, 0.05),
      "of 1",
      "1 to 2 % ended in a factory, 2 to 5 % in the field",
      "common practice, no source; a trade article (2022) has trained field yield at 95 % and more"),
  /** Repair and retest one link while the crew is on site. */
  REPAIR(new Range(15, 30, 60), "min", "a link, on site", Practice.COMMON),
  /** Come back for a repair or a retest once the crew has left. */
  COME_BACK(
      Range.between(240, 480),
      "min",
      "half a day to a day, once the crew has left",
      Practice.COMMON),
  /** One trace in one direction at two wavelengths. */
  TRACE(Range.between(0.5, 1.5), "min", "a fibre, one direction, two wavelengths", Practice.COMMON),
  /** Matings that one end of a test cord lasts. */
  CORD_LIFE(
      new Range(500, 500, 500),
      "matings",
      "type-tested to 500 with at most 0.2 dB change (IEC 61300-2-2); no agreed life for a test cord",
      "common practice; a supplier's trainer says: measure your own"),
  /** Matings that an array cord's end lasts. */
  ARRAY_CORD_LIFE(new Range(200, 350, 500), "matings", "arrays usually fewer", Practice.COMMON),
  /** Length above which a trace is of use on a link without splices. */
  TRACE_FROM(
      new Range(300, 300, 500), "m", "links above 300 to 500 m, or spliced", Practice.COMMON),
  /** Hours of a shift. */
  SHIFT(Range.of(8), "h", "a working day", Practice.COMMON),
  /** Papers and names brought together in the office. */
  OFFICE(new Range(1, 1.5, 2), "h", "1,000 links, if the names are right", Practice.COMMON);

  /** What is said of a figure that everybody uses and nobody has published. */
  static final String COMMON = "common practice, no source";

  private final Range range;
  private final String unit;
  private final String of;
  private final String source;

  Practice(Range range, String unit, String of, String source) {
    this.range = range;
    this.unit = unit;
    this.of = of;
    this.source = source;
  }

  /** The figure. */
  public Range range() {
    return range;
  }

  /** Its unit: s, min, h, m, matings, or "of 1" for a share. */
  public String unit() {
    return unit;
  }

  /** What it is a figure of. */
  public String of() {
    return of;
  }

  /** Where it comes from. */
  public String source() {
    return source;
  }

  /** A time in minutes. */
  Range minutes() {
    return switch (unit) {
      case "s" -> range.times(1 / 60.0);
      case "h" -> range.times(60);
      default -> range;
    };
  }
}
