package ferrule.core.plant;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;

/** Many fibres in few words: "K001/1-12, K003/2". */
public final class FibreRanges {

  private FibreRanges() {}

  /** All of them; links in the order of their names, each fibre once. */
  public static String shown(List<FibreId> fibres) {
    return String.join(", ", ranges(fibres));
  }

  /**
   * At most {@code most} ranges, and how many fibres the rest holds.
   *
   * @param most at least 1
   */
  public static String shown(List<FibreId> fibres, int most) {
    List<String> ranges = ranges(fibres);
    if (ranges.size() <= most) {
      return String.join(", ", ranges);
    }
    return String.join(", ", ranges.subList(0, most))
        + " and others, "
        + fibres.stream().distinct().count()
        + " in all";
  }

  private static List<String> ranges(List<FibreId> fibres) {
    Map<String, TreeSet<Integer>> byLink = new TreeMap<>();
    for (FibreId fibre : fibres) {
      byLink.computeIfAbsent(fibre.link(), k -> new TreeSet<>()).add(fibre.fibre());
    }
    List<String> ranges = new ArrayList<>();
    byLink.forEach(
        (link, numbers) -> {
          int first = 0;
          int last = -1;
          for (int number : numbers) {
            if (number != last + 1) {
              add(ranges, link, first, last);
              first = number;
            }
            last = number;
          }
          add(ranges, link, first, last);
        });
    return ranges;
  }

  private static void add(List<String> ranges, String link, int first, int last) {
    if (last >= first && first > 0) {
      ranges.add(link + "/" + first + (last > first ? "-" + last : ""));
    }
  }
}
