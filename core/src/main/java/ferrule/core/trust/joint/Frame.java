package ferrule.core.trust.joint;

import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import ferrule.core.uncertainty.OrderStats;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;

/**
 * The readings that the joint estimate rests on, as arrays: loss less expected loss, by fibre. A
 * reading enters if it counts, names a level of a zero on record, and an expected loss can be
 * formed. Fibres keep the order of the schedule.
 */
final class Frame {

  /** Residuals are drawn in to this, dB: no reading can move an estimate by more. */
  private static final double WILDEST_DB = 60;

  /** Places and positions with fewer fibres than this get no part of their own. */
  static final int ENOUGH_FIBRES = 6;

  /** Readings that one thread takes at a time. */
  private static final int CHUNK = 8192;

  private static final int MOST_PLACES = 120;
  private static final int MOST_CABLES = 40;
  private static final int MOST_POSITIONS = 48;

  /** A level of a zero. */
  record Level(int index, int zero, ZeroLevel level) {
    boolean forward() {
      return level.direction() == Direction.A_TO_B;
    }

    int nm() {
      return level.wavelength().nm();
    }
  }

  final Ledger ledger;
  final List<Family> families = new ArrayList<>();
  final List<Level> levels = new ArrayList<>();
  final List<Zero> zeros;
  final int[][] levelsOfZero;

  /** By fibre: where its readings begin; one more than fibres. */
  final int[] start;

  final int[] slot;
  private Link[] link = new Link[0];

  /** Number of each fibre's link among those that have readings. */
  final int[] linkNumber;

  final int[] family;
  final int[] mask;
  final double[] km;
  final int[] connections;
  final int[] splices;
  final double[] scale;
  final int[] placeA;
  final int[] placeB;
  final int[] position;

  /**
   * Cable, that is places and category, or -1 if the category has but one or there are too many.
   */
  final int[] cable;

  /**
   * Fibres of the same link that are read in the same cases under the same levels, itself included.
   */
  final int[] together;

  /**
   * By family and wavelength: how what fibres differ in shows at each wavelength. Lateral offset to
   * begin with; {@link Scatter} puts in what the job shows.
   */
  final double[][] pattern;

  /** Fibres that look alike to the estimate. */
  final Groups groups;

  /** Fibres by family, zero of their first case, and time; those of equal times as scheduled. */
  final int[] testOrder;

  /** Fibres that each zero has readings of, in the order of the schedule. */
  final int[][] fibresOfZero;

  /** By reading. */
  final AssessedReading[] reading;

  final int[] fibreOf;

  final int[] caseOf;
  final int[] levelOf;
  final double[] excess;

  /** Seconds since the first reading of all. */
  final double[] seconds;

  /** Time of the first reading of all, seconds of the Unix epoch. */
  final long firstSecond;

  /** Names of places that have a part of their own. */
  final List<String> places = new ArrayList<>();

  /** Fibre numbers that have a part of their own. */
  final List<Integer> positions = new ArrayList<>();

  /** Family of each cable that has glass of its own. */
  final int[] cables;

  /** How far the connections and splices of each cable may differ from the job's others, dB. */
  final double[] cableSd;

  private Frame(Ledger ledger, Columns c) {
    this.ledger = ledger;
    this.zeros = ledger.job().zeros();
    Map<ZeroLevel, Integer> levelIndex = new IdentityHashMap<>();
    this.levelsOfZero = new int[zeros.size()][];
    for (int z = 0; z < zeros.size(); z++) {
      List<ZeroLevel> own = zeros.get(z).levels();
      levelsOfZero[z] = new int[own.size()];
      for (int k = 0; k < own.size(); k++) {
        levelsOfZero[z][k] = levels.size();
        levelIndex.put(own.get(k), levels.size());
        levels.add(new Level(levels.size(), z, own.get(k)));
      }
    }
    this.families.addAll(c.families);
    int n = c.fibres;
    int m = c.readings;
    this.start = Arrays.copyOf(c.start, n + 1);
    this.slot = Arrays.copyOf(c.slot, n);
    this.family = Arrays.copyOf(c.family, n);
    this.mask = Arrays.copyOf(c.mask, n);
    this.km = new double[n];
    this.linkNumber = new int[n];
    this.connections = new int[n];
    this.splices = new int[n];
    this.scale = new double[n];
    this.placeA = new int[n];
    this.placeB = new int[n];
    this.position = new int[n];
    this.cable = new int[n];
    this.together = new int[n];
    this.reading = Arrays.copyOf(c.reading, m);
    this.caseOf = Arrays.copyOf(c.caseOf, m);
    this.levelOf = new int[m];
    this.fibreOf = new int[m];
    for (int i = 0; i < n; i++) {
      Arrays.fill(fibreOf, start[i], start[i + 1], i);
    }
    this.excess = new double[m];
    this.seconds = new double[m];
    long[] second = new long[m];
    int chunks = (m + CHUNK - 1) / CHUNK;
    IntStream.range(0, chunks)
        .parallel()
        .forEach(
            chunk -> take(levelIndex, second, chunk * CHUNK, Math.min(m, (chunk + 1) * CHUNK)));
    long first = Long.MAX_VALUE;
    for (long one : second) {
      first = Math.min(first, one);
    }
    this.firstSecond = first;
    for (int r = 0; r < m; r++) {
      seconds[r] = second[r] - first;
    }
    this.pattern = new double[families.size()][];
    for (Family f : families) {
      pattern[f.index()] = new double[f.wavelengths()];
      for (int w = 0; w < f.wavelengths(); w++) {
        pattern[f.index()][w] = f.patternOf(w);
      }
    }
    describeFibres();
    this.cables = findCables();
    this.cableSd = cableSds();
    findTogether();
    this.groups = new Groups(this);
    this.testOrder = inTestOrder();
    this.fibresOfZero = byZero();
  }

