package ferrule.core.application;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** The limits of applications that come with Ferrule: part of the program, like a constant. */
public final class ShippedApplications {

  private static final String RESOURCE = "/applications/applications.toml";

  private ShippedApplications() {}

  /** All of them, in the order of the file: by family, then by speed. */
  public static List<Application> all() {
    ApplicationReader.Outcome outcome = ApplicationReader.read("applications.toml", text());
    if (!outcome.problems().isEmpty()) {
      throw new IllegalStateException("Applications: " + outcome.problems());
    }
    return outcome.applications();
  }

  private static String text() {
    try (InputStream in = ShippedApplications.class.getResourceAsStream(RESOURCE)) {
      if (in == null) {
        throw new IllegalStateException(RESOURCE + " is missing from the program");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
