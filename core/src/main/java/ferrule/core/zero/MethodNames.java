package ferrule.core.zero;

import ferrule.core.optics.FibreKind;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Names of methods in standards: letters and numbers that mean different counts of cords in
 * different documents. All from memory: confirm against the standard.
 */
public final class MethodNames {

  /** Where the meanings come from. */
  public static final String SOURCE =
      "designations of TIA-526-14-A, TIA-526-7, IEC 61280-4-1:2003 and IEC 61280-4-2:1999 (from"
          + " memory: confirm against the standard)";

  private static final String LETTER = "([ABC](?:[.\\s-]?[123])?|[123])";

  /** A letter or number alone, or after the word. */
  private static final Pattern NAME =
      Pattern.compile("^" + LETTER + "$|\\bMETHOD\\s*" + LETTER + "(?![A-Z0-9-])");

  private static final List<Meaning> MEANINGS =
      List.of(
          new Meaning("A", "TIA-526-14-A", FibreKind.MULTIMODE, Method.TWO_CORD),
          new Meaning("B", "TIA-526-14-A", FibreKind.MULTIMODE, Method.ONE_CORD),
          new Meaning("C", "TIA-526-14-A", FibreKind.MULTIMODE, Method.THREE_CORD),
          new Meaning("A1", "TIA-526-7", FibreKind.SINGLE_MODE, Method.ONE_CORD),
          new Meaning("A2", "TIA-526-7", FibreKind.SINGLE_MODE, Method.TWO_CORD),
          new Meaning("A3", "TIA-526-7", FibreKind.SINGLE_MODE, Method.THREE_CORD),
          new Meaning("1", "IEC 61280-4-1:2003", FibreKind.MULTIMODE, Method.TWO_CORD),
          new Meaning("2", "IEC 61280-4-1:2003", FibreKind.MULTIMODE, Method.ONE_CORD),
          new Meaning("3", "IEC 61280-4-1:2003", FibreKind.MULTIMODE, Method.THREE_CORD),
          new Meaning("A1", "IEC 61280-4-2:1999", FibreKind.SINGLE_MODE, Method.ONE_CORD),
          new Meaning("A2", "IEC 61280-4-2:1999", FibreKind.SINGLE_MODE, Method.TWO_CORD),
          new Meaning("A3", "IEC 61280-4-2:1999", FibreKind.SINGLE_MODE, Method.THREE_CORD));

  /**
   * What a name means in one document.
   *
   * @param name letter or number, upper case, without dots and blanks
   * @param document the standard
   * @param kind of fibre that the document is about
   * @param method what it means there
   */
  public record Meaning(String name, String document, FibreKind kind, Method method) {

    /** "one-cord in TIA-526-14-A (multimode)". */
    public String shown() {
      return method.word() + " in " + document + " (" + kind.word() + ")";
    }
  }

  private MethodNames() {}

  /** The letter or number in a method as written; empty if there is none. */
  public static Optional<String> nameIn(String written) {
    Matcher found = NAME.matcher(written.strip().toUpperCase(Locale.ROOT));
    if (!found.find()) {
      return Optional.empty();
    }
    String name = found.group(1) == null ? found.group(2) : found.group(1);
    return Optional.of(name.replaceAll("[.\\s-]", ""));
  }

  /** The count of cords in a method as written: "one-cord", "2 cords". */
  public static Optional<Method> countIn(String written) {
    String text = written.strip().toLowerCase(Locale.ROOT);
    for (Method method : Method.values()) {
      String word = method.word().substring(0, method.word().indexOf('-'));
      if (text.matches(
              ".*\\b(" + word + "|" + method.cords() + ")[ -](test |reference )?cords?\\b.*")
          || text.matches(
              ".*\\b(" + word + "|" + method.cords() + ")[ -](test |reference )?jumpers?\\b.*")) {
        return Optional.of(method);
      }
    }
    return Optional.empty();
  }

  /**
   * What a method as written means, document by document: "one-cord in TIA-526-14-A (multimode)";
   * empty if it holds no letter or number that is known.
   */
  public static Optional<String> shown(String written) {
    List<Meaning> meanings = nameIn(written).map(MethodNames::meaningsOf).orElse(List.of());
    return meanings.isEmpty()
        ? Optional.empty()
        : Optional.of(String.join(", ", meanings.stream().map(Meaning::shown).toList()));
  }

  /** What a name means, document by document; empty if it is known in none. */
  public static List<Meaning> meaningsOf(String name) {
    List<Meaning> found = new ArrayList<>();
    for (Meaning meaning : MEANINGS) {
      if (meaning.name().equals(name)) {
        found.add(meaning);
      }
    }
    return found;
  }
}
