package ferrule.vision;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Random;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PictureReaderTest {
  private static BufferedImage ramp(int type) {
    BufferedImage image = new BufferedImage(96, 64, type);
    for (int y = 0; y < 64; y++) {
      for (int x = 0; x < 96; x++) {
        int v = x * 2;
        image.setRGB(x, y, v << 16 | v << 8 | v | 0xFF000000);
      }
    }
    return image;
  }

  private static byte[] bytes(BufferedImage image, String format) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    assertThat(ImageIO.write(image, format, out)).isTrue();
    return out.toByteArray();
  }

  @ParameterizedTest
  @ValueSource(strings = {"png", "jpg", "bmp", "tiff"})
  void readsEachKindByItsBytes(String format) throws Exception {
    Grey grey = PictureReader.read(bytes(ramp(BufferedImage.TYPE_INT_RGB), format)).grey();
    assertThat(grey.width()).isEqualTo(96);
    assertThat(grey.height()).isEqualTo(64);
    assertThat(grey.at(50, 30)).isBetween(0.37f, 0.41f);
  }

  @Test
  void sixteenBitsKeepTheirSteps() throws Exception {
    BufferedImage image = new BufferedImage(64, 64, BufferedImage.TYPE_USHORT_GRAY);
    image.getRaster().setSample(3, 4, 0, 30001);
    image.getRaster().setSample(4, 4, 0, 30000);
    Grey grey = PictureReader.read(bytes(image, "png")).grey();
    assertThat((grey.at(3, 4) - grey.at(4, 4)) * 65535).isBetween(0.9f, 1.1f);
  }

  @Test
  void refusesWhatIsNoPictureInOneLine() throws Exception {
    refused(new byte[0], "empty");
    refused("link,fibre\nK001,1\n".getBytes(StandardCharsets.UTF_8), "text");
    refused("GIF89a......".getBytes(StandardCharsets.UTF_8), "GIF");
    byte[] png = bytes(ramp(BufferedImage.TYPE_INT_RGB), "png");
    refused(Arrays.copyOf(png, png.length / 2), "truncated");
    refused(bytes(new BufferedImage(8, 8, BufferedImage.TYPE_BYTE_GRAY), "png"), "64 by 64");
  }

  @Test
  void refusesAHugePictureFromItsHeaderAlone() throws Exception {
    byte[] png = bytes(ramp(BufferedImage.TYPE_INT_RGB), "png");
    png[16] = 0;
    png[17] = 1;
    png[21] = 1;
    java.util.zip.CRC32 crc = new java.util.zip.CRC32();
    crc.update(png, 12, 17);
    for (int i = 0; i < 4; i++) {
      png[29 + i] = (byte) (crc.getValue() >> (24 - 8 * i));
    }
    refused(png, "40 megapixels");
  }

  @Test
  void turnsAJpegAsItsExifEntryAsks() throws Exception {
    byte[] jpeg = bytes(ramp(BufferedImage.TYPE_INT_RGB), "jpg");
    byte[] exif = {
      (byte) 0xFF,
      (byte) 0xE1,
      0,
      34,
      'E',
      'x',
      'i',
      'f',
      0,
      0,
      'M',
      'M',
      0,
      42,
      0,
      0,
      0,
      8,
      0,
      1,
      0x01,
      0x12,
      0,
      3,
      0,
      0,
      0,
      1,
      0,
      6,
      0,
      0,
      0,
      0,
      0,
      0
    };
    byte[] both = new byte[jpeg.length + exif.length];
    System.arraycopy(jpeg, 0, both, 0, 2);
    System.arraycopy(exif, 0, both, 2, exif.length);
    System.arraycopy(jpeg, 2, both, 2 + exif.length, jpeg.length - 2);
    Grey grey = PictureReader.read(both).grey();
    assertThat(grey.width()).isEqualTo(64);
    assertThat(grey.height()).isEqualTo(96);
    // A quarter turn to the right: what grew to the right grows downwards.
    assertThat(grey.at(30, 90)).isGreaterThan(grey.at(30, 5) + 0.5f);
  }

  @ParameterizedTest
  @ValueSource(strings = {"png", "jpg", "bmp", "tiff"})
  void brokenBytesEndAsAPictureOrAsOneLine(String format) throws Exception {
    byte[] whole = bytes(ramp(BufferedImage.TYPE_INT_RGB), format);
    Random random = new Random(7);
    int refused = 0;
    for (int i = 0; i < 300; i++) {
      byte[] broken = whole.clone();
      for (int k = 0; k < 1 + random.nextInt(8); k++) {
        broken[random.nextInt(broken.length)] = (byte) random.nextInt();
      }
      if (random.nextInt(3) == 0) {
        broken = Arrays.copyOf(broken, random.nextInt(broken.length));
      }
      try {
        assertThat(PictureReader.read(broken).grey().width()).isGreaterThanOrEqualTo(64);
      } catch (PictureException e) {
        refused++;
        assertThat(e.getMessage()).startsWith("expected").doesNotContain("\n");
      }
    }
    assertThat(refused).isPositive();
  }

  private static void refused(byte[] bytes, String why) {
    assertThatThrownBy(() -> PictureReader.read(bytes))
        .isInstanceOf(PictureException.class)
        .hasMessageContaining(why);
  }
}
