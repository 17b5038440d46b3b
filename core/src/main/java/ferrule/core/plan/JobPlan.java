package ferrule.core.plan;

import ferrule.core.allowance.AllowanceRecipe;
import ferrule.core.allowance.AllowanceRecipes;
import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Link;
import ferrule.core.trust.Judge;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.VerificationInterval;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The plan of a job, from its papers: a pure function of the job, the planned day, and what
 * applications ask. What the job has seen so far, its pace and its zeros found changed, replaces
 * the figures of practice.
 *
 * @param requirement what must be met
 * @param day the planned day
 * @param links limit, expected loss and advice, link by link in schedule order
 * @param questions contradictions in the papers, what costs most if found late first
 * @param kit what to bring
 * @param faces end faces at the links
 * @param zeroFaces faces of cords to inspect for one duplex zero of the method: 12 for three cords
 * @param hours how long it takes, by choice
 * @param verify after how many links to verify a zero
 * @param walk in which order to go
 */
public record JobPlan(
    Requirement requirement,
    LocalDate day,
    List<LinkPlan> links,
    List<Question> questions,
    KitList kit,
    FaceCount faces,
    int zeroFaces,
    Hours hours,
    VerificationInterval verify,
    WalkOrder walk) {

  private static final int DUPLEX = 2;

  /** Copies the lists. */
  public JobPlan {
    links = List.copyOf(links);
    questions = List.copyOf(questions);
  }

  /**
   * Plans a job.
   *
   * @param job its papers; readings are looked at only for pace and zeros
   * @param day first day on which is tested
   * @param applications what applications ask of links
   */
  public static JobPlan of(Job job, LocalDate day, ApplicationLimits applications) {
    VerificationInterval verify =
        job.readings().isEmpty()
            ? VerificationInterval.of(0, 0)
            : VerificationInterval.of(Judge.judge(job));
    return of(job, day, applications, verify);
  }

  /** The same of a job that was judged before. */
  public static JobPlan of(Judgement judgement, LocalDate day, ApplicationLimits applications) {
    return of(judgement.ledger().job(), day, applications, VerificationInterval.of(judgement));
  }

  private static JobPlan of(
      Job job, LocalDate day, ApplicationLimits applications, VerificationInterval verify) {
    KitFit fit = new KitFit(job.cords());
    List<LinkPlan> links = links(job, fit);
    WalkOrder walk = WalkOrder.of(job.links());
    Pace pace = ObservedPace.of(job).orElse(Pace.USUAL);
    Choice required = Choice.required(job.requirement());
    Hours hours = Hours.of(job.links(), pace, walk, verify, required);
    FaceCount faces = FaceCount.NONE;
    for (Link link : job.links()) {
      faces = faces.plus(FaceCount.of(link));
    }
    Papers papers =
        new Papers(
            job,
            links,
            fit,
            new LateCost.Prices(pace, required),
            applications,
            day,
            day.plusDays(hours.required().daysAtMost() - 1));
    return new JobPlan(
        job.requirement(),
        day,
        links,
        questions(papers),
        KitList.of(job, papers.bySetup, fit, faces),
        faces,
        job.requirement().method().cordFaces(DUPLEX),
        hours,
        verify,
        walk);
  }

  private static List<LinkPlan> links(Job job, KitFit fit) {
    AllowanceRecipes recipes =
        new AllowanceRecipes(job.requirement().rulebook(), job.requirement().method());
    List<LinkPlan> plans = new ArrayList<>(job.links().size());
    for (Link link : job.links()) {
      ZeroSetup setup = ZeroSetup.of(link);
      List<LinkPlan.Planned> planned = new ArrayList<>();
      for (Wavelength wavelength : job.requirement().wavelengthsFor(link.category())) {
        AllowanceRecipe recipe = recipes.of(link.category(), wavelength, fit.plugs(setup));
        planned.add(new LinkPlan.Planned(wavelength, recipe.of(link)));
      }
      plans.add(new LinkPlan(link, planned, Advice.of(link)));
    }
    return plans;
  }

  private static List<Question> questions(Papers papers) {
    List<Question> questions = new ArrayList<>();
    WrittenQuestions.ask(papers, questions::add);
    LinkQuestions.ask(papers, questions::add);
    KitQuestions.ask(papers, questions::add);
    DoubtQuestions.ask(papers, questions::add);
    // Of equal price those found first come first.
    questions.sort(Comparator.comparingDouble((Question q) -> -q.late().minutes().usual()));
    return questions;
  }
}
