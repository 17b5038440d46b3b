package ferrule.core.zero;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Letters and numbers for methods. Meanings are from memory: confirm against the standard. */
class MethodNamesTest {

  @Test
  void lettersAndNumbersAreFound() {
    assertThat(MethodNames.nameIn("Method B")).contains("B");
    assertThat(MethodNames.nameIn("method a.2")).contains("A2");
    assertThat(MethodNames.nameIn("TIA-526-14-A Method C")).contains("C");
    assertThat(MethodNames.nameIn("B")).contains("B");
    assertThat(MethodNames.nameIn("IEC 61280-4-1 method 2")).contains("2");
    assertThat(MethodNames.nameIn("as usual")).isEmpty();
    assertThat(MethodNames.nameIn("a")).contains("A");
    assertThat(MethodNames.nameIn("A reference with two cords")).isEmpty();
  }

  @Test
  void countsAreFoundInWordsAndFigures() {
    assertThat(MethodNames.countIn("one-cord")).contains(Method.ONE_CORD);
    assertThat(MethodNames.countIn("one-cord reference")).contains(Method.ONE_CORD);
    assertThat(MethodNames.countIn("2 test cords")).contains(Method.TWO_CORD);
    assertThat(MethodNames.countIn("three jumper reference")).contains(Method.THREE_CORD);
    assertThat(MethodNames.countIn("Method B")).isEmpty();
  }

  @Test
  void oneNameMeansDifferentCountsInDifferentDocuments() {
    // The trap: the multimode "A" is two cords, every single-mode "A" with a figure another count.
    assertThat(MethodNames.meaningsOf("A")).allMatch(m -> m.method() == Method.TWO_CORD);
    assertThat(MethodNames.meaningsOf("A1")).allMatch(m -> m.method() == Method.ONE_CORD);
    assertThat(MethodNames.meaningsOf("B")).allMatch(m -> m.method() == Method.ONE_CORD);
    assertThat(MethodNames.meaningsOf("1")).allMatch(m -> m.method() == Method.TWO_CORD);
    assertThat(MethodNames.meaningsOf("Z")).isEmpty();
  }
}