  /** Level, excess and time of some readings. */
  private void take(Map<ZeroLevel, Integer> levelIndex, long[] second, int from, int to) {
    int[] lastOfCase = new int[Family.MOST_CASES];
    Arrays.fill(lastOfCase, -1);
    for (int r = from; r < to; r++) {
      AssessedReading one = reading[r];
      ZeroLevel level = one.level().orElseThrow();
      int at = lastOfCase[caseOf[r]];
      // Readings of a case follow one another under the same level.
      if (at < 0 || levels.get(at).level() != level) {
        at = Objects.requireNonNull(levelIndex.get(level));
        lastOfCase[caseOf[r]] = at;
      }
      levelOf[r] = at;
      double residual = one.lossDb() - one.expectedDb();
      excess[r] = Math.max(-WILDEST_DB, Math.min(WILDEST_DB, residual));
      second[r] = one.reading().measuredAt().getEpochSecond();
    }
  }

  private void describeFibres() {
    int n = slot.length;
    double[] usual = new double[families.size()];
    int[] members = new int[families.size()];
    for (int i = 0; i < n; i++) {
      members[family[i]]++;
    }
    double[][] spreads = new double[families.size()][];
    for (int f = 0; f < spreads.length; f++) {
      spreads[f] = new double[members[f]];
      members[f] = 0;
    }
    Map<String, Integer> placeCount = new HashMap<>();
    int[] positionCount = new int[MOST_POSITIONS + 1];
    this.link = new Link[n];
    int begin = 0;
    for (int i = 0; i < n; i++) {
      Link link = ledger.link(slot[i]);
      this.link[i] = link;
      linkNumber[i] = i == 0 ? 0 : linkNumber[i - 1] + (this.link[i - 1] == link ? 0 : 1);
      km[i] = link.lengthKm();
      connections[i] = link.connections();
      splices[i] = link.splices();
      scale[i] = spread(i);
      spreads[family[i]][members[family[i]]++] = scale[i];
      if (link.fibres() > 1) {
        int number = ledger.fibre(slot[i]).fibre();
        if (number <= MOST_POSITIONS) {
          positionCount[number]++;
        }
      }
      if (i + 1 == n || ledger.link(slot[i + 1]) != link) {
        int count = i + 1 - begin;
        begin = i + 1;
        placeCount.merge(link.a().place(), count, Integer::sum);
        if (!link.b().place().equals(link.a().place())) {
          placeCount.merge(link.b().place(), count, Integer::sum);
        }
      }
    }
    for (Family f : families) {
      usual[f.index()] = OrderStats.median(spreads[f.index()]);
    }
    placeCount.remove("");
    placeCount.entrySet().stream()
        .filter(e -> e.getValue() >= ENOUGH_FIBRES)
        .sorted(
            Map.Entry.<String, Integer>comparingByValue()
                .reversed()
                .thenComparing(Map.Entry.comparingByKey()))
        .limit(MOST_PLACES)
        .forEach(e -> places.add(e.getKey()));
    int[] positionAt = new int[MOST_POSITIONS + 1];
    Arrays.fill(positionAt, -1);
    for (int number = 0; number <= MOST_POSITIONS; number++) {
      if (positionCount[number] >= ENOUGH_FIBRES) {
        positionAt[number] = positions.size();
        positions.add(number);
      }
    }
    Map<String, Integer> placeAt = new HashMap<>();
    for (String place : places) {
      placeAt.put(place, placeAt.size());
    }
    for (int i = 0; i < n; i++) {
      Link link = this.link[i];
      double ratio = scale[i] / usual[family[i]];
      scale[i] = ratio > 0 && Double.isFinite(ratio) ? Math.max(0.5, Math.min(3, ratio)) : 1;
      if (i > 0 && this.link[i - 1] == link) {
        placeA[i] = placeA[i - 1];
        placeB[i] = placeB[i - 1];
      } else {
        placeA[i] = placeAt.getOrDefault(link.a().place(), -1);
        placeB[i] = placeAt.getOrDefault(link.b().place(), -1);
        if (placeB[i] == placeA[i]) {
          placeB[i] = -1;
        }
      }
      position[i] = -1;
      if (link.fibres() > 1) {
        int number = ledger.fibre(slot[i]).fibre();
        position[i] = number <= MOST_POSITIONS ? positionAt[number] : -1;
      }
    }
  }

