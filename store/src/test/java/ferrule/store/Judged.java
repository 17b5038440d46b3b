package ferrule.store;

import ferrule.core.job.Job;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import java.util.ArrayList;
import java.util.List;

/** What comes of a job, in lines that can be compared and kept. */
public final class Judged {

  private Judged() {}

  /** Every fibre's standing with its reasons, every zero's trust, every doubt and its reach. */
  public static List<String> lines(Job job) {
    Judgement judgement = Judge.judge(job);
    List<String> lines = new ArrayList<>();
    judgement
        .fibres()
        .forEach(
            fibre -> lines.add(fibre.fibre() + " " + fibre.standing() + " " + fibre.reasons()));
    judgement
        .zeros()
        .forEach(zero -> lines.add(zero.zero().id() + " " + zero.trust() + " " + zero.reasons()));
    judgement
        .doubts()
        .forEach(
            doubt ->
                lines.add(
                    doubt.kind()
                        + " "
                        + doubt.subject()
                        + " "
                        + doubt.line()
                        + " "
                        + doubt.reach().fibres()));
    return lines;
  }

  /** Only the fibres and their standings: these stay when wordings change. */
  public static List<String> standings(Job job) {
    return Judge.judge(job).fibres().stream()
        .map(fibre -> fibre.fibre() + " " + fibre.standing())
        .toList();
  }
}
