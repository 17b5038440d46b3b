package ferrule.core.trust.many;

import ferrule.core.fixture.JobFixture;
import ferrule.core.zero.Reading;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.function.Predicate;

/** Troubles put into a job that went well. */
final class Planting {

  private Planting() {}

  /**
   * Gives fibres the values of others, and their lengths; times stay as they are.
   *
   * @param from fibre that repeats ("K002/1") by fibre that it is a repeat of
   */
  static JobFixture copy(JobFixture job, Map<String, String> from) {
    Map<String, Reading> source = new HashMap<>();
    for (Reading r : job.readings()) {
      source.put(r.fibreId() + ">" + r.direction() + r.wavelength(), r);
    }
    return job.change(
        r -> from.containsKey(r.fibreId().toString()),
        r -> {
          Reading s =
              Objects.requireNonNull(
                  source.get(
                      from.get(r.fibreId().toString()) + ">" + r.direction() + r.wavelength()));
          return JobFixture.length(s.lengthM()).apply(JobFixture.loss(x -> s.lossDb()).apply(r));
        });
  }

  /** Moves the times of some readings. */
  static JobFixture shift(JobFixture job, Predicate<Reading> which, long seconds) {
    return job.change(which, r -> JobFixture.time(r.measuredAt().plusSeconds(seconds)).apply(r));
  }

  /** Moves the first reading of each of some links to so many seconds after the link before. */
  static JobFixture hurry(JobFixture job, int firstLink, int links, long seconds) {
    for (int i = firstLink; i < firstLink + links; i++) {
      String before = link(i - 1);
      String here = link(i);
      Instant left = Instant.MIN;
      Instant came = Instant.MAX;
      for (Reading r : job.readings()) {
        if (r.link().equals(before) && r.measuredAt().isAfter(left)) {
          left = r.measuredAt();
        }
        if (r.link().equals(here) && r.measuredAt().isBefore(came)) {
          came = r.measuredAt();
        }
      }
      long early = came.getEpochSecond() - left.getEpochSecond() - seconds;
      shift(job, r -> r.link().equals(here), -early);
    }
    return job;
  }

  /** "K007". */
  static String link(int number) {
    return "K%03d".formatted(number);
  }
}
