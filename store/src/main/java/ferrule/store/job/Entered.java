package ferrule.store.job;

import java.util.List;

/** What became of entries made by hand. */
public sealed interface Entered {

  /**
   * They are stored, on disk.
   *
   * @param seqs numbers of the entries, in the order of the items
   * @param before whether they were stored already, when the same key was sent before
   */
  record Stored(List<Long> seqs, boolean before) implements Entered {
    /** Copies the list. */
    public Stored {
      seqs = List.copyOf(seqs);
    }
  }

  /**
   * Nothing was stored: something is there that their author did not know of.
   *
   * @param there readings of the same fibres, directions and wavelengths that stand
   */
  record Overtaken(List<KeptReading> there) implements Entered {
    /** Copies the list. */
    public Overtaken {
      there = List.copyOf(there);
    }
  }

  /**
   * Nothing was stored: a zero of this name is there.
   *
   * @param reference its name
   */
  record NameTaken(String reference) implements Entered {}
}
