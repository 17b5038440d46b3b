package ferrule.app.desk.page;

import ferrule.core.entry.ZeroAim;
import ferrule.core.entry.ZeroGuide;
import ferrule.core.optics.FibreCategory;
import ferrule.core.plant.Direction;
import ferrule.core.zero.Method;
import ferrule.core.zero.VerificationWindow;
import ferrule.core.zero.ZeroLevel;
import java.util.List;
import java.util.Map;

/**
 * One step of setting a zero.
 *
 * @param frame what surrounds it
 * @param job tells this job from every other
 * @param step the step
 * @param values everything typed so far, by field
 * @param wrong what is wrong, one line a field
 * @param asked what is asked about a field that is not as expected
 * @param levels the levels of the zero, once it is known which there are
 * @param guide how it is set, once the method is known
 * @param cords on record
 * @param instruments on record
 */
public record ZeroSteps(
    Frame frame,
    String job,
    Step step,
    Map<String, String> values,
    Map<String, String> wrong,
    Map<String, String> asked,
    List<LevelStep> levels,
    ZeroGuide guide,
    List<String> cords,
    List<String> instruments) {

  /** Longest name of a zero, cord or instrument, characters. */
  public static final int LONGEST_NAME = 200;

  /** The steps, in order. */
  public enum Step {
    /** What stands in line. */
    LINE("What stands in line"),
    /** End faces. */
    FACES("Look at the end faces"),
    /** The power. */
    SET("Set it"),
    /** The verification. */
    VERIFY("Verify it");

    private final String word;

    Step(String word) {
      this.word = word;
    }

    /** Its head. */
    public String word() {
      return word;
    }

    /** From 1. */
    public int number() {
      return ordinal() + 1;
    }
  }

  /**
   * One level.
   *
   * @param name of its fields: "A-B-1310"
   * @param level as it will be stored; its numbers are not yet those typed
   * @param aim what power to expect
   * @param verification what its verification may read
   */
  public record LevelStep(
      String name, ZeroLevel level, ZeroAim aim, VerificationWindow verification) {

    /** "1310 nm A-B". */
    public String shown() {
      return level.wavelength() + " " + level.direction().word();
    }
  }

  /** Copies what it is given. */
  public ZeroSteps {
    values = Map.copyOf(values);
    wrong = Map.copyOf(wrong);
    asked = Map.copyOf(asked);
    levels = List.copyOf(levels);
    cords = List.copyOf(cords);
    instruments = List.copyOf(instruments);
  }

  /** What was typed in a field; empty if nothing was. */
  public String value(String field) {
    return values.getOrDefault(field, "");
  }

  /** What is wrong with a field; empty if nothing is. */
  public String wrong(String field) {
    return wrong.getOrDefault(field, "");
  }

  /** What is asked about a field; empty if nothing is. */
  public String asked(String field) {
    return asked.getOrDefault(field, "");
  }

  /** Choices of a field of the first step. */
  public static List<String> choices(String field) {
    return switch (field) {
      case "method" -> List.of(Method.values()).stream().map(Method::word).toList();
      case "category" ->
          List.of(FibreCategory.values()).stream().map(FibreCategory::label).toList();
      case "directions" -> List.of("both", Direction.A_TO_B.word(), Direction.B_TO_A.word());
      default -> List.of();
    };
  }
}
