package ferrule.core.trust.many;

import ferrule.core.allowance.Allowance;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Ledger;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntPredicate;
import org.jspecify.annotations.Nullable;

/**
 * What a job's readings say of which fibre was read: for every fibre its measured length and the
 * loss at its shortest wavelength, where the glass weighs most. Numbers only, by slot and by link;
 * NaN where nothing is known.
 */
final class LengthProfile {

  /** A measured length is used in fits above 0 and up to this, metres: the longest link in feet. */
  private static final double LONGEST_M = 3.3 * Link.LONGEST_M;

  private final Ledger ledger;
  private final List<Link> links;
  private final int[] firstSlot;
  private final int[] linkOf;
  private final double[] scheduledM;
  private final double[] measuredM;
  private final double[] lossDb;
  private final short[] lossNm;
  private final double[] expectedDb;
  private final double[] spreadDb;
  private final short[] expectedNm;
  private final double[] shortestM;
  private final double[] longestM;
  private final int[] zeroOf;
  private final double[] medianM;
  private final Map<String, Integer> zeros = new HashMap<>();
  private String lastReference = "";
  private int lastZero = -1;

  LengthProfile(Ledger ledger) {
    this.ledger = ledger;
    this.links = ledger.job().links();
    this.firstSlot = new int[links.size() + 1];
    this.linkOf = new int[ledger.slots()];
    this.scheduledM = new double[links.size()];
    this.measuredM = new double[ledger.slots()];
    this.lossDb = filledWithNaN(ledger.slots());
    this.lossNm = new short[ledger.slots()];
    this.expectedDb = filledWithNaN(links.size());
    this.spreadDb = filledWithNaN(links.size());
    this.expectedNm = new short[links.size()];
    this.shortestM = filledWithNaN(ledger.slots());
    this.longestM = filledWithNaN(ledger.slots());
    this.zeroOf = new int[ledger.slots()];
    this.medianM = new double[links.size()];
    double[] lengths = new double[4];
    for (int link = 0; link < links.size(); link++) {
      scheduledM[link] = links.get(link).lengthM();
      firstSlot[link + 1] = firstSlot[link] + links.get(link).fibres();
      for (int slot = firstSlot[link]; slot < firstSlot[link + 1]; slot++) {
        linkOf[slot] = link;
        lengths = read(slot, link, lengths);
      }
      lengths = ofLink(link, lengths);
    }
  }

  private double[] ofLink(int link, double[] scratch) {
    int fibres = firstSlot[link + 1] - firstSlot[link];
    double[] lengths = fibres > scratch.length ? new double[fibres] : scratch;
    int size = 0;
    for (int slot = firstSlot[link]; slot < firstSlot[link + 1]; slot++) {
      if (hasLength(slot)) {
        lengths[size++] = measuredM[slot];
      }
    }
    medianM[link] = size == 1 ? lengths[0] : Ranks.median(lengths, size);
    return lengths;
  }

  private static double[] filledWithNaN(int size) {
    double[] values = new double[size];
    Arrays.fill(values, Double.NaN);
    return values;
  }

  private double[] read(int slot, int link, double[] scratch) {
    double[] lengths = scratch;
    int size = 0;
    @Nullable AssessedReading glass = null;
    zeroOf[slot] = -1;
    for (AssessedReading reading : ledger.readings(slot)) {
      if (!reading.current()) {
        continue;
      }
      double length = reading.reading().lengthM();
      if (!Double.isNaN(length)) {
        if (zeroOf[slot] < 0) {
          zeroOf[slot] = zero(reading.reading().reference());
          shortestM[slot] = length;
          longestM[slot] = length;
        }
        shortestM[slot] = Math.min(shortestM[slot], length);
        longestM[slot] = Math.max(longestM[slot], length);
      }
      if (length > 0 && length <= LONGEST_M) {
        if (size == lengths.length) {
          lengths = Arrays.copyOf(lengths, size * 2);
        }
        lengths[size++] = length;
      }
      // Of two directions the lower loss counts: dirt only adds.
      if (reading.hasLoss()
          && (glass == null
              || reading.nm() < glass.nm()
              || reading.nm() == glass.nm() && reading.lossDb() < glass.lossDb())) {
        glass = reading;
      }
    }
    measuredM[slot] = size == 1 ? lengths[0] : Ranks.median(lengths, size);
    if (glass != null) {
      lossDb[slot] = glass.lossDb();
      lossNm[slot] = (short) glass.nm();
      if (expectedNm[link] == 0 || glass.nm() < expectedNm[link]) {
        Allowance allowance = glass.allowance().orElse(null);
        if (allowance != null && !Double.isNaN(allowance.expectedDb())) {
          expectedNm[link] = (short) glass.nm();
          expectedDb[link] = allowance.expectedDb();
          spreadDb[link] = Math.hypot(allowance.expectedSdDb(), glass.standardDb());
        }
      }
    }
    return lengths;
  }

