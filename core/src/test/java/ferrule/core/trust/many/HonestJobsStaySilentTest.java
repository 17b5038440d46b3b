package ferrule.core.trust.many;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.Ledger;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.junit.jupiter.api.Test;

class HonestJobsStaySilentTest {

  private static final int JOBS = 400;

  /** One ring in 200 jobs at most, however lengths and times are kept and the file is sorted. */
  @Test
  void noFinderRingsMoreThanOnceInTwoHundredJobs() {
    Map<String, Function<Timeline, DoubtFinder>> finders = new LinkedHashMap<>();
    finders.put("repeated-values", RepeatedValuesFinder::new);
    finders.put("too-quick", TooQuickFinder::new);
    finders.put("clock", ClockFinder::new);
    finders.put("cord-worn", CordWornFinder::new);
    Map<String, List<String>> rung = new LinkedHashMap<>();
    for (int seed = 0; seed < JOBS; seed++) {
      Ledger ledger = Ledger.of(new HonestJobs(seed).fixture().job());
      Timeline timeline = new Timeline(ledger);
      for (Map.Entry<String, Function<Timeline, DoubtFinder>> finder : finders.entrySet()) {
        List<Doubt> doubts = new ArrayList<>();
        finder.getValue().apply(timeline).find(ledger, doubts::add);
        if (!doubts.isEmpty()) {
          rung.computeIfAbsent(finder.getKey(), k -> new ArrayList<>())
              .add(seed + ": " + doubts.get(0).line());
        }
      }
    }
    for (List<String> jobs : rung.values()) {
      assertThat(jobs).hasSizeLessThanOrEqualTo(JOBS / 200);
    }
  }
}