  private record Cable(String a, String b, int family) {}

  private Cable cableOf(int fibre) {
    Link link = linkOf(fibre);
    return new Cable(link.a().place(), link.b().place(), family[fibre]);
  }

  private int[] findCables() {
    Map<Cable, Integer> counts = new LinkedHashMap<>();
    int[] distinct = new int[families.size()];
    int begin = 0;
    for (int i = 0; i < slot.length; i++) {
      if (i + 1 < slot.length && link[i + 1] == link[i]) {
        continue;
      }
      int count = i + 1 - begin;
      begin = i + 1;
      if (counts.merge(cableOf(i), count, Integer::sum) == count) {
        distinct[family[i]]++;
      }
    }
    List<Cable> kept =
        counts.entrySet().stream()
            .filter(e -> distinct[e.getKey().family()] > 1)
            .sorted(Map.Entry.<Cable, Integer>comparingByValue().reversed())
            .limit(MOST_CABLES)
            .map(Map.Entry::getKey)
            .toList();
    Map<Cable, Integer> at = new HashMap<>();
    for (Cable one : kept) {
      at.put(one, at.size());
    }
    for (int i = 0; i < slot.length; i++) {
      cable[i] = i > 0 && link[i - 1] == link[i] ? cable[i - 1] : at.getOrDefault(cableOf(i), -1);
    }
    return kept.stream().mapToInt(Cable::family).toArray();
  }

  /** A batch of pigtails, and of what is inside: 0.006 dB, 0.03 a connection, 0.015 a splice. */
  private double[] cableSds() {
    double[] variance = new double[cables.length];
    for (int i = 0; i < slot.length; i++) {
      if (cable[i] >= 0) {
        variance[cable[i]] =
            Math.max(
                variance[cable[i]],
                3.6e-5
                    + 9e-4 * connections[i] * connections[i]
                    + 2.25e-4 * splices[i] * splices[i]);
      }
    }
    return Arrays.stream(variance).map(Math::sqrt).toArray();
  }

  private void findTogether() {
    int begin = 0;
    for (int i = 1; i <= slot.length; i++) {
      if (i == slot.length || !alike(begin, i)) {
        Arrays.fill(together, begin, i, i - begin);
        begin = i;
      }
    }
  }

  private boolean alike(int one, int two) {
    return linkOf(one) == linkOf(two) && mask[one] == mask[two] && sameLevels(one, two);
  }

  /** Whether two fibres read in the same cases were read under the same levels. */
  boolean sameLevels(int one, int two) {
    for (int k = 0; k < start[one + 1] - start[one]; k++) {
      if (levelOf[start[one] + k] != levelOf[start[two] + k]) {
        return false;
      }
    }
    return true;
  }

  /** Expected spread of a fibre at its first case, brought to 1310 nm by the family's pattern. */
  private double spread(int fibre) {
    int r = start[fibre];
    double pattern = families.get(family[fibre]).cases().get(caseOf[r]).pattern();
    return reading[r].expectedSdDb() / pattern;
  }

  Link linkOf(int fibre) {
    return link[fibre];
  }

  /** The zero of a fibre's first case. */
  int firstZero(int fibre) {
    return zeroOf(start[fibre]);
  }

  private int[][] byZero() {
    int[] counts = new int[zeros.size()];
    int[][] lists = new int[zeros.size()][0];
    for (int i = 0; i < fibres(); i++) {
      for (int r = start[i]; r < start[i + 1]; r++) {
        int zero = zeroOf(r);
        int count = counts[zero];
        if (count > 0 && lists[zero][count - 1] == i) {
          continue;
        }
        if (count == lists[zero].length) {
          lists[zero] = Arrays.copyOf(lists[zero], Math.max(8, count * 2));
        }
        lists[zero][counts[zero]++] = i;
      }
    }
    for (int z = 0; z < lists.length; z++) {
      lists[z] = Arrays.copyOf(lists[z], counts[z]);
    }
    return lists;
  }

