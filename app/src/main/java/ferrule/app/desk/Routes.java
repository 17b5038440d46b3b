package ferrule.app.desk;

import ferrule.app.desk.page.ApplicationsPage;
import ferrule.app.desk.page.DoubtsPage;
import ferrule.app.desk.page.JobIndex;
import ferrule.app.desk.page.LinkFilter;
import ferrule.app.desk.page.LinkPage;
import ferrule.app.desk.page.LinksPage;
import ferrule.app.desk.page.MessagePage;
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
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What is served at which address. */
final class Routes {

  private static final Logger LOG = System.getLogger("ferrule.desk");

  /** Marks a request whose answer already says why there is nothing to see. */
  private static final String TOLD = "told";

  private final DeskSource source;
  private final Templates templates = new Templates();
  private final Assets assets = new Assets();
  private volatile @Nullable Derived derived;

  Routes(DeskSource source) {
    this.source = source;
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
    routes.error(404, this::notFound);
    routes.exception(Exception.class, this::fault);
  }

  /** HEAD is answered like GET; the server leaves the body out. */
  private static void serve(RoutesConfig routes, String path, Handler handler) {
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
    if (ctx.method() != HandlerType.GET && ctx.method() != HandlerType.HEAD) {
      ctx.status(405).header("Allow", "GET, HEAD");
      message(
          ctx,
          "Nothing is changed here",
          "The desk only shows what was found; it takes in nothing.",
          "Take in tables with the ferrule command.");
      ctx.skipRemainingHandlers();
    }
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

  /** Where no handler had anything to say. */
  private void notFound(Context ctx) {
    if (ctx.attribute(TOLD) == null) {
      missing(
          ctx, "There is no page at this address.", "Choose one of the parts of the desk above.");
    }
  }

  private void missing(Context ctx, String message, String todo) {
    ctx.status(404);
    message(ctx, "Not found", message, todo);
  }

  /** A fault of Ferrule's: the reader learns that, the details go to the terminal. */
  private void fault(Exception fault, Context ctx) {
    LOG.log(Level.ERROR, "The desk could not show " + ctx.path(), fault);
    ctx.status(500);
    message(
        ctx,
        "Something went wrong",
        "The desk could not make this page; the fault is Ferrule's, and the job has not been"
            + " changed.",
        "The details are in the terminal from which the desk was opened; please report them.");
  }

  private void message(Context ctx, String title, String message, String todo) {
    ctx.attribute(TOLD, true);
    show(ctx, "message", MessagePage.of(source.jobName(), title, message, todo));
  }

  private void show(Context ctx, String template, Object page) {
    ctx.contentType("text/html; charset=utf-8")
        .result(templates.render(template, page).getBytes(StandardCharsets.UTF_8));
  }

  private static int page(Context ctx, List<String> refused) {
    return LinkFilter.page(name -> query(ctx, name), refused);
  }

  /** A query parameter; empty if absent. */
  private static String query(Context ctx, String name) {
    String value = ctx.queryParam(name);
    return value == null ? "" : value;
  }
}
