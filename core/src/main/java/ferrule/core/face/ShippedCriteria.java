package ferrule.core.face;

import ferrule.core.rulebook.ShippedRulebooks;
import java.util.List;
import java.util.Optional;

/** The criteria for end faces that come with Ferrule, by id or by edition. */
public final class ShippedCriteria {

  private ShippedCriteria() {}

  /** The ids, in alphabetical order. */
  public static List<String> ids() {
    return ShippedRulebooks.criteriaIds();
  }

  /**
   * Shipped criteria; empty if there are none of this name.
   *
   * @param name id or edition: "iec-61300-3-35-2015" or "2015"
   */
  public static Optional<Criteria> find(String name) {
    for (String id : ids()) {
      if (id.equals(name) || id.endsWith("-" + name) && name.length() == 4) {
        return ShippedRulebooks.criteriaText(id).map(text -> read(id, text));
      }
    }
    return Optional.empty();
  }

  private static Criteria read(String id, String text) {
    CriteriaReader.Outcome outcome = CriteriaReader.read(id + ".toml", text);
    return outcome
        .criteria()
        .orElseThrow(() -> new IllegalStateException("Criteria " + id + ": " + outcome.problems()));
  }
}
