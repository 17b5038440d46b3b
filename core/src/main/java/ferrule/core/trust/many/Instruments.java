package ferrule.core.trust.many;

import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Which instrument kept the time of a reading. */
final class Instruments {

  private Instruments() {}

  /** The meter of a level; the source if no meter is on record; empty without either. */
  private static String of(ZeroLevel level) {
    return level.meter().isEmpty() ? level.source() : level.meter();
  }

  /**
   * The clocks of a ledger, each with every attempt that it stamped, in the order in which they are
   * first named; without readings of no instrument on record.
   */
  static List<Clock> clocks(Ledger ledger, Moments moments) {
    List<String> names = new ArrayList<>();
    int[] clockOf = clockOf(ledger, names);
    int[] sizes = new int[names.size()];
    for (int clock : clockOf) {
      if (clock >= 0) {
        sizes[clock]++;
      }
    }
    int[][] asHandedIn = new int[sizes.length][];
    int[][] byTime = new int[sizes.length][];
    List<Clock> clocks = new ArrayList<>(sizes.length);
    for (int clock = 0; clock < sizes.length; clock++) {
      asHandedIn[clock] = new int[sizes[clock]];
      byTime[clock] = new int[sizes[clock]];
      clocks.add(new Clock(names.get(clock), asHandedIn[clock], byTime[clock]));
    }
    int[] filled = new int[sizes.length];
    for (int reading = 0; reading < clockOf.length; reading++) {
      int clock = clockOf[reading];
      if (clock >= 0) {
        asHandedIn[clock][filled[clock]++] = reading;
      }
    }
    Arrays.fill(filled, 0);
    for (int place = 0; place < clockOf.length; place++) {
      int reading = moments.at(place);
      int clock = clockOf[reading];
      if (clock >= 0) {
        byTime[clock][filled[clock]++] = reading;
      }
    }
    return clocks;
  }

  /** For each reading the number of its clock, and -1 without one; fills in the clocks' names. */
  private static int[] clockOf(Ledger ledger, List<String> names) {
    int[] clockOf = new int[ledger.readings().size()];
    Map<String, Integer> numbers = new HashMap<>();
    String lastName = "";
    int last = -1;
    for (AssessedReading reading : ledger.readings()) {
      @Nullable ZeroLevel level = reading.level().orElse(null);
      String name = level == null ? "" : of(level);
      if (!name.equals(lastName)) {
        Integer known = name.isEmpty() ? Integer.valueOf(-1) : numbers.get(name);
        if (known == null) {
          known = names.size();
          numbers.put(name, known);
          names.add(name);
        }
        lastName = name;
        last = known;
      }
      clockOf[reading.index()] = last;
    }
    return clockOf;
  }
}
