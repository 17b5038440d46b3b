package ferrule.app.desk;

import ferrule.app.desk.page.Now;
import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.nio.file.Path;
import java.util.Map;

/** The page templates, compiled with the program. */
final class Templates {

  /** Where the build puts the compiled templates. */
  private static final String PACKAGE = "ferrule.app.templates";

  private static final int TYPICAL_PAGE = 64 * 1024;

  private final TemplateEngine engine =
      TemplateEngine.createPrecompiled(
          Path.of("none"), ContentType.Html, Templates.class.getClassLoader(), PACKAGE);

  /** A page of a desk that only reads, as HTML. */
  String render(String template, Object page) {
    return render(template, page, Now.READ_ONLY);
  }

  /** A page as HTML. */
  String render(String template, Object page, Now now) {
    StringOutput out = new StringOutput(TYPICAL_PAGE);
    engine.render("desk/" + template + ".jte", Map.of("page", page, "now", now), out);
    return out.toString();
  }
}
