package ferrule.core.rulebook.toml;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import ferrule.core.checks.CheckFile;
import ferrule.core.rulebook.ShippedRulebooks;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The quick reader against the library: what the one understands, the other understands alike, down
 * to types, order and lines.
 */
class PlainTomlTest {

  private static final String PAPER =
      """
      # invented
      title = "Tannery Lane (invented)"\t
      owner = ""

      [requirement]   # what counts
      rulebook = "iso-11801-1"
      wavelengths_nm = [850, 1300, 1310,1550 ]
      applications = [
        "10GBASE-LR", # one
        "Größe",

      ]
      [zero]
      valid_hours = 8
      window_single_mode_dbm = [-9.5, -0]
      [[row]]
      size-1 = 0.25
      [[row]]
      [[row]]
      none = []
      """;

  private static final List<String> PIECES =
      List.of(
          "\"",
          "\"\"",
          "'",
          "\\",
          "\\n",
          "#",
          "=",
          ".",
          ",",
          "[",
          "]",
          "[[",
          "]]",
          "[]",
          "{",
          "}",
          "\n",
          "\n\n",
          "\r",
          "\r\n",
          "\t",
          " ",
          "0",
          "9",
          "-",
          "+",
          "_",
          "e3",
          "1.5",
          "-0.0",
          "00",
          "0x1",
          "inf",
          "nan",
          "true",
          "1979-05-27",
          "07:32:00",
          "a",
          "Z",
          "é",
          "\u00a0",
          "\u0085",
          "\u007f",
          "\0",
          "\u2028",
          "\ufeff",
          "\ud83d",
          "\ufffe",
          "12345678901234567890",
          "a = 1\n",
          "[zero]\n",
          "[[zero]]\n",
          "[[row]]\n",
          "[row]\n",
          "[[title]]\n",
          "a.b = 1\n");

  private static Stream<String> texts() {
    return Stream.concat(
        Stream.of(PAPER, CheckFile.text("/rulebooks/house.toml")),
        Stream.concat(
            ShippedRulebooks.ids().stream().map(id -> ShippedRulebooks.text(id).orElseThrow()),
            CheckFile.table("/rulebooks/damaged.csv").stream()
                .map((NamedCsvRecord row) -> row.getField("file"))
                .distinct()
                .map(file -> CheckFile.text("/rulebooks/damaged/" + file + ".toml"))));
  }

  /** All of a value: kinds, order, lines, and the value itself. */
  private static String described(Object value) {
    if (value instanceof Section section) {
      return section.keys().stream()
          .map(
              key ->
                  section.line(key)
                      + " "
                      + key
                      + "="
                      + described(Objects.requireNonNull(section.get(key))))
          .collect(Collectors.joining("; ", "{", "}"));
    }
    if (value instanceof List<?> list) {
      return list.stream().map(PlainTomlTest::described).toList().toString();
    }
    return value.getClass().getSimpleName() + " " + value;
  }

  /** Whether the text is plain; fails if the two understand it differently. */
  private static boolean isPlainAndUnderstoodAlike(String text) {
    Optional<Section> plain = PlainToml.read(text);
    if (plain.isEmpty()) {
      return false;
    }
    TomlText.Outcome any = TomlText.readAny("own.toml", text);
    assertThat(any.problems()).as(text).isEmpty();
    assertThat(described(plain.get())).as(text).isEqualTo(described(any.section().orElseThrow()));
    return true;
  }

  @Test
  void papersAndRulebooksArePlain() {
    assertThat(isPlainAndUnderstoodAlike(PAPER)).isTrue();
    assertThat(isPlainAndUnderstoodAlike(PAPER.replace("\n", "\r\n"))).isTrue();
    assertThat(isPlainAndUnderstoodAlike(CheckFile.text("/rulebooks/house.toml"))).isTrue();
    assertThat(ShippedRulebooks.ids())
        .allMatch(id -> isPlainAndUnderstoodAlike(ShippedRulebooks.text(id).orElseThrow()));
  }

