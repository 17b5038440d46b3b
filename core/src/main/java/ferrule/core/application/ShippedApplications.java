package ferrule.core.application;

import ferrule.core.rulebook.ShippedRulebooks;
import java.util.List;

/** The limits of applications that come with Ferrule. */
public final class ShippedApplications {

  private ShippedApplications() {}

  /** All of them, in the order of the file: by family, then by speed. */
  public static List<Application> all() {
    ApplicationReader.Outcome outcome =
        ApplicationReader.read("applications.toml", ShippedRulebooks.applicationsText());
    if (!outcome.problems().isEmpty()) {
      throw new IllegalStateException("Applications: " + outcome.problems());
    }
    return outcome.applications();
  }
}
