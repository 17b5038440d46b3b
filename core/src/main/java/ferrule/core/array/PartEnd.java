package ferrule.core.array;

import java.util.Locale;
import java.util.Optional;

/**
 * One end of a part.
 *
 * @param array whether it is an array plug; otherwise single ports or plugs
 * @param pins whether it has guide pins, if on record
 * @param key how its key stands in the adapter, if on record
 * @param polish how its face is polished, if on record
 */
public record PartEnd(
    boolean array, Optional<Pins> pins, Optional<Key> key, Optional<Polish> polish) {

  /** Single ports. */
  public static final PartEnd PORTS =
      new PartEnd(false, Optional.empty(), Optional.empty(), Optional.empty());

  /** Guide pins. */
  public enum Pins {
    /** With pins. */
    PINNED,
    /** With holes only. */
    UNPINNED;

    /** As tables write it. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** How a key stands. */
  public enum Key {
    /** Up. */
    UP,
    /** Down. */
    DOWN;

    /** As tables write it. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** How a face is polished. */
  public enum Polish {
    /** Straight. */
    FLAT("flat"),
    /** Angled, leaning as usual seen from the key. */
    ANGLED("angled"),
    /** Angled, leaning the other way seen from the key. */
    ANGLED_REVERSED("angled-reversed");

    private final String word;

    Polish(String word) {
      this.word = word;
    }

    /** As tables write it. */
    public String word() {
      return word;
    }

    /** Whether it is angled at all. */
    public boolean angled() {
      return this != FLAT;
    }
  }
}
