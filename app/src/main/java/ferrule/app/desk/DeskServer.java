package ferrule.app.desk;

import ferrule.core.Problem;
import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.config.JavalinConfig;
import io.javalin.util.JavalinBindException;
import java.net.URI;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;

/**
 * The desk, open: a web server on the loopback address of this machine. Serves pages until it is
 * closed, and takes in entries if its source has a book for them.
 */
public final class DeskServer implements AutoCloseable {

  private static final String LOOPBACK = "127.0.0.1";
  private static final int HIGHEST_PORT = 65_535;

  private final Javalin javalin;

  private DeskServer(Javalin javalin) {
    this.javalin = javalin;
  }

  /**
   * Opens the desk. Nobody but this machine can reach it.
   *
   * @param source what to show
   * @param port 1 to 65535, or 0 for any free one
   * @throws DeskUnavailable if the port is taken or cannot be had
   */
  public static DeskServer start(DeskSource source, int port) throws DeskUnavailable {
    if (port < 0 || port > HIGHEST_PORT) {
      throw new DeskUnavailable(
          new Problem(
              "",
              0,
              "port",
              "a whole number from 0 to " + HIGHEST_PORT,
              Integer.toString(port),
              "choose another port, or 0 for any free one"));
    }
    Javalin javalin = Javalin.create(config -> configure(config, source));
    try {
      javalin.start(LOOPBACK, port);
    } catch (JavalinBindException e) {
      javalin.stop();
      throw new DeskUnavailable(
          new Problem(
              "",
              0,
              "port",
              "a port that is free on this machine",
              "port " + port + ", which is taken or not allowed",
              "close the program that holds it, choose another port, or 0 for any free one"),
          e);
    }
    return new DeskServer(javalin);
  }

  /**
   * Loads the web server's classes on a thread of its own, while the one that asks finds out what
   * is wanted. Nothing is opened, and nothing depends on it.
   */
  public static void prepare() {
    Thread preparing =
        new Thread(
            () -> {
              Javalin unused = Javalin.create(DeskServer::sober);
              unused.jettyServer().server().addConnector(new ServerConnector(new Server()));
            },
            "desk-prepare");
    preparing.setDaemon(true);
    preparing.setUncaughtExceptionHandler((thread, fault) -> {}); // it will show when it matters
    preparing.start();
  }

  private static void sober(JavalinConfig config) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    config.http.compressionStrategy = CompressionStrategy.NONE;
  }

  private static void configure(JavalinConfig config, DeskSource source) {
    sober(config);
    config.jetty.modifyHttpConfiguration(
        http -> {
          http.setSendServerVersion(false);
          http.setSendXPoweredBy(false);
        });
    config.jetty.modifyServer(server -> server.setErrorHandler(new PlainErrors()));
    new Routes(source).addTo(config.routes);
  }

  /** The port it listens on. */
  public int port() {
    return javalin.port();
  }

  /** Where its first page is. */
  public URI address() {
    return URI.create("http://" + LOOPBACK + ":" + port() + "/");
  }

  /** Closes the desk; pages can no longer be had. */
  @Override
  public void close() {
    javalin.stop();
  }
}
