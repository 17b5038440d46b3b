package ferrule.core.entry;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.entry.TypedNumber.Kind;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.text.DecimalFormat;
import java.text.NumberFormat;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Numbers as people of all places type them. */
class TypedNumberTest {

  private static final Pattern ESCAPE = Pattern.compile("\\\\u([0-9A-F]{4})");

  record Case(String text, Kind kind, String expected) {}

  static List<Case> cases() throws IOException {
    List<Case> cases = new ArrayList<>();
    try (InputStream in = TypedNumberTest.class.getResourceAsStream("/checks/typed-numbers.csv")) {
      String all = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      for (String line : all.split("\n")) {
        if (!line.isEmpty() && !line.startsWith("#")) {
          String[] cells = line.split(";");
          String text =
              ESCAPE
                  .matcher(cells[0])
                  .replaceAll(m -> Character.toString(Integer.parseInt(m.group(1), 16)));
          Kind kind = cells[1].equals("level") ? Kind.LEVEL : Kind.LOSS;
          cases.add(new Case(text, kind, cells[2]));
        }
      }
    }
    assertThat(cases).hasSizeGreaterThan(45);
    return cases;
  }

  @ParameterizedTest
  @MethodSource("cases")
  void aTypedNumberIsReadAsItWasMeantOrRefusedWithWhatToDo(Case c) {
    TypedNumber.Outcome outcome = TypedNumber.read(c.text(), c.kind());
    if (c.expected().startsWith("!")) {
      assertThat(outcome).isInstanceOf(TypedNumber.Refused.class);
      assertThat(((TypedNumber.Refused) outcome).todo()).isEqualTo(c.expected().substring(1));
    } else {
      assertThat(outcome).isEqualTo(new TypedNumber.Number(Double.parseDouble(c.expected())));
    }
  }

  /**
   * Outside check: the decimal marks, digits and signs of Unicode CLDR, as the JDK carries them.
   */
  @Test
  void numbersAsEveryLocaleWritesThemAreUnderstood() {
    List<String> not = new ArrayList<>();
    int locales = 0;
    for (Locale locale : NumberFormat.getAvailableLocales()) {
      if (NumberFormat.getNumberInstance(locale) instanceof DecimalFormat format) {
        locales++;
        format.setMinimumFractionDigits(2);
        format.setGroupingUsed(false);
        String level = format.format(-23.07);
        if (TypedNumber.value(level, Kind.LEVEL).filter(v -> v == -23.07).isEmpty()) {
          not.add(locale + " " + level);
        }
      }
    }
    assertThat(not).isEmpty();
    assertThat(locales).isGreaterThan(100);
  }

  @Test
  void aLongTextIsRefusedAtOnce() {
    assertThat(TypedNumber.read("1".repeat(100_000), Kind.LOSS))
        .isInstanceOf(TypedNumber.Refused.class);
  }

  @Test
  void aRefusalIsOneLineWithWhatWasFound() {
    TypedNumber.Refused refused = (TypedNumber.Refused) TypedNumber.read("0,4l", Kind.LOSS);
    assertThat(refused.line("0,4l"))
        .isEqualTo(
            "Expected a number of dB from -60 to 100; found 0,4l; type the number alone, such as"
                + " 0.42.");
  }
}
