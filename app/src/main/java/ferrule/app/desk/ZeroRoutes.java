package ferrule.app.desk;

import ferrule.app.desk.page.Urls;
import ferrule.app.desk.page.ZeroSteps.Step;
import ferrule.store.job.Entered;
import ferrule.store.job.JobFileException;
import ferrule.store.job.TypedEntries;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.Optional;
import java.util.UUID;

/**
 * Where a zero is set step by step. What was typed travels with the form from step to step; nothing
 * is stored before the last.
 */
final class ZeroRoutes {

  private final DeskSource source;
  private final Answers answers;
  private final Clock clock = Clock.systemUTC();

  ZeroRoutes(DeskSource source, Answers answers) {
    this.source = source;
    this.answers = answers;
  }

  void addTo(RoutesConfig routes) {
    Routes.serve(routes, "/set-zero", this::begin);
    routes.post("/set-zero", this::step);
  }

  private void begin(Context ctx) {
    Optional<DeskBook> book = source.book();
    if (book.isEmpty()) {
      EntryRoutes.readOnly(ctx, answers, "Set a zero");
      return;
    }
    show(ctx, ZeroForm.proposed(book.get(), UUID.randomUUID().toString()), Step.LINE);
  }

  private void show(Context ctx, ZeroForm form, Step step) {
    answers.show(ctx, "setzero", form.page(source.jobName(), step));
  }

  private void step(Context ctx) throws IOException {
    DeskBook book = source.book().orElseThrow();
    Optional<Form> sent = EntryRoutes.form(ctx, book, answers);
    if (sent.isEmpty()) {
      return;
    }
    Form typed = sent.get();
    ZeroForm form = new ZeroForm(book, typed::get);
    if (form.isStored()) {
      done(ctx, form);
      return;
    }
    Step at =
        Arrays.stream(Step.values())
            .filter(s -> s.name().equals(typed.get("step")))
            .findFirst()
            .orElse(Step.LINE);
    if (typed.get("go").equals("back") && at != Step.LINE) {
      show(ctx, form, Step.values()[at.ordinal() - 1]);
      return;
    }
    // Every step up to this one, so that no hand-made form gets around one of them.
    for (Step step : Step.values()) {
      if (step.compareTo(at) <= 0 && !form.isGood(step)) {
        ctx.status(422);
        show(ctx, form, step);
        return;
      }
    }
    if (at == Step.SET) {
      form.setAt(clock.instant().truncatedTo(ChronoUnit.SECONDS));
    }
    if (at == Step.VERIFY) {
      store(ctx, book, form);
      return;
    }
    show(ctx, form, Step.values()[at.ordinal() + 1]);
  }

  private void store(Context ctx, DeskBook book, ZeroForm form) {
    form.setAt(clock.instant().truncatedTo(ChronoUnit.SECONDS));
    if (!TypedEntries.isKey(form.key())) {
      ctx.status(422);
      form.refuse("The form was sent without its key; begin anew.");
      show(ctx, form, Step.VERIFY);
      return;
    }
    try {
      if (book.enter(form.entries()) instanceof Entered.Stored) {
        done(ctx, form);
        return;
      }
      ctx.status(409);
      form.nameTaken();
      show(ctx, form, Step.LINE);
    } catch (JobFileException e) {
      ctx.status(503);
      form.refuse("Nothing was stored: " + e.problem().line());
      show(ctx, form, Step.VERIFY);
    }
  }

  private void done(Context ctx, ZeroForm form) {
    answers.goOn(ctx, Urls.zero(form.reference()));
  }
}
