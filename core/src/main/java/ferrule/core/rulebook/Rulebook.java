package ferrule.core.rulebook;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * Limits and criteria of one standard in one edition, as data. Every figure carries its source.
 *
 * @param id short name, as a job's requirement gives it: "iso-11801-1"
 * @param title for a reader
 * @param edition editions of the documents the figures come from, one line
 * @param notes what a reader must know before relying on it
 * @param fibre most attenuation of cabled fibre, dB/km
 * @param inner most loss of a connection inside the link, dB
 * @param end most loss of an end connection tested with a cord of a grade, dB
 * @param referencePair most loss of two reference-grade plugs mated, dB
 * @param splice most loss of a splice, dB
 * @param device most loss of a device such as a splitter, dB
 * @param link most loss of a whole link, dB, whatever its parts would allow; empty in most
 * @param faces id of the criteria by which end faces are graded: "iec-61300-3-35-2015"
 */
public record Rulebook(
    String id,
    String title,
    String edition,
    List<String> notes,
    Map<FibreKey, Figure> fibre,
    Map<FibreKind, Figure> inner,
    Map<EndKey, Figure> end,
    Map<FibreKind, Figure> referencePair,
    Map<FibreKind, Figure> splice,
    Map<String, Figure> device,
    Map<FibreKind, Figure> link,
    String faces) {

  /** The criteria of a rulebook that names none: the later of those shipped. */
  public static final String USUAL_FACES = "iec-61300-3-35-2015";

  /** A fibre category at a wavelength. */
  public record FibreKey(FibreCategory category, Wavelength wavelength) {}

  /** An end connection: kind of fibre and grade of the test cord's plug. */
  public record EndKey(FibreKind kind, CordGrade cord) {}

  /** Copies its collections: a rulebook never changes. */
  public Rulebook {
    notes = List.copyOf(notes);
    fibre = Map.copyOf(fibre);
    inner = Map.copyOf(inner);
    end = Map.copyOf(end);
    referencePair = Map.copyOf(referencePair);
    splice = Map.copyOf(splice);
    device = Map.copyOf(device);
    link = Map.copyOf(link);
  }

  /** A rulebook that names no criteria for end faces and sets no limit to a whole link. */
  public Rulebook(
      String id,
      String title,
      String edition,
      List<String> notes,
      Map<FibreKey, Figure> fibre,
      Map<FibreKind, Figure> inner,
      Map<EndKey, Figure> end,
      Map<FibreKind, Figure> referencePair,
      Map<FibreKind, Figure> splice,
      Map<String, Figure> device) {
    this(
        id,
        title,
        edition,
        notes,
        fibre,
        inner,
        end,
        referencePair,
        splice,
        device,
        Map.of(),
        USUAL_FACES);
  }

  /**
   * This rulebook with the figures of another where it gives none of its own; its notes before
   * those of the other.
   */
  public Rulebook over(Rulebook base) {
    List<String> all = new ArrayList<>(notes);
    all.addAll(base.notes());
    return new Rulebook(
        id,
        title,
        edition,
        all,
        over(fibre, base.fibre()),
        over(inner, base.inner()),
        over(end, base.end()),
        over(referencePair, base.referencePair()),
        over(splice, base.splice()),
        over(device, base.device()),
        over(link, base.link()),
        faces);
  }

  private static <K> Map<K, Figure> over(Map<K, Figure> own, Map<K, Figure> base) {
    Map<K, Figure> all = new HashMap<>(base);
    all.putAll(own);
    return all;
  }

  /** Most attenuation of a category at a wavelength, dB/km; empty if this rulebook has none. */
  public Optional<Figure> fibreLimit(FibreCategory category, Wavelength wavelength) {
    return Optional.ofNullable(fibre.get(new FibreKey(category, wavelength)));
  }

  /** Most loss of one connection inside the link, dB. */
  public Optional<Figure> innerLimit(FibreKind kind) {
    return Optional.ofNullable(inner.get(kind));
  }

  /** Most loss of one end connection, dB, when the plug of the test cord is of the given grade. */
  public Optional<Figure> endLimit(FibreKind kind, CordGrade cord) {
    return Optional.ofNullable(end.get(new EndKey(kind, cord)));
  }

  /** Most loss of two reference-grade plugs mated, dB: the bound of a verification. */
  public Optional<Figure> referencePairLimit(FibreKind kind) {
    return Optional.ofNullable(referencePair.get(kind));
  }

  /** Most loss of one splice, dB. */
  public Optional<Figure> spliceLimit(FibreKind kind) {
    return Optional.ofNullable(splice.get(kind));
  }

  /** Most loss of a device, named as in the link schedule ("splitter-1x8"), dB. */
  public Optional<Figure> deviceLimit(String name) {
    return Optional.ofNullable(device.get(name));
  }

  /**
   * Most loss of a whole link, dB, whatever its parts would allow; empty if its parts alone decide.
   */
  public Optional<Figure> linkLimit(FibreKind kind) {
    return Optional.ofNullable(link.get(kind));
  }

  /** Wavelengths for which this rulebook limits the category, shortest first. */
  public SortedSet<Wavelength> wavelengths(FibreCategory category) {
    SortedSet<Wavelength> found = new TreeSet<>();
    for (FibreKey key : fibre.keySet()) {
      if (key.category() == category) {
        found.add(key.wavelength());
      }
    }
    return found;
  }

  /** Categories that this rulebook limits at any wavelength. */
  public SortedSet<FibreCategory> categories() {
    SortedSet<FibreCategory> found = new TreeSet<>();
    for (FibreKey key : fibre.keySet()) {
      found.add(key.category());
    }
    return found;
  }

  /** How many figures of the collection are from memory. */
  public long figuresFromMemory() {
    return java.util.stream.Stream.of(
            fibre.values(),
            inner.values(),
            end.values(),
            referencePair.values(),
            splice.values(),
            device.values(),
            link.values())
        .flatMap(Collection::stream)
        .filter(figure -> figure.provenance().fromMemory())
        .count();
  }
}
