package ferrule.app.desk;

import ferrule.app.desk.page.MessagePage;
import ferrule.app.desk.page.Now;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** How pages are answered: rendered, with the state of the job around them. */
final class Answers {

  /** Marks a request whose answer already says why there is nothing to see. */
  private static final String TOLD = "told";

  private final DeskSource source;
  private final Templates templates = new Templates();

  Answers(DeskSource source) {
    this.source = source;
  }

  /** A page. */
  void show(Context ctx, String template, Object page) {
    ctx.contentType("text/html; charset=utf-8")
        .result(templates.render(template, page, now()).getBytes(StandardCharsets.UTF_8));
  }

  /** A page that says in plain words why there is nothing else to see. */
  void message(Context ctx, int status, String title, String message, String todo) {
    ctx.status(status);
    ctx.attribute(TOLD, true);
    show(ctx, "message", MessagePage.of(source.jobName(), title, message, todo));
  }

  /** The same where something was asked for that is not there. */
  void missing(Context ctx, String message, String todo) {
    message(ctx, 404, "Not found", message, todo);
  }

  /** Where no handler had anything to say. */
  void notFound(Context ctx) {
    if (ctx.attribute(TOLD) == null) {
      missing(
          ctx, "There is no page at this address.", "Choose one of the parts of the desk above.");
    }
  }

  /** Goes on to another page after something was stored. */
  void goOn(Context ctx, String address) {
    ctx.status(303).header("Location", address);
  }

  private Now now() {
    return source
        .book()
        .map(book -> new Now(book.id(), book.entries(), book.judged()))
        .orElse(Now.READ_ONLY);
  }

  /** A query parameter; empty if absent. */
  static String query(Context ctx, String name) {
    List<String> values = ctx.queryParams(name);
    return values.isEmpty() ? "" : values.get(0);
  }
}
