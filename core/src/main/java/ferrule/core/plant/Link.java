package ferrule.core.plant;

import ferrule.core.optics.FibreCategory;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Cabling between two ports.
 *
 * @param id name on the label: "K014"
 * @param category fibre category
 * @param fibres number of fibres, 1 to {@link #MOST_FIBRES}
 * @param lengthM scheduled length, metres, above 0 and up to {@link #LONGEST_M}
 * @param a the end called A
 * @param b the end called B
 * @param connections mated pairs between the two ends, the ends not counted
 * @param splices splices
 * @param devices devices in the way, such as "splitter-1x8"
 * @param fedBy id of the link whose end B feeds this one; empty if none does. In a job such a link
 *     stands for its whole path from the head of its tree ({@link FeedTree})
 */
public record Link(
    String id,
    FibreCategory category,
    int fibres,
    double lengthM,
    LinkEnd a,
    LinkEnd b,
    int connections,
    int splices,
    List<String> devices,
    String fedBy) {

  /** Most fibres in one link. */
  public static final int MOST_FIBRES = 6912;

  /** Longest link, metres. */
  public static final double LONGEST_M = 200_000;

  /**
   * @throws IllegalArgumentException if a number is outside its range
   */
  public Link {
    if (fibres < 1 || fibres > MOST_FIBRES) {
      throw new IllegalArgumentException("fibres: " + fibres);
    }
    if (!(lengthM > 0 && lengthM <= LONGEST_M)) {
      throw new IllegalArgumentException("length: " + lengthM);
    }
    if (connections < 0 || splices < 0) {
      throw new IllegalArgumentException("counts must not be negative");
    }
    devices = List.copyOf(devices);
  }

  /** A link that no other one feeds. */
  public Link(
      String id,
      FibreCategory category,
      int fibres,
      double lengthM,
      LinkEnd a,
      LinkEnd b,
      int connections,
      int splices,
      List<String> devices) {
    this(id, category, fibres, lengthM, a, b, connections, splices, devices, "");
  }

  /** Its fibres, the first first. */
  public List<FibreId> fibreIds() {
    return IntStream.rangeClosed(1, fibres).mapToObj(n -> new FibreId(id, n)).toList();
  }

  /** Scheduled length, km. */
  public double lengthKm() {
    return lengthM / 1000;
  }

  /** The end where light enters in the given direction. */
  public LinkEnd entry(Direction direction) {
    return direction == Direction.A_TO_B ? a : b;
  }

  /** The end where light leaves in the given direction. */
  public LinkEnd exit(Direction direction) {
    return direction == Direction.A_TO_B ? b : a;
  }
}
