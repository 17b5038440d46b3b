package ferrule.app.desk;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.nio.file.Path;

/** The page templates, compiled with the program. */
final class Templates {

  /** Where the build puts the compiled templates. */
  private static final String PACKAGE = "ferrule.app.templates";

  private static final int TYPICAL_PAGE = 64 * 1024;

  private final TemplateEngine engine =
      TemplateEngine.createPrecompiled(
          Path.of("none"), ContentType.Html, Templates.class.getClassLoader(), PACKAGE);

  /** A page as HTML. */
  String render(String template, Object page) {
    StringOutput out = new StringOutput(TYPICAL_PAGE);
    engine.render("desk/" + template + ".jte", page, out);
    return out.toString();
  }
}
