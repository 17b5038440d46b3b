package ferrule.core.checks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

/** How each row of a file of outside checks is computed through core. */
public final class Computations {

  private static final Set<String> CONFIDENCES =
      Set.of("published", "secondhand", "computed", "computed-2", "mc", "assumed");

  private final Map<String, Function<Check, Object>> byId = new LinkedHashMap<>();

  /** Collects computations from {@code filling}. */
  public Computations(Consumer<Computations> filling) {
    filling.accept(this);
  }

  /**
   * Says how to compute a number.
   *
   * @param id of the row; ending with "*", of every row whose id begins so and that has no
   *     computation of its own
   */
  public void number(String id, ToDoubleFunction<Check> computation) {
    add(id, check -> computation.applyAsDouble(check));
  }

  /** Says how to compute a text. */
  public void text(String id, Function<Check, String> computation) {
    add(id, check -> computation.apply(check));
  }

  private void add(String id, Function<Check, Object> computation) {
    if (byId.putIfAbsent(id, computation) != null) {
      throw new IllegalArgumentException("Two computations for " + id);
    }
  }

  /** Fails unless core's value lies within the row's tolerance of the outside value. */
  public void assertAgrees(Check check) {
    assertThat(CONFIDENCES).as("confidence of " + check.id()).contains(check.confidence());
    assertThat(check.source()).as("source of " + check.id()).isNotBlank();
    Optional<Function<Check, Object>> computation =
        keyOf(check).map(key -> Objects.requireNonNull(byId.get(key)));
    assertThat(computation).as("a computation for " + check.id()).isPresent();
    Object value = computation.orElseThrow().apply(check);
    if (value instanceof Double number) {
      assertThat(number)
          .as("%s; %s", check, check.source())
          .isCloseTo(
              Double.parseDouble(check.expected()), within(Double.parseDouble(check.tolerance())));
    } else {
      assertThat(check.tolerance()).isEqualTo("exact");
      assertThat(value).as("%s; %s", check, check.source()).isEqualTo(check.expected());
    }
  }

  /** Fails if a computation has no row, or an id stands twice. */
  public void assertEveryComputationHasARow(List<Check> rows) {
    Set<String> used = new HashSet<>();
    Set<String> ids = new HashSet<>();
    for (Check row : rows) {
      assertThat(ids.add(row.id())).as(row.id() + " once").isTrue();
      keyOf(row).ifPresent(used::add);
    }
    assertThat(used).isEqualTo(byId.keySet());
  }

  private Optional<String> keyOf(Check check) {
    if (byId.containsKey(check.id())) {
      return Optional.of(check.id());
    }
    return byId.keySet().stream()
        .filter(k -> k.endsWith("*") && check.id().startsWith(k.substring(0, k.length() - 1)))
        .max(Comparator.comparingInt(String::length));
  }
}
