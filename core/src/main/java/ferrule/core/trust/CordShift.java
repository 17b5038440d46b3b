package ferrule.core.trust;

import java.util.List;

/**
 * What is common to the zeros that a test cord stood in.
 *
 * @param cord id
 * @param roles in which it stood: launch, receive, third
 * @param zeros ids of the zeros it stood in under which something was read, in the order on record
 * @param shiftDb how far the readings under these lie above what the job's others say, dB
 * @param sdDb its standard deviation, dB
 * @param confoundedWith what the readings cannot tell it from, in words
 * @param matingsInJob matings of its link-side end in this job, one for each fibre and direction
 */
public record CordShift(
    String cord,
    List<String> roles,
    List<String> zeros,
    double shiftDb,
    double sdDb,
    List<String> confoundedWith,
    int matingsInJob) {

  /** Copies the lists. */
  public CordShift {
    roles = List.copyOf(roles);
    zeros = List.copyOf(zeros);
    confoundedWith = List.copyOf(confoundedWith);
  }
}
