package ferrule.app.desk;

import ferrule.app.desk.page.ApplicationsPage;
import ferrule.app.desk.page.DoubtsPage;
import ferrule.app.desk.page.JobIndex;
import ferrule.app.desk.page.LinkFilter;
import ferrule.app.desk.page.LinkPage;
import ferrule.app.desk.page.LinksPage;
import ferrule.app.desk.page.PlanPage;
import ferrule.app.desk.page.RulebookPage;
import ferrule.app.desk.page.TodayPage;
import ferrule.app.desk.page.WhatIfPage;
import ferrule.app.desk.page.ZeroPage;
import ferrule.app.desk.page.ZerosPage;
import ferrule.core.trust.Judgement;
import ferrule.record.data.JudgementJson;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.Handler;
import io.javalin.http.HandlerType;
import java.io.IOException;
import java.lang.System.Logger;
import java.lang.System.Logger.Level;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What is served at which address. */
final class Routes {

  private static final Logger LOG = System.getLogger("ferrule.desk");

  private final DeskSource source;
  private final Answers answers;
  private final Assets assets = new Assets();
  private volatile @Nullable Derived derived;

  Routes(DeskSource source) {
    this.source = source;
    this.answers = new Answers(source);
  }

  void addTo(RoutesConfig routes) {
    routes.before(this::guard);
    serve(routes, "/", this::today);
    serve(routes, "/links", this::links);
    serve(routes, "/link/{id}", ctx -> link(ctx, ctx.pathParam("id")));
    serve(routes, "/link", ctx -> link(ctx, query(ctx, "id")));
    serve(routes, "/zeros", this::zeros);
    serve(routes, "/zero/{id}", ctx -> zero(ctx, ctx.pathParam("id")));
    serve(routes, "/zero", ctx -> zero(ctx, query(ctx, "id")));
    serve(routes, "/doubts", this::doubts);
    serve(routes, "/plan", this::plan);
    serve(routes, "/applications", this::applications);
    serve(routes, "/what-if", this::whatIf);
    serve(routes, "/rulebook", this::rulebook);
    serve(routes, "/judgement.json", this::json);
    serve(routes, "/assets/<name>", this::asset);
    new EntryRoutes(source, answers).addTo(routes);
    routes.error(404, answers::notFound);
    routes.exception(Exception.class, this::fault);
  }

  /** HEAD is answered like GET; the server leaves the body out. */
  static void serve(RoutesConfig routes, String path, Handler handler) {
    routes.get(path, handler);
    routes.head(path, handler);
  }

  /** Headers first, so that refusals carry them too; then who asks, and for what. */
  private void guard(Context ctx) {
    Guard.HEADERS.forEach(ctx::header);
    String host = ctx.header("Host");
    if (!Guard.isOwnHost(host == null ? "" : host, ctx.req().getLocalPort())) {
      ctx.status(403)
          .contentType("text/plain; charset=utf-8")
          .result("The desk answers only to this machine's own name, localhost or 127.0.0.1.\n");
      ctx.skipRemainingHandlers();
      return;
    }
    if (ctx.method() == HandlerType.GET || ctx.method() == HandlerType.HEAD) {
      return;
    }
    if (ctx.method() == HandlerType.POST && source.book().isPresent()) {
      guardEntry(ctx, host == null ? "" : host);
      return;
    }
    ctx.header("Allow", "GET, HEAD");
    answers.message(
        ctx,
        405,
        "Nothing is changed here",
        source.book().isPresent()
            ? "Only the forms of the desk take something in."
            : "The desk was opened on a folder of tables and only shows what was found in it.",
        source.book().isPresent()
            ? "Go to the page on which it is entered."
            : "Make a job file of it (ferrule new JOB --from DIR) and open the desk on that.");
    ctx.skipRemainingHandlers();
  }

  /** Who would enter something, and in which form. */
  private void guardEntry(Context ctx, String host) {
    String refusal = "";
    if (!Guard.isOwnPage(host, header(ctx, "Origin"), header(ctx, "Sec-Fetch-Site"))) {
      ctx.status(403);
      refusal = "Entries are taken only from the desk's own pages. Open the desk and try again.";
    } else if (ctx.req().getContentLengthLong() > Form.LARGEST) {
      ctx.status(413);
      refusal = "This is more than a form of the desk can hold; nothing was stored.";
    } else if (!header(ctx, "Content-Type").startsWith(Form.TYPE)) {
      ctx.status(415);
      refusal = "Entries are taken as a form (" + Form.TYPE + "); nothing was stored.";
    }
    if (!refusal.isEmpty()) {
      ctx.contentType("text/plain; charset=utf-8").result(refusal + "\n");
      ctx.skipRemainingHandlers();
    }
  }

  private static String header(Context ctx, String name) {
    String value = ctx.header(name);
    return value == null ? "" : value;
  }

