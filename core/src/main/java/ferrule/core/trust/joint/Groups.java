package ferrule.core.trust.joint;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Fibres that look alike to the estimate: same category, cases, levels, places, cable and counts.
 * They differ in length, scale and readings only, so sums over them stand for all of them.
 */
final class Groups {

  /** Group of each fibre. */
  final int[] of;

  /** One fibre of each group. */
  final int[] example;

  private record Key(
      int family,
      int mask,
      int together,
      int placeA,
      int placeB,
      int cable,
      int connections,
      int splices,
      List<Integer> levels) {}

  Groups(Frame frame) {
    this.of = new int[frame.fibres()];
    Map<Key, Integer> at = new HashMap<>();
    List<Integer> examples = new ArrayList<>();
    for (int i = 0; i < of.length; i++) {
      if (i > 0 && alike(frame, i - 1, i)) {
        of[i] = of[i - 1];
        continue;
      }
      Integer found = at.putIfAbsent(key(frame, i), examples.size());
      if (found == null) {
        of[i] = examples.size();
        examples.add(i);
      } else {
        of[i] = found;
      }
    }
    this.example = examples.stream().mapToInt(i -> i).toArray();
  }

  /** Number of groups. */
  int size() {
    return example.length;
  }

  private static Key key(Frame frame, int i) {
    List<Integer> levels = new ArrayList<>(frame.start[i + 1] - frame.start[i]);
    for (int r = frame.start[i]; r < frame.start[i + 1]; r++) {
      levels.add(frame.levelOf[r]);
    }
    return new Key(
        frame.family[i],
        frame.mask[i],
        frame.together[i],
        frame.placeA[i],
        frame.placeB[i],
        frame.cable[i],
        frame.connections[i],
        frame.splices[i],
        levels);
  }

  private static boolean alike(Frame frame, int one, int two) {
    return frame.family[one] == frame.family[two]
        && frame.mask[one] == frame.mask[two]
        && frame.together[one] == frame.together[two]
        && frame.placeA[one] == frame.placeA[two]
        && frame.placeB[one] == frame.placeB[two]
        && frame.cable[one] == frame.cable[two]
        && frame.connections[one] == frame.connections[two]
        && frame.splices[one] == frame.splices[two]
        && frame.sameLevels(one, two);
  }
}
