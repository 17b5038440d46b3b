package ferrule.core.rulebook;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/**
 * The rulebooks and face criteria that come with Ferrule, read from its own resources: part of the
 * program, like a constant, and so no exception to the rule that core opens no files.
 */
public final class ShippedRulebooks {

  private static final List<String> IDS =
      List.of(
          "iec-61753-1-grade-b",
          "iec-61753-1-grade-c",
          "iso-11801-1",
          "iso-11801-1-ends-2006",
          "itu-t-access",
          "tia-568.3-d",
          "tia-568.3-e",
          "tia-568.3-e-indoor-outdoor");

  private static final List<String> CRITERIA =
      List.of("iec-61300-3-35-2009", "iec-61300-3-35-2015");

  private ShippedRulebooks() {}

  /** The ids, in alphabetical order. */
  public static List<String> ids() {
    return IDS;
  }

  /** The ids of the criteria for end faces, in alphabetical order. */
  public static List<String> criteriaIds() {
    return CRITERIA;
  }

  /** The text of a shipped rulebook; empty if there is none with this id. */
  public static Optional<String> text(String id) {
    return IDS.contains(id)
        ? Optional.of(resource("/rulebooks/" + id + ".toml"))
        : Optional.empty();
  }

  /** The text of shipped criteria for end faces; empty if there are none with this id. */
  public static Optional<String> criteriaText(String id) {
    return CRITERIA.contains(id)
        ? Optional.of(resource("/criteria/" + id + ".toml"))
        : Optional.empty();
  }

  /** The text of the limits of applications. */
  public static String applicationsText() {
    return resource("/applications/applications.toml");
  }

  private static String resource(String name) {
    try (InputStream in = ShippedRulebooks.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException(name + " is missing from the program");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A shipped rulebook; empty if there is none with this id. */
  public static Optional<Rulebook> find(String id) {
    return text(id)
        .map(
            text -> {
              RulebookReader.Outcome outcome = RulebookReader.read(id + ".toml", text);
              return outcome
                  .rulebook()
                  .orElseThrow(
                      () ->
                          new IllegalStateException("Rulebook " + id + ": " + outcome.problems()));
            });
  }
}
