package ferrule.vision;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Finds a row of fibres in a picture where no single face stands out: a ring small against the
 * picture. Rings are sought by doubling sizes; the strongest are looked at one by one until one
 * stands in a row.
 */
final class RowSeeds {
  /** Smallest radius sought, px: a scale of 1.6 µm/px, at which nothing is graded any more. */
  private static final double LEAST_PX = 40;

  /** That radius in the coarse picture that it is sought in, px. */
  private static final double COARSE_PX = 8;

  /** A picture's longer side over the smallest radius sought: no row is longer. */
  private static final double LONGEST = 120;

  /** How many rings of each size are looked at. */
  private static final int LOOKS = 3;

  private static final double LEAST_SCORE = 0.35;

  private RowSeeds() {}

  private record Seed(double x, double y, double r, double score) {}

  /** The first row found. */
  static Optional<FibreRow> row(Grey grey) {
    List<Seed> seeds = new ArrayList<>();
    double longer = Math.max(grey.width(), grey.height());
    double most = Math.min(grey.width(), grey.height()) / 2.1;
    for (double r = Math.max(LEAST_PX, longer / LONGEST); r < most; r *= 2) {
      seeds.addAll(strongest(grey, r, most));
    }
    seeds.sort(Comparator.comparingDouble(Seed::score).reversed());
    for (Seed seed : seeds) {
      Optional<FibreRow> row =
          Window.about(grey, seed.x(), seed.y(), 1.9 * seed.r(), 1.9 * seed.r())
              .cladding(disk -> false)
              .flatMap(found -> new RowFinder(grey, found).find());
      if (row.isPresent()) {
        return row;
      }
    }
    return Optional.empty();
  }

  /** The strongest rings of radii up to twice the least, well apart. */
  private static List<Seed> strongest(Grey grey, double least, double most) {
    RingMap map = new RingMap(grey, least, least, COARSE_PX);
    double step = least / 6;
    List<Seed> all = new ArrayList<>();
    for (double r = least; r < Math.min(most, 2.05 * least); r *= 1.1) {
      for (double y = r; y < grey.height() - r; y += step) {
        for (double x = r; x < grey.width() - r; x += step) {
          double score = Math.abs(map.score(x, y, r / least));
          if (score > LEAST_SCORE) {
            all.add(new Seed(x, y, r, score));
          }
        }
      }
    }
    all.sort(Comparator.comparingDouble(Seed::score).reversed());
    List<Seed> kept = new ArrayList<>();
    for (Seed seed : all) {
      if (kept.size() == LOOKS) {
        break;
      }
      if (kept.stream().allMatch(k -> Math.hypot(k.x() - seed.x(), k.y() - seed.y()) > least)) {
        kept.add(seed);
      }
    }
    return kept;
  }
}
