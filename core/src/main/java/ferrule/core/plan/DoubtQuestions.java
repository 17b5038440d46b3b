package ferrule.core.plan;

import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.paper.ArrayPaperFinder;
import ferrule.core.trust.paper.CalibrationFinder;
import ferrule.core.trust.paper.FeedFinder;
import ferrule.core.trust.paper.PaperConflictFinder;
import ferrule.core.trust.paper.ZeroMismatchFinder;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;

/** What the judge's own finders see in the papers, as questions. */
final class DoubtQuestions {

  private static final List<DoubtFinder> FINDERS =
      List.of(
          new PaperConflictFinder(),
          new ZeroMismatchFinder(),
          new CalibrationFinder(),
          new ArrayPaperFinder(),
          new FeedFinder());

  private static final String SOURCE = "the papers against each other";

  private DoubtQuestions() {}

  static void ask(Papers papers, Consumer<Question> out) {
    Ledger ledger = Ledger.of(papers.job);
    FINDERS.forEach(finder -> finder.find(ledger, doubt -> out.accept(question(papers, doubt))));
  }

  private static Question question(Papers papers, Doubt doubt) {
    QuestionKind kind = kind(doubt);
    // Whatever the answer is, every link may have to be read at the wavelength.
    List<Link> links = kind == QuestionKind.WAVELENGTH ? papers.job.links() : links(papers, doubt);
    String what = what(doubt);
    return new Question(
        kind,
        Character.toUpperCase(what.charAt(0)) + what.substring(1) + ". " + asked(kind),
        SOURCE,
        Papers.ids(links),
        kind == QuestionKind.ARRAY_MATING || kind == QuestionKind.TRANSMIT_RECEIVE
            ? papers.prices.repair(links)
            : papers.prices.readAgain(links));
  }

  private static QuestionKind kind(Doubt doubt) {
    if (doubt.kind() == DoubtKind.CALIBRATION_LAPSED) {
      return QuestionKind.CERTIFICATE;
    }
    if (doubt.kind() == DoubtKind.TRANSMIT_RECEIVE) {
      return QuestionKind.TRANSMIT_RECEIVE;
    }
    String key = doubt.next().key();
    if (key.startsWith(ArrayPaperFinder.KEY)) {
      return QuestionKind.ARRAY_MATING;
    }
    if (key.startsWith(FeedFinder.KEY)) {
      return QuestionKind.FEED_PATH;
    }
    if (key.startsWith("wavelength:")) {
      return QuestionKind.WAVELENGTH;
    }
    if (key.startsWith("certificate:")) {
      return QuestionKind.CERTIFICATE;
    }
    return key.equals("rulebook") ? QuestionKind.NO_LIMIT : QuestionKind.ZERO_PAPERS;
  }

  private static String what(Doubt doubt) {
    String what =
        doubt.evidence().stream()
            .filter(e -> e.name().equals("what"))
            .map(Evidence::shown)
            .findFirst()
            .orElse(doubt.kind().id());
    return doubt.kind() == DoubtKind.PAPER_CONFLICT ? what : doubt.subject().shown() + ": " + what;
  }

  private static String asked(QuestionKind kind) {
    return switch (kind) {
      case WAVELENGTH -> "Is that wavelength meant, and by which limit shall it be judged?";
      case NO_LIMIT -> "Which limit shall hold?";
      case CERTIFICATE -> "Which certificate holds?";
      case FEED_PATH -> "What feeds it?";
      case ARRAY_MATING -> "What is to be built there, and is the list of parts right?";
      case TRANSMIT_RECEIVE -> "Which part shall be another, and what plugs in at the ends?";
      default -> "Which of the two is right?";
    };
  }

  private static List<Link> links(Papers papers, Doubt doubt) {
    Set<String> ids = new LinkedHashSet<>();
    for (FibreId fibre : doubt.reach().fibres()) {
      ids.add(fibre.link());
    }
    if (ids.isEmpty()) {
      return List.of();
    }
    List<Link> links = new ArrayList<>();
    for (Link link : papers.job.links()) {
      if (ids.contains(link.id())) {
        links.add(link);
      }
    }
    return links;
  }
}