  /** The zero that a reading was taken under. */
  int zeroOf(int reading) {
    return levels.get(levelOf[reading]).zero();
  }

  /** How many links some fibres belong to, those of a link standing together. */
  int links(int[] some) {
    int links = 0;
    for (int k = 0; k < some.length; k++) {
      links += k > 0 && linkOf(some[k]) == linkOf(some[k - 1]) ? 0 : 1;
    }
    return links;
  }

  private int[] inTestOrder() {
    int[] order = new int[slot.length];
    double[] first = new double[slot.length];
    for (int i = 0; i < order.length; i++) {
      order[i] = i;
      first[i] = Double.POSITIVE_INFINITY;
      for (int r = start[i]; r < start[i + 1]; r++) {
        first[i] = Math.min(first[i], seconds[r]);
      }
    }
    boolean sorted = true;
    for (int i = 1; i < order.length && sorted; i++) {
      sorted = inOrder(i - 1, i, first) <= 0;
    }
    if (sorted) {
      return order;
    }
    Integer[] boxed = new Integer[order.length];
    Arrays.setAll(boxed, i -> i);
    Arrays.sort(boxed, (one, two) -> inOrder(one, two, first));
    Arrays.setAll(order, i -> boxed[i]);
    return order;
  }

  private int inOrder(int one, int two, double[] first) {
    int by = Integer.compare(family[one], family[two]);
    by = by != 0 ? by : Integer.compare(firstZero(one), firstZero(two));
    by = by != 0 ? by : Double.compare(first[one], first[two]);
    return by != 0 ? by : Integer.compare(one, two);
  }

  /** How a loss that fibres differ in shows in a reading of the fibre. */
  double pattern(int fibre, int reading) {
    int f = family[fibre];
    return pattern[f][families.get(f).cases().get(caseOf[reading]).wavelengthAt()];
  }

  /** Number of fibres. */
  int fibres() {
    return slot.length;
  }

  /** Number of readings. */
  int readings() {
    return reading.length;
  }

  /** Growing arrays while the ledger is walked. */
  private static final class Columns {
    final List<Family> families = new ArrayList<>();
    int fibres = 0;
    int readings = 0;
    int[] start;
    int[] slot;
    int[] family;
    int[] mask;
    AssessedReading[] reading;
    int[] caseOf;

    Columns(int slots, int readings) {
      start = new int[slots + 1];
      slot = new int[slots];
      family = new int[slots];
      mask = new int[slots];
      reading = new AssessedReading[readings];
      caseOf = new int[readings];
    }
  }

  /** Lays a job's readings out. */
  static Frame of(Ledger ledger) {
    Columns c = new Columns(ledger.slots(), ledger.current().size());
    Map<FibreCategory, Family> byCategory = new EnumMap<>(FibreCategory.class);
    for (int slot = 0; slot < ledger.slots(); slot++) {
      int begin = c.readings;
      int mask = 0;
      Family family = null;
      for (AssessedReading reading : ledger.readings(slot)) {
        if (!usable(reading)) {
          continue;
        }
        if (family == null) {
          family =
              byCategory.computeIfAbsent(
                  ledger.link(slot).category(), k -> new Family(byCategory.size(), k));
        }
        int at = family.caseAt(reading.forward(), reading.nm());
        if (at < 0 || (mask & (1 << at)) != 0) {
          continue;
        }
        mask |= 1 << at;
        c.reading[c.readings] = reading;
        c.caseOf[c.readings++] = at;
      }
      if (family == null || c.readings == begin) {
        continue;
      }
      sortByCase(c, begin);
      c.start[c.fibres] = begin;
      c.slot[c.fibres] = slot;
      c.family[c.fibres] = family.index();
      c.mask[c.fibres++] = mask;
      c.start[c.fibres] = c.readings;
    }
    c.families.addAll(byCategory.values());
    c.families.sort(Comparator.comparingInt(Family::index));
    return new Frame(ledger, c);
  }

  private static boolean usable(AssessedReading reading) {
    return reading.current()
        && reading.hasLoss()
        && !reading.contradictsZero()
        && reading.level().isPresent()
        && !Double.isNaN(reading.expectedDb());
  }

  private static void sortByCase(Columns c, int begin) {
    for (int i = begin + 1; i < c.readings; i++) {
      for (int j = i; j > begin && c.caseOf[j - 1] > c.caseOf[j]; j--) {
        int swap = c.caseOf[j];
        c.caseOf[j] = c.caseOf[j - 1];
        c.caseOf[j - 1] = swap;
        AssessedReading held = c.reading[j];
        c.reading[j] = c.reading[j - 1];
        c.reading[j - 1] = held;
      }
    }
  }
}