  Ledger ledger() {
    return ledger;
  }

  int links() {
    return links.size();
  }

  Link link(int link) {
    return links.get(link);
  }

  int slots() {
    return linkOf.length;
  }

  int linkOf(int slot) {
    return linkOf[slot];
  }

  int firstSlot(int link) {
    return firstSlot[link];
  }

  /** One past the last slot of a link. */
  int endSlot(int link) {
    return firstSlot[link + 1];
  }

  /** Scheduled length, metres. */
  double scheduledM(int link) {
    return scheduledM[link];
  }

  /** Median of the measured lengths of a fibre, metres; NaN without any that can be one. */
  double measuredM(int slot) {
    return measuredM[slot];
  }

  boolean hasLength(int slot) {
    return !Double.isNaN(measuredM[slot]);
  }

  /** The shortest wavelength at which a fibre has a loss, nm; 0 without any. */
  int lossNm(int slot) {
    return lossNm[slot];
  }

  /**
   * Loss of a fibre less what is expected of a link at the same wavelength, dB; NaN if either is
   * not known.
   */
  double lossBeyondDb(int slot, int link) {
    return lossNm[slot] == expectedNm[link] ? lossDb[slot] - expectedDb[link] : Double.NaN;
  }

  /** Spread of the expected loss and uncertainty of the reading, dB, one standard deviation. */
  double lossSpreadDb(int link) {
    return spreadDb[link];
  }

  /**
   * A number for the zero of the first reading of a fibre that counts and has a length, below
   * {@link #zeros}; -1 without one.
   */
  int zeroOfLength(int slot) {
    return zeroOf[slot];
  }

  /** How many zeros have readings with a length. */
  int zeros() {
    return zeros.size();
  }

  private int zero(String reference) {
    if (lastZero < 0 || !reference.equals(lastReference)) {
      lastZero = zeros.computeIfAbsent(reference, k -> zeros.size());
      lastReference = reference;
    }
    return lastZero;
  }

  /** The shortest length of a fibre among readings that count, of any size; NaN without any. */
  double shortestM(int slot) {
    return shortestM[slot];
  }

  /** The longest. */
  double longestM(int slot) {
    return longestM[slot];
  }

  /** The readings of a fibre that count. */
  List<AssessedReading> current(int slot) {
    return ledger.readings(slot).stream().filter(AssessedReading::current).toList();
  }

  /** Whether a fibre has any reading that counts. */
  boolean isRead(int slot) {
    return !ledger.readings(slot).isEmpty();
  }

  /** Median measured length of all fibres of a link; NaN without any. */
  double medianOf(int link) {
    return medianM[link];
  }

  /** Median measured length of the fibres of a link that a condition lets in; NaN without any. */
  double medianOf(int link, IntPredicate which) {
    double[] lengths = new double[firstSlot[link + 1] - firstSlot[link]];
    int size = 0;
    for (int slot = firstSlot[link]; slot < firstSlot[link + 1]; slot++) {
      if (hasLength(slot) && which.test(slot)) {
        lengths[size++] = measuredM[slot];
      }
    }
    return size == 1 ? lengths[0] : Ranks.median(lengths, size);
  }
}
