package ferrule.core.checks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.allowance.LossSum;
import ferrule.core.allowance.Part;
import ferrule.core.allowance.Term;
import ferrule.core.allowance.Term.Scatter;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.rulebook.Confidence;
import ferrule.core.rulebook.Provenance;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlTable;

/** Loss budgets of public documents through core's sums; published answers that are wrong too. */
class WorkedBudgetsTest {

  /** Half of the last digit that the sources print, which is 0.01 dB at best. */
  private static final double PRINTED_DB = 0.005;

  /** One example of the file. */
  record Example(TomlTable table) {
    String text(String key) {
      return Objects.requireNonNull(table.getString(key), key);
    }

    double number(String key) {
      return Objects.requireNonNull(table.getDouble(key), key);
    }

    OptionalDouble published() {
      Double printed = table.getDouble("published");
      return printed == null ? OptionalDouble.empty() : OptionalDouble.of(printed);
    }

    boolean agrees() {
      return Objects.requireNonNull(table.getBoolean("agrees"));
    }

    boolean isPublished() {
      return text("confidence").equals("published");
    }

    LossSum sum() {
      List<Term> terms = new ArrayList<>();
      TomlArray rows = table.getArray("terms");
      for (int i = 0; rows != null && i < rows.size(); i++) {
        TomlTable row = rows.getTable(i);
        Double sd = row.getDouble("sd");
        Part part =
            new Part(
                Objects.requireNonNull(row.getString("what")),
                "piece",
                Objects.requireNonNull(row.getDouble("each")),
                sd == null ? 0 : sd,
                new Provenance(text("source"), "", "", Confidence.ONE_SOURCE, text("source")));
        terms.add(
            new Term(Objects.requireNonNull(row.getDouble("count")), part, Scatter.INDEPENDENT));
      }
      return new LossSum(terms);
    }

    /** Core's answer to what the example asks. */
    double answer() {
      return switch (text("asks")) {
        case "total" -> sum().total().value();
        case "margin" -> margin().value();
        case "budget" ->
            LossSum.powerBudget(new LevelDbm(number("sent")), new LevelDbm(number("needed")))
                .value();
        case "three-sigma" -> sum().total().plus(new LossDb(sum().sd()).times(3)).value();
        case "coefficient" -> margin().times(1 / number("km")).value();
        case "reach" -> margin().times(1 / number("coefficient")).value();
        default -> throw new IllegalArgumentException("asks " + text("asks"));
      };
    }

    private LossDb margin() {
      return sum().marginUnder(new LossDb(number("budget")));
    }

    @Override
    public String toString() {
      return text("confidence")
          + (agrees() ? "" : ", printed wrong")
          + ": "
          + text("id")
          + " "
          + text("title")
          + " ("
          + text("source")
          + ")";
    }
  }

  static List<Example> examples() {
    var toml = Toml.parse(CheckFile.text("/checks/worked-budgets.toml"));
    assertThat(toml.errors()).isEmpty();
    TomlArray rows = Objects.requireNonNull(toml.getArray("example"));
    List<Example> examples = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      examples.add(new Example(rows.getTable(i)));
    }
    return examples;
  }

  static Stream<Example> rightOnes() {
    return examples().stream()
        .filter(e -> e.isPublished() && e.agrees() && e.published().isPresent());
  }

  static Stream<Example> wrongOnes() {
    return examples().stream().filter(e -> !e.agrees());
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("examples")
  void coreAgreesWithTheSumDoneByHand(Example example) {
    assertThat(example.answer()).isCloseTo(example.number("recomputed"), within(0.0005));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("rightOnes")
  void coreAgreesWithThePublishedAnswer(Example example) {
    double answer = example.answer();
    double printed = example.published().orElseThrow();
    // Reaches are printed in whole kilometres, rounded down.
    assertThat(example.text("asks").equals("reach") ? Math.floor(answer) : answer)
        .isCloseTo(printed, within(PRINTED_DB));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("wrongOnes")
  void coreDoesNotRepeatAPublishedAnswerThatIsWrong(Example example) {
    assertThat(example.isPublished()).isTrue();
    assertThat(Math.abs(example.answer() - example.published().orElseThrow()))
        .isGreaterThan(2 * PRINTED_DB);
  }

  @Test
  void whatWasNotSeenIsNeverCalledPublished() {
    assertThat(examples())
        .filteredOn(e -> Set.of("WE-15", "WE-16", "WE-17").contains(e.text("id").substring(0, 5)))
        .hasSize(4)
        .allSatisfy(
            e -> {
              assertThat(e.text("confidence")).isIn("partial", "memory");
              assertThat(e.published()).isEmpty();
            });
  }

  @Test
  void everyExampleFromOneToSeventeenIsThere() {
    Set<String> ids =
        examples().stream().map(e -> e.text("id").substring(0, 5)).collect(Collectors.toSet());
    assertThat(ids).hasSize(17).contains("WE-01", "WE-13", "WE-14", "WE-17");
  }
}
