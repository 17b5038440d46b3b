package ferrule.core.trust;

import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Next steps that several finders share, so that one deed has one key and one wording. */
public final class Steps {

  private static final String VERIFY = "verify:";
  private static final String RE_ZERO = "rezero:";

  private Steps() {}

  /** The key of the deed that makes another one needless; empty if there is none. */
  static String settledBy(String key) {
    return key.startsWith(VERIFY) ? RE_ZERO + key.substring(VERIFY.length()) : "";
  }

  /** Verify a zero as it now stands; if that fails, set it again and retest. */
  public static NextStep verify(String zero, List<AssessedReading> reach) {
    return new NextStep(
        VERIFY + zero,
        "Read the launch cord of zero "
            + zero
            + " mated to its receive cord, if it never left the source: inside the window, the"
            + " readings stand; otherwise set and verify a new zero and retest an early, a middle"
            + " and a late link",
        commonPlace(reach),
        Handling.VERIFY);
  }

  /** Clean, set a zero again, verify it, and retest every link in reach. */
  public static NextStep reZero(String zero, List<AssessedReading> reach) {
    long links = links(reach);
    return new NextStep(
        RE_ZERO + zero,
        "Clean and inspect the cords of zero "
            + zero
            + ", set a new zero, verify it, and retest "
            + count(links, "link"),
        commonPlace(reach),
        Handling.RE_ZERO + links * Handling.RETEST_LINK);
  }

  /** Retest the links in reach under a zero that holds. */
  public static NextStep retest(String key, String why, List<AssessedReading> reach) {
    long links = links(reach);
    return new NextStep(
        key,
        why + ": retest " + count(links, "link") + " under a verified zero",
        commonPlace(reach),
        Math.max(1, links) * Handling.RETEST_LINK);
  }

  /** Clean both ends of a fibre and retest it. */
  public static NextStep cleanAndRetest(FibreId fibre, Link link) {
    return new NextStep(
        "clean:" + fibre,
        "Clean and inspect both ends of " + fibre + " and retest it once",
        link.a().where(),
        Handling.CLEAN_AND_RETEST);
  }

  /** Open trays and panels and watch the reading while the fibre is relaxed. */
  public static NextStep relax(FibreId fibre, Link link) {
    return new NextStep(
        "relax:" + fibre,
        "Open the trays and panels of "
            + fibre
            + ", relax the fibre and watch the reading at the longer wavelength",
        link.a().where(),
        Handling.OPEN_TRAY);
  }

  /** Find with visible light which fibre was read. */
  public static NextStep identify(FibreId fibre, Link link) {
    return new NextStep(
        "identify:" + fibre,
        "Check with visible light which fibre carries the label "
            + fibre
            + " at the far end, and retest it",
        link.b().where(),
        Handling.IDENTIFY);
  }

  /** "1 link", "3 links". */
  public static String count(long number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }

  private static long links(List<AssessedReading> reach) {
    Set<String> links = new HashSet<>();
    for (AssessedReading reading : reach) {
      links.add(reading.reading().link());
    }
    return links.size();
  }

  /** The place where most of the readings had their source; empty if none is on record. */
  public static String commonPlace(List<AssessedReading> reach) {
    Map<String, Integer> votes = new HashMap<>();
    String best = "";
    int most = 0;
    for (AssessedReading reading : reach) {
      if (reading.link().isEmpty()) {
        continue;
      }
      String place = reading.link().get().entry(reading.reading().direction()).place();
      int count = place.isEmpty() ? 0 : votes.merge(place, 1, Integer::sum);
      if (count > most) {
        most = count;
        best = place;
      }
    }
    return best;
  }
}
