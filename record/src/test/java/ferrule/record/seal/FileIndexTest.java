package ferrule.record.seal;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FileIndexTest {

  /** SHA-256 of "abc": FIPS 180-4, and its examples. */
  private static final String ABC =
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

  private final Path temp;

  FileIndexTest(@TempDir Path temp) {
    this.temp = temp;
  }

  @Test
  void everyFileIsListedInTheOrderOfNames() throws Exception {
    Files.writeString(temp.resolve("b.txt"), "abc");
    Files.writeString(temp.resolve("B.txt"), "abc");
    Files.writeString(Files.createDirectory(temp.resolve("a")).resolve("c.txt"), "abc");
    FileIndex index = FileIndex.of(temp);
    assertThat(index.text()).isEqualTo(ABC + "  B.txt\n" + ABC + "  a/c.txt\n" + ABC + "  b.txt\n");
    assertThat(FileIndex.read(index.text())).isEqualTo(index);
    assertThat(index.without(List.of("b.txt", "none")).hashes())
        .containsOnlyKeys("B.txt", "a/c.txt");
  }

  @Test
  void aLinkIsNoFile() throws Exception {
    Files.createSymbolicLink(temp.resolve("link"), temp.resolve("elsewhere"));
    assertThat(FileIndex.of(temp).hashes()).containsEntry("link", FileIndex.NO_FILE);
  }

  @Test
  void whatIsNoLineOfAnIndexIsNotRead() {
    String good = ABC + "  b.txt\n";
    for (String bad :
        List.of(
            ABC.toUpperCase(java.util.Locale.ROOT) + "  b.txt\n",
            ABC + " b.txt\n",
            ABC.substring(1) + "  b.txt\n",
            good + "\n",
            good + good,
            good.strip())) {
      assertThat(FileIndex.read(bad).text()).as(bad).isNotEqualTo(bad);
    }
  }
}
