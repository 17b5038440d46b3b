package ferrule.core.entry;

import ferrule.core.array.MeasuredPosition;
import ferrule.core.job.Job;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.zero.Reading;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * What one fibre's readings say by themselves: limits, decisions, and the doubts that its own
 * readings, its zeros and the papers raise. Doubts that many readings share show only when the
 * whole job is judged. A matter of milliseconds whatever the size of the job.
 *
 * @param fibre its judgement, alone in the world
 * @param doubts that touch it
 */
public record OneFibre(FibreJudgement fibre, List<Doubt> doubts) {

  /** Copies the list. */
  public OneFibre {
    doubts = List.copyOf(doubts);
  }

  /**
   * Judges one fibre.
   *
   * @param job the whole job, of which only what concerns the fibre is looked at
   * @param id the fibre
   * @param readings its readings
   * @return empty if it is not scheduled
   */
  public static Optional<OneFibre> of(Job job, FibreId id, List<Reading> readings) {
    Map<String, Link> links =
        job.links().stream().collect(Collectors.toMap(Link::id, Function.identity()));
    Link link = links.get(id.link());
    if (link == null || id.fibre() > link.fibres()) {
      return Optional.empty();
    }
    // A leg of a tree stands for its whole path, and is told wrong without what feeds it.
    List<Link> path = new ArrayList<>();
    for (Link at = link; at != null && !path.contains(at); at = links.get(at.fedBy())) {
      path.add(at);
    }
    Set<String> zeros = readings.stream().map(Reading::reference).collect(Collectors.toSet());
    List<MeasuredPosition> positions =
        job.positions().stream().filter(p -> p.link().equals(id.link())).toList();
    Judgement judged =
        Judge.judge(
            new Job(
                job.requirement(),
                path,
                job.instruments(),
                job.cords(),
                job.zeros().stream().filter(z -> zeros.contains(z.id())).toList(),
                readings,
                job.faces(),
                job.graded(),
                job.parts().stream().filter(p -> p.link().equals(id.link())).toList(),
                positions,
                job.conflicts()));
    FibreJudgement fibre = judged.fibres().get(judged.ledger().slotOf(id));
    return Optional.of(new OneFibre(fibre, fibre.doubts()));
  }
}
