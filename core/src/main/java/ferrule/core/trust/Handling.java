package ferrule.core.trust;

/**
 * How long things take, in minutes, two technicians, indoor duplex connectors. Common practice, no
 * source, unless said otherwise; a job's own observed pace may replace them later.
 */
public final class Handling {

  /** Verify a zero: launch cord mated to receive cord. */
  public static final double VERIFY = 5;

  /** Clean, set a new zero and verify it. */
  public static final double RE_ZERO = 10;

  /** Retest one link, both ends. */
  public static final double RETEST_LINK = 3;

  /** Clean and inspect both ends of one fibre and retest it. */
  public static final double CLEAN_AND_RETEST = 5;

  /** First test of one link, both directions, ends inspected (about 2.9 minutes; computed). */
  public static final double TEST_LINK = 3;

  /** Look at one end face and clean it if needed. */
  public static final double INSPECT_FACE = 1;

  /** Open a tray or panel, relax the fibre, read again. */
  public static final double OPEN_TRAY = 10;

  /** Identify a fibre with visible light from the far end. */
  public static final double IDENTIFY = 5;

  /** Look something up in the papers or ask. */
  public static final double LOOK_UP = 5;

  /**
   * Walk to a place, set up there and clear away, once a visit. Published: 20 to 30 minutes a
   * location, longer between buildings (trade article "Termination processes decide costs"); the
   * lower figure is taken.
   */
  public static final double SET_UP = 20;

  private Handling() {}
}
