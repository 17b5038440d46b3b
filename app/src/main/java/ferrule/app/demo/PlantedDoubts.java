package ferrule.app.demo;

import ferrule.core.plant.FibreId;
import ferrule.core.trust.DoubtKind;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * Every doubt that the demo must raise. Written down apart from the code that plants the trouble,
 * so that the one checks the other.
 */
final class PlantedDoubts {

  /** Fibres of which a believed reading is over its limit: two dirty ports and a tight bend. */
  static final SortedSet<String> FAILED = new TreeSet<>(List.of("S002/7", "S003/5", "S057/2"));

  private PlantedDoubts() {}

  static List<Planted> all() {
    List<Planted> all = new ArrayList<>();
    // The six troubles of zeros and kit.
    all.add(blocking(DoubtKind.ZERO_UNVERIFIED, "Z06", fibres("M", 13, 20, 2)));
    all.add(blocking(DoubtKind.ZERO_VERIFICATION, "Z07", fibres("S", 8, 16, 2)));
    all.add(blocking(DoubtKind.ZERO_MISMATCH, "Z10", fibres("S", 50, 55, 2)));
    all.add(blocking(DoubtKind.ZERO_POWER, "Z15", fibres("S", 21, 21, 12)));
    all.add(blocking(DoubtKind.ZERO_LAPSED, "Z05", fibres("S", 44, 49, 2)));
    all.add(blocking(DoubtKind.CALIBRATION_LAPSED, "PC2", fibres("M", 35, 42, 2)));
    // Less loss than glass: three under the zero that was too low, one of another length.
    for (String fibre : List.of("S009/1", "S012/2", "S015/1", "S019/3")) {
      all.add(single(DoubtKind.BELOW_FLOOR, true, fibre));
    }
    // Bends, inside and outside the limit; a connection dirty one way only.
    for (String fibre : List.of("S001/4", "S018/9", "S002/7")) {
      all.add(single(DoubtKind.WAVELENGTH_ORDER, false, fibre));
    }
    all.add(single(DoubtKind.DIRECTION_GAP, false, "S061/1"));
    // Two links crossed, a spare read for a fibre, and a name that was not moved on.
    for (String fibre : List.of("S019/3", "M008/2")) {
      all.add(single(DoubtKind.LENGTH_GAP, false, fibre));
    }
    for (int fibre = 1; fibre <= 2; fibre++) {
      String one = "S025/" + fibre;
      String other = "S029/" + fibre;
      List<FibreId> both = List.of(Trouble.fibre(one), Trouble.fibre(other));
      all.add(blocking(DoubtKind.CROSSED, one, both));
      all.add(blocking(DoubtKind.CROSSED, other, both));
    }
    all.add(single(DoubtKind.DOUBLE, true, "M008/2"));
    // Cleaned and read again.
    all.add(single(DoubtKind.DOUBLE, false, "M048/1"));
    // Not read B-A, filed under the name before, filed under a mistyped name.
    for (String fibre :
        List.of(
            "S017/8", "S017/9", "S017/10", "S017/11", "S017/12", "M009/1", "M030/1", "M030/2")) {
      all.add(single(DoubtKind.MISSING, false, fibre));
    }
    all.add(single(DoubtKind.UNSCHEDULED, false, "MO30/1"));
    all.add(single(DoubtKind.UNSCHEDULED, false, "MO30/2"));
    return List.copyOf(all);
  }

  private static Planted blocking(DoubtKind kind, String subject, List<FibreId> fibres) {
    return Planted.of(kind, subject, true, fibres);
  }

  private static Planted single(DoubtKind kind, boolean blocking, String fibre) {
    return Planted.of(kind, fibre, blocking, List.of(Trouble.fibre(fibre)));
  }

  private static List<FibreId> fibres(String letter, int first, int last, int fibres) {
    List<FibreId> ids = new ArrayList<>();
    for (int link = first; link <= last; link++) {
      for (int fibre = 1; fibre <= fibres; fibre++) {
        ids.add(new FibreId(letter + (link < 10 ? "00" : "0") + link, fibre));
      }
    }
    return ids;
  }
}
