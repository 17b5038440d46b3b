package ferrule.app.desk;

import ferrule.app.desk.page.EnteredReading;
import ferrule.app.desk.page.Frame;
import ferrule.app.desk.page.ReadingPage;
import ferrule.app.desk.page.Urls;
import ferrule.core.entry.TypedNumber;
import ferrule.core.zero.Reading;
import ferrule.store.job.Entered;
import ferrule.store.job.JobFileException;
import ferrule.store.job.KeptReading;
import ferrule.store.job.TypedEntries;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** Where one entry of a reading is looked at, corrected or withdrawn. */
final class ReadingRoutes {

  /** What stands in the form, and the page that is gone back to. */
  private record Typed(String key, String value, String why, String back) {}

  /** What is wrong with it, one line each; empty if nothing is. */
  private record Wrong(String value, String why) {
    static final Wrong NOTHING = new Wrong("", "");
  }

  private final DeskSource source;
  private final Answers answers;

  ReadingRoutes(DeskSource source, Answers answers) {
    this.source = source;
    this.answers = answers;
  }

  void addTo(RoutesConfig routes) {
    Routes.serve(routes, "/reading/{seq}", this::show);
    routes.post("/reading/{seq}", this::change);
  }

  private Optional<KeptReading> asked(Context ctx, DeskBook book) {
    List<Long> numbers = EntryRoutes.numbers(ctx.pathParam("seq"));
    return numbers.size() == 1 ? book.reading(numbers.get(0)) : Optional.empty();
  }

  private void missing(Context ctx) {
    answers.missing(
        ctx,
        "No reading of this job is entry “" + ctx.pathParam("seq") + "”.",
        "Look for it under Enter readings.");
  }

  private void show(Context ctx) {
    Optional<DeskBook> book = source.book();
    book.flatMap(b -> asked(ctx, b))
        .ifPresentOrElse(
            kept ->
                page(
                    ctx,
                    book.orElseThrow(),
                    kept,
                    new Typed(UUID.randomUUID().toString(), "", "", Answers.query(ctx, "back")),
                    Wrong.NOTHING),
            () -> missing(ctx));
  }

  private void change(Context ctx) throws IOException {
    DeskBook book = source.book().orElseThrow();
    Optional<KeptReading> kept = asked(ctx, book);
    if (kept.isEmpty()) {
      missing(ctx);
      return;
    }
    Optional<Form> sent = EntryRoutes.form(ctx, book, answers);
    if (sent.isEmpty()) {
      return;
    }
    Form form = sent.get();
    List<Long> before = book.under(form.text("key"));
    if (!before.isEmpty()) {
      done(ctx, form, before.get(0), kept.get());
      return;
    }
    change(ctx, book, kept.get(), form);
  }

  private void change(Context ctx, DeskBook book, KeptReading kept, Form form) {
    boolean withdraw = form.get("do").equals("withdraw");
    Typed typed =
        new Typed(form.text("key"), form.get("value"), form.text("why"), form.get("back"));
    String why = typed.why();
    String whyWrong = "";
    String typedWrong = "";
    if (why.isEmpty()) {
      whyWrong = "Say why: the reason stays with the entry.";
    } else if (why.length() > TypedEntries.LONGEST_REASON) {
      whyWrong = "A reason has at most " + TypedEntries.LONGEST_REASON + " characters.";
    }
    boolean loss = kept.reading().hasLoss();
    double value = Double.NaN;
    if (!withdraw) {
      TypedNumber.Outcome outcome =
          TypedNumber.read(typed.value(), loss ? TypedNumber.Kind.LOSS : TypedNumber.Kind.LEVEL);
      if (outcome instanceof TypedNumber.Refused refused) {
        typedWrong = refused.line(typed.value().isBlank() ? "nothing" : typed.value().strip());
      } else {
        value = ((TypedNumber.Number) outcome).value();
      }
    }
    if (!TypedEntries.isKey(typed.key())) {
      typedWrong = "The form was sent without its key; open this page anew and type again.";
    }
    if (!typedWrong.isEmpty() || !whyWrong.isEmpty()) {
      ctx.status(422);
      page(ctx, book, kept, typed, new Wrong(typedWrong, whyWrong));
      return;
    }
    TypedEntries.Item item =
        withdraw
            ? new TypedEntries.Withdraw(kept.seq(), why)
            : new TypedEntries.Correct(corrected(kept.reading(), value), kept.seq(), why);
    try {
      Entered entered = book.enter(new TypedEntries(typed.key(), List.of(item)));
      if (entered instanceof Entered.Stored done) {
        done(ctx, form, done.seqs().get(0), kept);
        return;
      }
      ctx.status(409);
      String meanwhile =
          "Nothing was stored: this entry was corrected or withdrawn meanwhile, as shown below.";
      page(ctx, book, book.reading(kept.seq()).orElse(kept), typed, new Wrong("", meanwhile));
    } catch (JobFileException e) {
      ctx.status(503);
      String line = "Nothing was stored: " + e.problem().line();
      page(ctx, book, kept, typed, new Wrong("", line));
    }
  }

  private static Reading corrected(Reading r, double value) {
    return new Reading(
        r.link(),
        r.fibre(),
        r.direction(),
        r.wavelength(),
        r.hasLoss() ? Double.NaN : value,
        r.hasLoss() ? value : Double.NaN,
        r.lengthM(),
        r.reference(),
        r.measuredAt(),
        r.operator());
  }

  private void done(Context ctx, Form form, long seq, KeptReading kept) {
    // A withdrawal is no reading itself: its place is the page of what it withdrew.
    long shown = source.book().orElseThrow().reading(seq).map(KeptReading::seq).orElse(kept.seq());
    answers.goOn(
        ctx, "/reading/" + shown + "?done=yes&back=" + Urls.encoded(back(form.get("back"))));
  }

  /** Only the page for typing is gone back to. */
  private static String back(String asked) {
    return asked.startsWith("/enter?") && asked.length() < 2000 ? asked : "/enter?";
  }

  private void page(Context ctx, DeskBook book, KeptReading kept, Typed typed, Wrong wrong) {
    EnterPages pages = new EnterPages(book, source.jobName());
    Reading reading = kept.reading();
    List<EnteredReading> history =
        book.readings(reading.fibreId()).stream()
            .filter(k -> k.reading().isOfCase(reading.direction(), reading.wavelength()))
            .map(pages::entered)
            .toList();
    answers.show(
        ctx,
        "reading",
        new ReadingPage(
            new Frame(source.jobName(), Frame.Section.ENTER, "Entry " + kept.seq()),
            book.id(),
            pages.entered(kept),
            history,
            typed.key(),
            typed.value(),
            typed.why(),
            wrong.value(),
            wrong.why(),
            back(typed.back()),
            Answers.query(ctx, "done").equals("yes")));
  }
}
