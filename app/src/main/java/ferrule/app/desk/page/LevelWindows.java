package ferrule.app.desk.page;

import ferrule.core.entry.ZeroAim;
import ferrule.core.job.Job;
import ferrule.core.trust.Ledger;
import ferrule.core.zero.Method;
import ferrule.core.zero.VerificationWindow;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.List;

/** What to expect of a level that is about to be set, in the light of the zeros set before. */
public final class LevelWindows {

  private final Job job;
  private final Ledger ledger;

  /** Looks at a job's papers, cords and zeros; its readings do not matter. */
  public LevelWindows(Job job) {
    this.job = job;
    this.ledger =
        Ledger.of(
            new Job(
                job.requirement(),
                List.of(),
                job.instruments(),
                job.cords(),
                job.zeros(),
                List.of(),
                List.of()));
  }

  /** What power to expect. */
  public ZeroAim aim(ZeroLevel level) {
    return ZeroAim.of(job, ZeroWindows.power(ledger, level), level);
  }

  /** What the verification may read. */
  public VerificationWindow verification(Method method, ZeroLevel level) {
    return ZeroWindows.verification(ledger, new Zero("", method, List.of(level)), level);
  }
}
