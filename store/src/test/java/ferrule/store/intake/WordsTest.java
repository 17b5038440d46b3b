package ferrule.store.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class WordsTest {

  @Test
  void aWordIsFoundByItsCharactersAndKeptOnce() {
    Words words = new Words();
    SplittableRandom random = new SplittableRandom(7);
    for (int i = 0; i < 20_000; i++) {
      String word = Integer.toString(random.nextInt(3_000), 36);
      char[] around = ("<<" + word + ">").toCharArray();
      String found = words.of(around, 2, 2 + word.length());
      assertThat(found).isEqualTo(word);
      assertThat(words.of(around, 2, 2 + word.length())).isSameAs(found);
    }
    assertThat(words.of(new char[0], 0, 0)).isEmpty();
  }

  @Test
  void wordsMadeToShareOneHashAreStillToldApart() {
    Words words = new Words();
    for (int i = 0; i < 1 << 14; i++) {
      StringBuilder text = new StringBuilder();
      for (int bit = 0; bit < 14; bit++) {
        text.append((i >> bit & 1) == 0 ? "Aa" : "BB");
      }
      assertThat(text.toString()).hasSameHashCodeAs("Aa".repeat(14));
      assertThat(words.of(text.toString().toCharArray(), 0, 28)).isEqualTo(text.toString());
    }
  }
}
