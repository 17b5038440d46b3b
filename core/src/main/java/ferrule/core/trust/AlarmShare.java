package ferrule.core.trust;

import java.util.List;

/**
 * What one statistical finder may ring by chance.
 *
 * @param kinds of doubt it covers
 * @param blocking whether these hold readings back
 * @param looks at how many things it looked in this job, at least 1
 * @param chance that it rings at all on a perfect job, as its alarm level is set for these looks
 */
public record AlarmShare(List<DoubtKind> kinds, boolean blocking, long looks, double chance) {

  /** Copies the list. */
  public AlarmShare {
    kinds = List.copyOf(kinds);
  }

  /** Of one kind. */
  public AlarmShare(DoubtKind kind, boolean blocking, long looks, double chance) {
    this(List.of(kind), blocking, looks, chance);
  }
}
