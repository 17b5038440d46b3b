package ferrule.app.command;

import ferrule.app.BadInputException;
import ferrule.app.Main;
import ferrule.app.desk.DeskServer;
import ferrule.app.desk.DeskUnavailable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;

/**
 * Judges a job folder and serves its first desk page once, to itself. Run while the class archive
 * is written that makes later starts quicker; of no other use.
 */
public final class Rehearsal {

  private Rehearsal() {}

  /** Runs with the path of a job folder as the only argument. */
  public static void main(String[] arguments)
      throws BadInputException, DeskUnavailable, IOException {
    Path folder = Path.of(arguments[0]);
    LoadingDeskSource source = new LoadingDeskSource(folder);
    try (DeskServer server = DeskServer.start(source, 0)) {
      source.loaded();
      try (InputStream page = server.address().toURL().openStream()) {
        page.readAllBytes();
      }
    }
    Main.main(new String[] {"judge", folder.toString()});
  }
}
