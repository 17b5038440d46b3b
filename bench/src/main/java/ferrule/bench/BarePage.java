package ferrule.bench;

import io.javalin.Javalin;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;

/** The baseline of {@link DeskStart}: the web server with one short page. */
public final class BarePage {

  private BarePage() {}

  /**
   * Serves "Hello" on the port given; with port 0, serves it once to itself and ends, to have a
   * class archive written.
   */
  public static void main(String[] arguments) throws IOException {
    Javalin server = start(Integer.parseInt(arguments[0]));
    if (arguments[0].equals("0")) {
      URI page = URI.create("http://127.0.0.1:" + server.port() + "/");
      try (InputStream in = page.toURL().openStream()) {
        in.readAllBytes();
      }
      server.stop();
    }
  }

  private static Javalin start(int port) {
    return Javalin.create(
            config -> {
              config.startup.showJavalinBanner = false;
              config.routes.get("/", context -> context.html("<p>Hello</p>"));
            })
        .start("127.0.0.1", port);
  }
}
