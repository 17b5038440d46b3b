package ferrule.core.application;

import ferrule.core.application.Carriage.CannotBeTold;
import ferrule.core.application.Carriage.Carries;
import ferrule.core.application.Carriage.DoesNot;
import ferrule.core.application.Carriage.Term;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.Figure;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * One link against one application.
 *
 * @param link the link
 * @param application with the limits for the link's fibre
 * @param loss of the link; empty if it can be neither measured nor expected
 * @param carriage the answer
 */
public record ApplicationCheck(
    Link link, Application application, Optional<LossSpan> loss, Carriage carriage) {

  /** Sums of decimal figures must not fail by a rounding of the machine. */
  private static final double ROUNDING = 1e-9;

  /**
   * Compares. A limit that is just met is kept. A broken limit decides whatever else is unknown.
   */
  static ApplicationCheck of(Link link, Application application, Optional<LossSpan> loss) {
    Tightest tightest = new Tightest();
    application
        .mostLength()
        .ifPresent(f -> tightest.add(Term.LENGTH, f, f.value() - link.lengthM()));
    application
        .leastLength()
        .ifPresent(f -> tightest.add(Term.LEAST_LENGTH, f, link.lengthM() - f.value()));
    loss.ifPresent(
        span -> {
          application
              .mostLoss()
              .ifPresent(f -> tightest.add(Term.MOST_LOSS, f, f.value() - span.mostDb()));
          application
              .leastLoss()
              .ifPresent(f -> tightest.add(Term.LEAST_LOSS, f, span.leastDb() - f.value()));
        });
    return new ApplicationCheck(link, application, loss, tightest.answer(application, loss));
  }

  /** The figure of a term, where the application has one. */
  public Optional<Figure> figure(Term term) {
    return switch (term) {
      case MOST_LOSS -> application.mostLoss();
      case LEAST_LOSS -> application.leastLoss();
      case LENGTH -> application.mostLength();
      case LEAST_LENGTH -> application.leastLength();
    };
  }

  /** "does not, by 0.31 dB, most loss 2.60 dB". */
  public String shown() {
    if (carriage instanceof Carriage.Carries yes) {
      return "carries; least room "
          + yes.term().amount(yes.room())
          + ", "
          + yes.term().word()
          + limit(yes.term());
    }
    if (carriage instanceof Carriage.DoesNot no) {
      return "does not, by "
          + no.term().amount(no.by())
          + ", "
          + no.term().word()
          + limit(no.term());
    }
    return carriage instanceof Carriage.CannotBeTold open ? "cannot be told: " + open.why() : "";
  }

  private String limit(Term term) {
    return figure(term)
        .map(
            f ->
                " "
                    + term.amount(f.value())
                    + (f.provenance().fromMemory()
                        ? " (" + f.provenance().confidence().shown() + ")"
                        : ""))
        .orElse("");
  }

  private static final class Tightest {
    private @Nullable Term term;
    private double room;
    private double share = Double.POSITIVE_INFINITY;

    void add(Term candidate, Figure limit, double left) {
      double of = left / Math.max(limit.value(), ROUNDING);
      if (of < share) {
        term = candidate;
        share = of;
        room = left;
      }
    }

    Carriage answer(Application application, Optional<LossSpan> loss) {
      if (term != null && room < -ROUNDING) {
        return new DoesNot(term, -room);
      }
      if (application.mostLoss().isEmpty()) {
        return new CannotBeTold("no limit of loss is established for " + application.name());
      }
      if (application.mostLength().isEmpty()) {
        return new CannotBeTold("no limit of length is established for " + application.name());
      }
      if (loss.isEmpty() || term == null) {
        return new CannotBeTold(
            "no believed reading, and no expected loss, near "
                + String.join(
                    ", ", application.wavelengths().stream().map(w -> w.toString()).toList()));
      }
      return new Carries(term, Math.max(0, room));
    }
  }
}
