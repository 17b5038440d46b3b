package ferrule.app.desk.page;

import ferrule.core.application.ApplicationCheck;
import ferrule.core.array.ArrayPart;
import ferrule.core.array.ArraySummary;
import ferrule.core.array.JobArrays;
import ferrule.core.face.GradedFace;
import ferrule.core.face.PortSubject;
import ferrule.core.job.Job;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.trust.FibreJudgement;
import ferrule.record.chart.LossScale;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One link.
 *
 * @param frame what surrounds it
 * @param link the link
 * @param standings how many fibres stand where, those that occur
 * @param fibres one page of its fibres
 * @param cases limits and expectations in use
 * @param faces grades of pictures of its ends, by the names of its ports
 * @param applications what it carries and what not
 * @param array what it is made of, if its parts are on record
 * @param doubts that touch a fibre of it, the first of them
 * @param doubtsTotal how many there are
 * @param scale that all loss strips of the page share
 * @param refused what of the address was not understood
 */
public record LinkPage(
    Frame frame,
    Link link,
    List<StandingCount> standings,
    Pager<FibreEntry> fibres,
    List<AllowanceCase> cases,
    List<GradedFace> faces,
    List<ApplicationCheck> applications,
    Optional<ArraySummary> array,
    List<DoubtEntry> doubts,
    int doubtsTotal,
    LossScale scale,
    List<String> refused) {

  /** Fibres on one page. */
  public static final int FIBRES_A_PAGE = 24;

  /** Doubts shown before the reader is sent to the page of doubts. */
  static final int DOUBTS = 20;

  /** Puts the page together. */
  public static LinkPage of(
      String jobName,
      JobIndex index,
      Link link,
      List<ApplicationCheck> applications,
      int page,
      List<String> refused) {
    List<FibreJudgement> all = index.fibres(link);
    Map<Integer, DoubtEntry> doubts = new LinkedHashMap<>();
    for (FibreJudgement fibre : all) {
      fibre.doubts().forEach(d -> index.entry(d).ifPresent(e -> doubts.putIfAbsent(e.number(), e)));
    }
    Pager<FibreEntry> fibres =
        Pager.of(all.stream().map(FibreEntry::new).toList(), FIBRES_A_PAGE, page);
    return new LinkPage(
        new Frame(jobName, Frame.Section.LINKS, "Link " + link.id()),
        link,
        StandingCount.of(all),
        fibres,
        AllowanceCase.of(index.judgement().ledger(), link, all),
        faces(index.judgement().ledger().job().graded(), link),
        applications,
        array(index.judgement().ledger().job(), link),
        doubts.values().stream().limit(DOUBTS).toList(),
        doubts.size(),
        FibreEntry.scale(fibres.items()),
        refused);
  }

  private static Optional<ArraySummary> array(Job job, Link link) {
    List<ArrayPart> parts = job.parts().stream().filter(p -> p.link().equals(link.id())).toList();
    return new JobArrays(
            parts, job.positions().stream().filter(p -> p.link().equals(link.id())).toList())
        .summary(link.id());
  }

  private static List<GradedFace> faces(List<GradedFace> graded, Link link) {
    return graded.stream()
        .filter(
            face ->
                PortSubject.of(face.listed().subject())
                    .filter(s -> isNamed(link.a(), s) || isNamed(link.b(), s))
                    .isPresent())
        .toList();
  }

  private static boolean isNamed(LinkEnd end, PortSubject subject) {
    return end.names().contains(subject.port());
  }

  /** The address of another page of this link's fibres. */
  public String address(int page) {
    String address = Urls.link(link.id());
    return page == 1 ? address : address + (address.contains("?") ? "&" : "?") + "page=" + page;
  }

  /** Whether a limit on this page rests on a figure from memory. */
  public boolean anyFromMemory() {
    return cases.stream().anyMatch(c -> FibreEntry.fromMemory(c.allowance()));
  }
}
