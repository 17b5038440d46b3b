package ferrule.app.desk.page;

import ferrule.app.Wishes;
import ferrule.core.job.Requirement;
import ferrule.core.rulebook.ShippedRulebooks;
import ferrule.core.rulebook.Wish;
import ferrule.core.trust.Rejudged;
import ferrule.core.trust.Standing;
import ferrule.core.uncertainty.DecisionRule;
import ferrule.core.zero.Method;
import java.math.BigDecimal;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

/**
 * The same readings as if another rulebook, decision rule or method had been agreed.
 *
 * @param frame what surrounds it
 * @param agreed what the job's papers ask
 * @param rulebooks ids to choose from, the agreed one first
 * @param asked what is supposed
 * @param result what would change; empty if nothing else is supposed
 * @param changes one page of the fibres of which something would change
 * @param refused what of the address was not understood
 */
public record WhatIfPage(
    Frame frame,
    Requirement agreed,
    List<String> rulebooks,
    Asked asked,
    Optional<Rejudged> result,
    Pager<Rejudged.Change> changes,
    List<String> refused) {

  /** Fibres on one page. */
  public static final int CHANGES_A_PAGE = 50;

  /**
   * What the address asks for; empty where it asks for what is agreed.
   *
   * @param rulebook id of a shipped rulebook
   * @param decision rule
   * @param method of the zeros
   * @param wish figures in place of the rulebook's
   */
  public record Asked(
      Optional<String> rulebook,
      Optional<DecisionRule> decision,
      Optional<Method> method,
      Wish wish) {

    /**
     * Reads it from an address. What is not understood is left out and said.
     *
     * @param query the value of a query parameter; empty if absent
     * @param refused takes the sentences
     */
    public static Asked read(
        Function<String, String> query, Requirement agreed, List<String> refused) {
      String id = query.apply("rulebook").strip();
      Optional<String> rulebook = ShippedRulebooks.ids().stream().filter(id::equals).findFirst();
      String rule = query.apply("decision").strip();
      String cords = query.apply("method").strip();
      Optional<DecisionRule> decision = DecisionRule.ofWord(rule);
      Optional<Method> method = Method.ofWord(cords);
      String own = agreed.rulebook().id();
      refuse(refused, id, rulebook.isPresent() || id.equals(own), "a rulebook that is shipped");
      refuse(refused, rule, decision.isPresent(), "a decision rule, simple or guarded");
      refuse(refused, cords, method.isPresent(), "one-cord, two-cord or three-cord");
      return new Asked(
          rulebook.filter(r -> !r.equals(own)),
          decision.filter(d -> d != agreed.decision()),
          method.filter(m -> m != agreed.method()),
          wish(query, refused));
    }

    private static Wish wish(Function<String, String> query, List<String> refused) {
      Wish wish = Wish.NONE;
      for (Wish.Item item : Wish.Item.values()) {
        String text = query.apply("most-" + item.word()).strip();
        OptionalDouble db = Wishes.figure(item, text);
        refuse(refused, text, db.isPresent(), Wishes.expected(item) + " for " + item.shown());
        if (db.isPresent()) {
          wish = wish.with(item, db.getAsDouble());
        }
      }
      return wish;
    }

    private static void refuse(List<String> refused, String word, boolean known, String expected) {
      if (!word.isEmpty() && !known) {
        refused.add("“" + LinkFilter.shortened(word) + "” is not " + expected + ".");
      }
    }

    /** Whether it is what is agreed. */
    public boolean isAgreed() {
      return rulebook.isEmpty() && decision.isEmpty() && method.isEmpty() && wish.isEmpty();
    }

    /** The requirement supposed. */
    public Requirement from(Requirement agreed) {
      Requirement supposed = agreed;
      if (rulebook.isPresent()) {
        supposed = supposed.by(ShippedRulebooks.find(rulebook.get()).orElseThrow());
      }
      supposed = supposed.by(wish.in(supposed.rulebook()));
      if (decision.isPresent()) {
        supposed = supposed.by(decision.get());
      }
      return method.isPresent() ? supposed.by(method.get()) : supposed;
    }
  }

  /** Puts the page together. */
  public static WhatIfPage of(
      String jobName,
      JobIndex index,
      Asked asked,
      Optional<Rejudged> result,
      int page,
      List<String> refused) {
    Requirement agreed = index.judgement().ledger().requirement();
    List<String> rulebooks = new ArrayList<>();
    rulebooks.add(agreed.rulebook().id());
    ShippedRulebooks.ids().stream().filter(r -> !rulebooks.contains(r)).forEach(rulebooks::add);
    return new WhatIfPage(
        new Frame(jobName, Frame.Section.WHAT_IF, "What if"),
        agreed,
        rulebooks,
        asked,
        result,
        Pager.of(result.map(Rejudged::changes).orElse(List.of()), CHANGES_A_PAGE, page),
        refused);
  }

  /** The requirement supposed. */
  public Requirement supposed() {
    return asked.from(agreed);
  }

  /** The id of the rulebook supposed, before any figure wished. */
  public String rulebookId() {
    return asked.rulebook().orElse(agreed.rulebook().id());
  }

  /** What a field of a wished figure holds; empty if none is wished. */
  public String wished(Wish.Item item) {
    Double db = asked.wish().figures().get(item);
    return db == null ? "" : BigDecimal.valueOf(db).stripTrailingZeros().toPlainString();
  }

  /** Standings with how many fibres stand there now and would stand there. */
  public List<Row> rows() {
    return result
        .map(
            r ->
                Arrays.stream(Standing.values())
                    .map(
                        s ->
                            new Row(
                                s,
                                r.agreed().totals().getOrDefault(s, 0),
                                r.supposed().totals().getOrDefault(s, 0)))
                    .toList())
        .orElse(List.of());
  }

  /** One standing. */
  public record Row(Standing standing, int agreed, int supposed) {}

  /** How far limits would move, in a sentence. */
  public String limits() {
    String moves = result.map(Rejudged::limitMovesShown).orElse("");
    return moves.isEmpty() ? "No reading would have another limit." : moves;
  }

  /** The address of another page of the changes. */
  public String address(int page) {
    StringBuilder address = new StringBuilder("/what-if?page=" + page);
    asked.rulebook().ifPresent(r -> address.append("&rulebook=").append(encoded(r)));
    asked.decision().ifPresent(d -> address.append("&decision=").append(encoded(d.word())));
    asked.method().ifPresent(m -> address.append("&method=").append(encoded(m.word())));
    asked
        .wish()
        .figures()
        .keySet()
        .forEach(i -> address.append("&most-" + i.word() + "=").append(wished(i)));
    return address.toString();
  }

  private static String encoded(String value) {
    return URLEncoder.encode(value, StandardCharsets.UTF_8);
  }
}
