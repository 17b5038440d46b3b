package ferrule.app.desk;

import ferrule.core.Problem;
import ferrule.core.trust.Judgement;
import java.util.List;
import java.util.Optional;

/**
 * What the desk shows. Asked anew for every page, so that a source may move on to a newer judgement
 * while the desk is open; called from several threads at once.
 */
public interface DeskSource {

  /** The judgement as it now stands. The same object as long as nothing has changed. */
  Judgement judgement();

  /** What could not be taken in, in the order found. */
  List<Problem> problems();

  /** What the take-in has to say besides, each one sentence. */
  List<String> notes();

  /** Where entries go; empty if the desk only reads. */
  default Optional<DeskBook> book() {
    return Optional.empty();
  }

  /** The name of the job, as a reader knows it; the title of its requirement as a rule. */
  String jobName();
}
