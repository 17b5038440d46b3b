package ferrule.app.desk.page;

import ferrule.core.plant.Link;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Standing;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;

/**
 * Which fibres the page of links shows, and in which order.
 *
 * @param standing only these; empty for all
 * @param place only links that end there; empty for all
 * @param text words that must all be found in the fibre's id, ends, connectors or category
 * @param order of the list
 * @param page wished for, from 1
 * @param refused what could not be understood and was left out, each in a sentence
 */
public record LinkFilter(
    Optional<Standing> standing,
    String place,
    String text,
    Order order,
    int page,
    List<String> refused) {

  /** Longest text looked for, characters. */
  public static final int LONGEST_TEXT = 200;

  /** Orders of the list. */
  public enum Order {
    /** As scheduled. */
    SCHEDULE("schedule", "as scheduled"),
    /** Least margin first; fibres without a margin last. */
    MARGIN("margin", "least margin first");

    private final String id;
    private final String words;

    Order(String id, String words) {
      this.id = id;
      this.words = words;
    }

    /** As the address gives it. */
    public String id() {
      return id;
    }

    /** For a reader. */
    public String words() {
      return words;
    }
  }

  /** Copies the list. */
  public LinkFilter {
    refused = List.copyOf(refused);
  }

  /**
   * Reads a filter from an address. What is not understood is left out and said.
   *
   * @param query the value of a query parameter; empty if absent
   * @param places known places
   */
  public static LinkFilter read(Function<String, String> query, List<String> places) {
    List<String> refused = new ArrayList<>();
    String standingWord = query.apply("standing").strip();
    Optional<Standing> standing =
        Arrays.stream(Standing.values()).filter(s -> s.word().equals(standingWord)).findFirst();
    if (standing.isEmpty() && !standingWord.isEmpty()) {
      refused.add(
          "“" + shortened(standingWord) + "” is no standing: proved, failed, doubtful or open.");
    }
    String place = query.apply("place");
    if (!place.isEmpty() && !places.contains(place)) {
      refused.add("No link of this job ends at “" + shortened(place) + "”.");
      place = "";
    }
    String text = query.apply("text").strip();
    if (text.length() > LONGEST_TEXT) {
      refused.add("Only the first " + LONGEST_TEXT + " characters of the text are looked for.");
      text = text.substring(0, LONGEST_TEXT);
    }
    String orderId = query.apply("order").strip();
    Optional<Order> order =
        Arrays.stream(Order.values()).filter(o -> o.id().equals(orderId)).findFirst();
    if (order.isEmpty() && !orderId.isEmpty()) {
      refused.add("“" + shortened(orderId) + "” is no order: schedule or margin.");
    }
    return new LinkFilter(
        standing, place, text, order.orElse(Order.SCHEDULE), page(query, refused), refused);
  }

  /** The page asked for, from 1; 1 with a sentence if it is no number. */
  public static int page(Function<String, String> query, List<String> refused) {
    String page = query.apply("page").strip();
    if (page.isEmpty()) {
      return 1;
    }
    if (page.matches("[1-9][0-9]{0,6}")) {
      return Integer.parseInt(page);
    }
    refused.add("“" + shortened(page) + "” is no page number; this is the first page.");
    return 1;
  }

  static String shortened(String text) {
    return text.length() > 60 ? text.substring(0, 60) + "…" : text;
  }

  /** Whether anything is left out. */
  public boolean isAll() {
    return standing.isEmpty() && place.isEmpty() && text.isEmpty();
  }

  /** The fibres that pass, in order. */
  List<FibreJudgement> apply(List<FibreJudgement> fibres) {
    String[] words = text.isEmpty() ? new String[0] : text.toLowerCase(Locale.ROOT).split("\\s+");
    List<FibreJudgement> passed = new ArrayList<>();
    for (FibreJudgement fibre : fibres) {
      if (passes(fibre, words)) {
        passed.add(fibre);
      }
    }
    if (order == Order.MARGIN) {
      record Ranked(FibreJudgement fibre, double margin) {}
      return passed.stream()
          .map(
              f ->
                  new Ranked(
                      f,
                      FibreEntry.worst(f).map(r -> r.marginDb()).orElse(Double.POSITIVE_INFINITY)))
          .sorted(Comparator.comparingDouble(Ranked::margin))
          .map(Ranked::fibre)
          .toList();
    }
    return passed;
  }

  private boolean passes(FibreJudgement fibre, String[] words) {
    if (standing.isPresent() && standing.get() != fibre.standing()) {
      return false;
    }
    Link link = fibre.link();
    if (!place.isEmpty() && !link.a().place().equals(place) && !link.b().place().equals(place)) {
      return false;
    }
    if (words.length == 0) {
      return true;
    }
    String hay =
        String.join(
                "\n",
                fibre.fibre().toString(),
                link.a().where(),
                link.b().where(),
                link.a().connector().toString(),
                link.b().connector().toString(),
                link.category().label())
            .toLowerCase(Locale.ROOT);
    return Arrays.stream(words).allMatch(hay::contains);
  }

  /** The address of this list at another page. */
  public String address(int page) {
    StringBuilder address = new StringBuilder("/links");
    char joint = '?';
    joint = add(address, joint, "standing", standing.map(Standing::word).orElse(""));
    joint = add(address, joint, "place", place);
    joint = add(address, joint, "text", text);
    joint = add(address, joint, "order", order == Order.SCHEDULE ? "" : order.id());
    add(address, joint, "page", page == 1 ? "" : Integer.toString(page));
    return address.toString();
  }

  private static char add(StringBuilder address, char joint, String name, String value) {
    if (value.isEmpty()) {
      return joint;
    }
    address.append(joint).append(name).append('=').append(Urls.encoded(value));
    return '&';
  }
}
