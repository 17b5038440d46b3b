package ferrule.app.desk;

import ferrule.app.desk.page.EnterPage;
import ferrule.app.desk.page.EnterSetup;
import ferrule.app.desk.page.FibreForm;
import ferrule.core.entry.PortRound;
import ferrule.core.plant.FibreId;
import ferrule.store.job.Entered;
import ferrule.store.job.JobFileException;
import ferrule.store.job.TypedEntries;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** Where readings are typed, and where a browser asks whether something has changed. */
final class EntryRoutes {

  private final DeskSource source;
  private final Answers answers;
  private final Clock clock = Clock.systemUTC();

  EntryRoutes(DeskSource source, Answers answers) {
    this.source = source;
    this.answers = answers;
  }

  void addTo(RoutesConfig routes) {
    Routes.serve(routes, "/enter", this::enter);
    Routes.serve(routes, "/changes", this::changes);
    // The guard lets nothing in where there is no book.
    routes.post("/enter", this::typed);
    new ReadingRoutes(source, answers).addTo(routes);
    new ZeroRoutes(source, answers).addTo(routes);
  }

  /** The state of the job in three values, for a page that wants to know whether it is old. */
  private void changes(Context ctx) {
    Optional<DeskBook> book = source.book();
    ctx.contentType("application/json")
        .result(
            "{\"job\":\""
                + book.map(DeskBook::id).orElse("")
                + "\",\"entries\":"
                + book.map(DeskBook::entries).orElse(0L)
                + ",\"judged\":"
                + book.map(DeskBook::judged).orElse(0L)
                + "}\n");
  }

  /** What stands instead of a form where nothing can be entered. */
  static void readOnly(Context ctx, Answers answers, String title) {
    answers.message(
        ctx,
        200,
        title,
        "The desk was opened on a folder of tables: it only shows what was found in them, and"
            + " nothing can be entered.",
        "Make a job file of the folder (ferrule new JOB --from DIR) and open the desk on that.");
  }

  private void enter(Context ctx) {
    Optional<DeskBook> book = source.book();
    if (book.isEmpty()) {
      readOnly(ctx, answers, "Enter readings");
      return;
    }
    EnterPages pages = new EnterPages(book.get(), source.jobName());
    EnterSetup setup =
        pages.proposed(
            EnterSetup.read(name -> Answers.query(ctx, name), pages.job(), pages.places()));
    EnterPage page =
        setup.begun()
            ? pages.fibre(
                setup,
                Optional.empty(),
                FibreId.ofWritten(Answers.query(ctx, "fibre")),
                numbers(Answers.query(ctx, "stored")))
            : pages.setUp(setup);
    answers.show(ctx, "enter", page);
  }

  private void typed(Context ctx) throws IOException {
    DeskBook book = source.book().orElseThrow();
    Optional<Form> sent = form(ctx, book, answers);
    if (sent.isEmpty()) {
      return;
    }
    Form form = sent.get();
    EnterPages pages = new EnterPages(book, source.jobName());
    EnterSetup setup = EnterSetup.read(form::get, pages.job(), pages.places());
    List<Long> before = book.under(form.text("key"));
    if (!before.isEmpty()) {
      stored(ctx, setup, before);
      return;
    }
    Optional<PortRound.Stop> stop =
        FibreId.ofWritten(form.get("fibre"))
            .flatMap(f -> PortRound.of(pages.job(), setup.place(), setup.direction()).stop(f));
    if (!setup.begun() || stop.isEmpty() || !TypedEntries.isKey(form.text("key"))) {
      ctx.status(422);
      List<String> refused = new ArrayList<>(setup.refused());
      if (refused.isEmpty()) {
        refused.add(
            stop.isEmpty()
                ? "The fibre typed for does not end at this place, or is not in the schedule."
                : "The form was sent without its key; open this page anew and type again.");
      }
      answers.show(ctx, "enter", pages.setUp(withRefused(setup, refused)));
      return;
    }
    TypedForm.Read what = new TypedForm(pages, setup, stop.get(), form, clock.instant()).read();
    if (what.entries() == null) {
      ctx.status(what.form().overtaken() ? 409 : 422);
      again(ctx, pages, setup, what.form());
      return;
    }
    store(ctx, book, setup, what.entries(), what.form(), form, stop.get());
  }

  private void store(
      Context ctx,
      DeskBook book,
      EnterSetup setup,
      TypedEntries entries,
      FibreForm shown,
      Form form,
      PortRound.Stop stop) {
    try {
      Entered entered = book.enter(entries);
      if (entered instanceof Entered.Stored done) {
        stored(ctx, setup, done.seqs());
        return;
      }
      // Somebody was quicker by a moment: check again against what is there now.
      EnterPages pages = new EnterPages(book, source.jobName());
      ctx.status(409);
      again(
          ctx,
          pages,
          setup,
          new TypedForm(pages, setup, stop, form, clock.instant()).read().form());
    } catch (JobFileException e) {
      ctx.status(503);
      FibreForm kept = shown.refused("Nothing was stored: " + e.problem().line());
      again(ctx, new EnterPages(book, source.jobName()), setup, kept);
    }
  }

  private void again(Context ctx, EnterPages pages, EnterSetup setup, FibreForm form) {
    answers.show(ctx, "enter", pages.fibre(setup, Optional.of(form), Optional.empty(), List.of()));
  }

  private void stored(Context ctx, EnterSetup setup, List<Long> seqs) {
    answers.goOn(
        ctx,
        setup.address()
            + "&stored="
            + seqs.stream().map(String::valueOf).collect(Collectors.joining(".")));
  }

  private static EnterSetup withRefused(EnterSetup setup, List<String> refused) {
    return new EnterSetup(
        setup.place(),
        setup.direction(),
        setup.zero(),
        setup.kind(),
        setup.operator(),
        false,
        refused);
  }

  /** The form that was sent; empty, and answered, if it cannot be taken. */
  static Optional<Form> form(Context ctx, DeskBook book, Answers answers) throws IOException {
    Optional<Form> form = Form.read(ctx);
    if (form.isEmpty()) {
      answers.message(
          ctx,
          413,
          "Not stored",
          "The form could not be read, or is larger than a form of the desk can be; nothing was"
              + " stored.",
          "Go back and type it again.");
      return Optional.empty();
    }
    if (!form.get().get("job").equals(book.id())) {
      answers.message(
          ctx,
          409,
          "Not stored",
          "The form is of another job than the one that the desk now shows; nothing was stored.",
          "Open the desk on the job that it was typed for, and send it again.");
      return Optional.empty();
    }
    return form;
  }

  /** Numbers of entries with points between them; empty if it is anything else. */
  static List<Long> numbers(String written) {
    if (!written.matches("[1-9][0-9]{0,11}([.][1-9][0-9]{0,11}){0,15}")) {
      return List.of();
    }
    List<Long> numbers = new ArrayList<>();
    for (String one : written.split("[.]", -1)) {
      numbers.add(Long.parseLong(one));
    }
    return numbers;
  }
}
