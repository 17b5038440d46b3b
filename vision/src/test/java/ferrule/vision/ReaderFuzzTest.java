package ferrule.vision;

import static org.assertj.core.api.Assertions.assertThat;

import com.code_intelligence.jazzer.junit.FuzzTest;

/**
 * Bytes of any kind end as a picture or as one line, in bounded time and memory. The build runs it
 * for some seconds, from damaged pictures kept as its inputs; what it ever finds joins them.
 */
class ReaderFuzzTest {

  /** Small enough that decoding what a header promises stays quick. */
  private static final int MOST_BYTES = 1 << 16;

  /** Longer than any picture that a header of 40 megapixels promises takes. */
  private static final long MOST_NANOSECONDS = 20_000_000_000L;

  @FuzzTest(maxDuration = "12s")
  void bytesEndAsAPictureOrAsOneLine(byte[] bytes) {
    if (bytes == null || bytes.length > MOST_BYTES) {
      return;
    }
    long began = System.nanoTime();
    PictureSize.pixels(bytes);
    try {
      Grey grey = PictureReader.read(bytes).grey();
      assertThat((long) grey.width() * grey.height())
          .isLessThanOrEqualTo(PictureReader.MOST_PIXELS);
    } catch (PictureException e) {
      assertThat(e.getMessage()).startsWith("expected ").contains("found ").doesNotContain("\n");
    }
    assertThat(System.nanoTime() - began).isLessThan(MOST_NANOSECONDS);
  }
}
