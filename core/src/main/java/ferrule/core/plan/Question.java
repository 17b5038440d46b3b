package ferrule.core.plan;

import java.util.List;

/**
 * A contradiction in the papers, as a question that can be put to the owner as it is.
 *
 * @param kind what sort
 * @param text what was found and what is asked, ending in a question
 * @param source the rule it rests on, with where that comes from
 * @param links ids of the links it is about, in schedule order; empty if it is about none
 * @param late what it costs if it is found at close-out instead
 */
public record Question(
    QuestionKind kind, String text, String source, List<String> links, LateCost late) {

  /** Copies the list. */
  public Question {
    links = List.copyOf(links);
  }
}