  private JobIndex index() {
    return derived().index();
  }

  private Derived derived() {
    Judgement judgement = source.judgement();
    Derived known = derived;
    if (known == null || known.judgement() != judgement) {
      known = new Derived(judgement);
      derived = known;
    }
    return known;
  }

  private void today(Context ctx) {
    boolean all = query(ctx, "actions").equals("all");
    show(
        ctx,
        "today",
        TodayPage.of(source.jobName(), index(), source.problems(), source.notes(), all));
  }

  private void links(Context ctx) {
    JobIndex index = index();
    LinkFilter filter = LinkFilter.read(name -> query(ctx, name), index.places());
    show(ctx, "links", LinksPage.of(source.jobName(), index, filter));
  }

  private void link(Context ctx, String id) {
    JobIndex index = index();
    index
        .link(id)
        .ifPresentOrElse(
            link -> {
              List<String> refused = new ArrayList<>();
              int page = page(ctx, refused);
              show(
                  ctx,
                  "link",
                  LinkPage.of(
                      source.jobName(), index, link, derived().applications(link), page, refused));
            },
            () ->
                missing(
                    ctx,
                    "No link “" + id + "” is scheduled in this job.",
                    "Look for it under Links."));
  }

  private void zeros(Context ctx) {
    List<String> refused = new ArrayList<>();
    int page = page(ctx, refused);
    show(ctx, "zeros", ZerosPage.of(source.jobName(), index(), page, refused));
  }

  private void zero(Context ctx, String id) {
    JobIndex index = index();
    index
        .zero(id)
        .ifPresentOrElse(
            zero -> show(ctx, "zero", ZeroPage.of(source.jobName(), index, zero)),
            () ->
                missing(
                    ctx,
                    "No zero “" + id + "” is on record in this job.",
                    "Look for it under Zeros; readings may name a zero that was never handed in."));
  }

  private void doubts(Context ctx) {
    List<String> refused = new ArrayList<>();
    int page = page(ctx, refused);
    show(ctx, "doubts", DoubtsPage.of(source.jobName(), index(), page, refused));
  }

  private void plan(Context ctx) {
    List<String> refused = new ArrayList<>();
    int page = page(ctx, refused);
    show(ctx, "plan", PlanPage.of(source.jobName(), derived().plan(), page, refused));
  }

  private void applications(Context ctx) {
    show(ctx, "applications", ApplicationsPage.of(source.jobName(), derived().applications()));
  }

  private void whatIf(Context ctx) {
    JobIndex index = index();
    List<String> refused = new ArrayList<>();
    int page = page(ctx, refused);
    WhatIfPage.Asked asked =
        WhatIfPage.Asked.read(
            name -> query(ctx, name), index.judgement().ledger().requirement(), refused);
    show(
        ctx,
        "whatif",
        WhatIfPage.of(source.jobName(), index, asked, derived().supposed(asked), page, refused));
  }

  private void rulebook(Context ctx) {
    show(ctx, "rulebook", RulebookPage.of(source.jobName(), index()));
  }

  private void json(Context ctx) throws IOException {
    ctx.contentType("application/json");
    JudgementJson.write(
        ctx.outputStream(), source.judgement(), source.problems(), source.notes(), false);
  }

  private void asset(Context ctx) {
    Optional<Assets.Asset> found = assets.find(ctx.pathParam("name"));
    if (found.isEmpty()) {
      ctx.status(404);
      return;
    }
    Assets.Asset asset = found.get();
    ctx.header("ETag", asset.etag());
    if (asset.etag().equals(ctx.header("If-None-Match"))) {
      ctx.status(304);
      return;
    }
    ctx.contentType(asset.contentType()).result(asset.bytes());
  }

  /** A fault of Ferrule's: the reader learns that, the details go to the terminal. */
  private void fault(Exception fault, Context ctx) {
    LOG.log(Level.ERROR, "The desk could not show " + ctx.path(), fault);
    answers.message(
        ctx,
        500,
        "Something went wrong",
        ctx.method() == HandlerType.POST
            ? "The fault is Ferrule's. What was entered is either stored whole or not at all; to send"
                + " it again is safe, it is stored once."
            : "The desk could not make this page; the fault is Ferrule's, and the job has not been"
                + " changed.",
        "The details are in the terminal from which the desk was opened; please report them.");
  }

  private void show(Context ctx, String template, Object page) {
    answers.show(ctx, template, page);
  }

  private void missing(Context ctx, String message, String todo) {
    answers.missing(ctx, message, todo);
  }

  private static int page(Context ctx, List<String> refused) {
    return LinkFilter.page(name -> query(ctx, name), refused);
  }

  private static String query(Context ctx, String name) {
    return Answers.query(ctx, name);
  }
}