  @Test
  void damagedRulebooksAreUnderstoodAlikeOrNotPlain() {
    assertThat(texts().filter(PlainTomlTest::isPlainAndUnderstoodAlike).count())
        .isBetween(20L, 80L);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "a = 1\na = 2",
        "a = 1 b = 2",
        "a = 01",
        "a = -01",
        "a = +1",
        "a = 1_0",
        "a = 1.",
        "a = .5",
        "a = 1e3",
        "a = --1",
        "a = -",
        "a = 1.5.5",
        "a = 1234567890123456",
        "a = 0x1",
        "a = inf",
        "a = true",
        "a = 1979-05-27",
        "a = 2026-02-31",
        "a = 07:32:00",
        "a = \"x",
        "a = \"x\ny\"",
        "a = \"x\ty\"",
        "a = \"\u0001\"",
        "a = \"\u007f\"",
        "a = \"\ud83d\"",
        "a = \"\\q\"",
        "a = \"\"\"x\"\"\"",
        "a = \"\"\"\"",
        "a = \"x\" y",
        "a = 'x'",
        "a = [1,,2]",
        "a = [,]",
        "a = [1 2]",
        "a = [1",
        "a = [[1]]",
        "a = [1] 2",
        "a = {b = 1}",
        "a =\n1",
        "a\n= 1",
        "a 1",
        "a = ",
        "= 1",
        "\"a\" = 1",
        "a.b = 1",
        "A = 1",
        "é = 1",
        "[a]\n[a]",
        "a = 1\n[a]",
        "a = 1\n[[a]]",
        "a = [1]\n[[a]]",
        "[a]\n[[a]]",
        "[[a]]\n[a]",
        "[a.b]",
        "[a",
        "[[a]",
        "[[a] ]",
        "[ a ]",
        "[]",
        "[a] b = 1",
        "# \tx",
        "#\tb = 1",
        "# \u0001",
        "a = 1 # \u0001",
        "\ufeffa = 1",
        "\ra = 1",
        "a = 1\rb = 2",
        "a = 1\r",
        "# x\ry = 1",
        "\u00a0a = 1",
        "a = 1\0",
        "\0"
      })
  void whatIsNotPlainOrNotTomlIsLeftToTheLibrary(String text) {
    assertThat(PlainToml.read(text)).isEmpty();
  }

  @Test
  void textSpoiltAtRandomIsUnderstoodAlikeOrNotPlain() {
    SplittableRandom random = new SplittableRandom(20260801);
    List<String> whole = texts().filter(text -> text.length() < 2000).toList();
    int plain = 0;
    int others = 0;
    for (int i = 0; i < 20_000; i++) {
      if (isPlainAndUnderstoodAlike(spoilt(whole.get(i % whole.size()), random))) {
        plain++;
      } else {
        others++;
      }
    }
    assertThat(plain).as("texts that could be compared").isGreaterThan(2000);
    assertThat(others).isGreaterThan(2000);
  }

  private static String spoilt(String text, SplittableRandom random) {
    StringBuilder spoilt = new StringBuilder(text);
    for (int spoils = random.nextInt(1, 4); spoils > 0 && !spoilt.isEmpty(); spoils--) {
      int at = random.nextInt(spoilt.length());
      int end = Math.min(spoilt.length(), at + random.nextInt(1, 5));
      switch (random.nextInt(5)) {
        case 0 -> spoilt.insert(at, PIECES.get(random.nextInt(PIECES.size())));
        case 1 -> spoilt.replace(at, end, PIECES.get(random.nextInt(PIECES.size())));
        case 2 -> spoilt.delete(at, end);
        case 3 -> {
          int line = spoilt.lastIndexOf("\n", at) + 1;
          spoilt.insert(
              line, spoilt.substring(line, Math.max(line, spoilt.indexOf("\n", line) + 1)));
        }
        default -> spoilt.setLength(at);
      }
    }
    return spoilt.toString();
  }
}
