package ferrule.core.checks;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One row of a file of outside checks.
 *
 * @param id its name, "cf.zener"
 * @param quantity what is computed
 * @param inputs from what, in words and numbers
 * @param expected the outside value, as written
 * @param tolerance absolute, in the unit of the row; "exact" for a text
 * @param unit of the value
 * @param source where the value comes from
 * @param confidence how far it can be trusted; the file's head explains the words
 */
public record Check(
    String id,
    String quantity,
    String inputs,
    String expected,
    String tolerance,
    String unit,
    String source,
    String confidence) {

  private static final String NUMBER = "([-+]?\\d+(?:\\.\\d+)?(?:[eE][-+]?\\d+)?)";
  private static final Pattern ANY_NUMBER = Pattern.compile("(?<![\\w.])" + NUMBER);

  /** The number that follows {@code name=} in the inputs. */
  public double input(String name) {
    Matcher found =
        Pattern.compile("(?<!\\w)" + Pattern.quote(name) + "\\s*=\\s*" + NUMBER).matcher(inputs);
    if (!found.find()) {
      throw new IllegalArgumentException(id + " has no input " + name + " in: " + inputs);
    }
    return Double.parseDouble(found.group(1));
  }

  /** The numbers, parted by semicolons, that follow {@code name=} in the inputs. */
  public double[] list(String name) {
    Matcher found =
        Pattern.compile("(?<!\\w)" + Pattern.quote(name) + "=([-\\d.;]+)").matcher(inputs);
    if (!found.find()) {
      throw new IllegalArgumentException(id + " has no list " + name + " in: " + inputs);
    }
    String[] parts = found.group(1).split(";", -1);
    double[] values = new double[parts.length];
    for (int i = 0; i < parts.length; i++) {
      values[i] = Double.parseDouble(parts[i]);
    }
    return values;
  }

  /** Every number of the inputs, in order. */
  public List<Double> numbers() {
    List<Double> values = new ArrayList<>();
    Matcher found = ANY_NUMBER.matcher(inputs);
    while (found.find()) {
      values.add(Double.parseDouble(found.group(1)));
    }
    return values;
  }

  /** The only number of the inputs. */
  public double number() {
    List<Double> values = numbers();
    if (values.size() != 1) {
      throw new IllegalArgumentException(id + " has not one number in: " + inputs);
    }
    return values.get(0);
  }

  /** The first number of the id's last part: 1.28 in "cf.pfa.1.28" after "cf.pfa.". */
  public double numberAfter(String prefix) {
    return Double.parseDouble(id.substring(prefix.length()));
  }

  @Override
  public String toString() {
    return confidence + ": " + id + ", " + quantity;
  }
}
