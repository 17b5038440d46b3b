package ferrule.core.trust.paper;

import ferrule.core.job.Conflict;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Subject;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Predicate;

/**
 * {@code paper-conflict}: a fact that two crews entered differently before their files were joined,
 * and that nobody has settled since. It reaches every reading whose limit or loss hangs on the
 * fact: all for the requirement, else those of the link, under the zero, or under a zero that names
 * the cord.
 */
public final class CrewConflictFinder implements DoubtFinder {

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    for (Conflict conflict : ledger.job().conflicts()) {
      Predicate<AssessedReading> hangsOnIt = hangsOn(conflict);
      List<AssessedReading> reach = ledger.current().stream().filter(hangsOnIt).toList();
      if (!reach.isEmpty()) {
        out.accept(doubt(conflict, reach));
      }
    }
  }

  private static Predicate<AssessedReading> hangsOn(Conflict conflict) {
    return switch (conflict.matter()) {
      case PAPER -> reading -> true;
      case LINK -> reading -> reading.reading().link().equals(conflict.id());
      case ZERO -> reading -> reading.reading().reference().equals(conflict.id());
      case CORD ->
          reading -> {
            Zero zero = reading.zero().orElse(null);
            return zero != null
                && zero.levels().stream().anyMatch(level -> names(level, conflict.id()));
          };
    };
  }

  private static boolean names(ZeroLevel level, String cord) {
    return level.launchCord().equals(cord)
        || level.receiveCord().equals(cord)
        || level.substitutionCord().equals(cord);
  }

  private static Doubt doubt(Conflict conflict, List<AssessedReading> reach) {
    Subject subject =
        switch (conflict.matter()) {
          case PAPER -> Subject.JOB;
          case LINK -> Subject.link(conflict.id());
          case ZERO -> Subject.reference(conflict.id());
          case CORD -> new Subject(Subject.Type.CORD, conflict.id());
        };
    return new Doubt(
        DoubtKind.PAPER_CONFLICT,
        subject,
        true,
        Reach.of(reach),
        List.of(Evidence.of("what", conflict.what()), Evidence.of("readings", reach.size())),
        conflict.matter() == Conflict.Matter.ZERO
            ? Causes.ranked("two zeros were given one name", "a value was typed wrong")
            : Causes.ranked("a value was typed wrong", "the crews had papers of different issues"),
        new NextStep(
                "conflict:" + subject.type().word() + ":" + conflict.id(),
                "Ask both crews which value is right for "
                    + subject.shown()
                    + ", and enter it with ferrule add --supersede",
                "",
                Handling.LOOK_UP)
            .withResults(
                "One of the two was typed wrong: the other is entered and stands",
                "Both are right, of two different things: give one of them another name"));
  }
}
