package ferrule.app.desk;

import ferrule.core.job.Job;
import ferrule.core.plant.FibreId;
import ferrule.store.job.Entered;
import ferrule.store.job.JobFileException;
import ferrule.store.job.KeptReading;
import ferrule.store.job.TypedEntries;
import java.util.List;
import java.util.Optional;

/**
 * Where entries go that are made at the desk. Always knows every entry stored, the judgement may
 * come a little later; called from several threads at once.
 */
public interface DeskBook {

  /** Tells this job from every other. */
  String id();

  /** Number of entries stored, by whomever. */
  long entries();

  /** Number of entries that the latest judgement rests on. */
  long judged();

  /** The job with every entry stored. */
  Job job();

  /** Every reading of a fibre, in the order entered, corrected and withdrawn ones too. */
  List<KeptReading> readings(FibreId fibre);

  /** The reading that is the entry of this number. */
  Optional<KeptReading> reading(long seq);

  /** The readings typed last, the newest first. */
  List<KeptReading> typedLast(int most);

  /** Numbers of the entries stored under a key; empty if none is. */
  List<Long> under(String key);

  /**
   * Stores entries: they are on the disk when this returns {@link Entered.Stored}.
   *
   * @throws JobFileException if nothing could be stored
   */
  Entered enter(TypedEntries typed) throws JobFileException;
}
