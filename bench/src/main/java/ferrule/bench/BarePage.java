package ferrule.bench;

import io.javalin.Javalin;

/** The baseline of {@link DeskStart}: the web server with one short page. */
public final class BarePage {

  private BarePage() {}

  /** Serves "Hello" on the port given. */
  public static void main(String[] arguments) {
    Javalin.create(
            config -> {
              config.startup.showJavalinBanner = false;
              config.routes.get("/", context -> context.html("<p>Hello</p>"));
            })
        .start("127.0.0.1", Integer.parseInt(arguments[0]));
  }
}
