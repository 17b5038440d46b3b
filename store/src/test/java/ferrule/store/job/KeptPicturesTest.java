package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ferrule.store.Fixtures;
import ferrule.store.intake.Sha256;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Pictures are kept by the hash of their bytes. */
class KeptPicturesTest {

  private static final byte[] BYTES = "invented bytes".getBytes(StandardCharsets.UTF_8);
  private static final String HASH = Sha256.of(BYTES);

  @TempDir private Path temp = Path.of("");
  private Path path = Path.of("");

  @BeforeEach
  void makeAJobFile() throws JobFileException {
    path = temp.resolve("site.ferrule");
    JobFiles.create(path, Fixtures.path("folders/mill"));
  }

  private static Batch with(KeptPicture.Source source) {
    return new Batch(
        Optional.empty(),
        List.of(),
        List.of(),
        List.of(new KeptPicture(HASH, "faces/a.png", source)),
        List.of());
  }

  private Optional<byte[]> picture(String hash) throws JobFileException {
    try (JobFile file = JobFiles.open(path)) {
      return file.picture(hash);
    }
  }

  @Test
  void aPictureComesBackByItsHashAndIsKeptOnce() throws JobFileException, SQLException {
    JobFiles.add(path, with(() -> BYTES));
    JobFiles.add(
        path,
        with(
            () -> {
              throw new IOException("not asked for again");
            }));
    assertThat(picture(HASH)).hasValueSatisfying(kept -> assertThat(kept).isEqualTo(BYTES));
    assertThat(picture("0".repeat(64))).isEmpty();
    assertThat(JobFiles.query(path, "SELECT count(*) FROM picture")).containsExactly("1");
  }

  @Test
  void aPictureThatChangedSinceItWasGradedStopsTheWholeBatch()
      throws JobFileException, SQLException {
    assertThatThrownBy(() -> JobFiles.add(path, with(() -> new byte[] {1})))
        .isInstanceOf(JobFileException.class)
        .hasMessageContaining("faces/a.png")
        .hasMessageContaining("the picture that was graded");
    assertThat(JobFiles.query(path, "SELECT count(*) FROM picture")).containsExactly("0");
  }

  @Test
  void otherBytesUnderAHashAreReported() throws JobFileException, SQLException {
    JobFiles.add(path, with(() -> BYTES));
    JobFiles.sql(path, "DROP TRIGGER picture_is_never_edited", "UPDATE picture SET bytes = x'00'");
    assertThatThrownBy(() -> picture(HASH))
        .isInstanceOf(JobFileException.class)
        .hasMessageContaining("a picture whose hash does not fit: " + HASH);
  }

  @Test
  void picturesAreNeitherEditedNorRemoved() throws JobFileException {
    JobFiles.add(path, with(() -> BYTES));
    assertThatThrownBy(() -> JobFiles.sql(path, "UPDATE picture SET bytes = x'00'"))
        .isInstanceOf(SQLException.class);
    assertThatThrownBy(() -> JobFiles.sql(path, "DELETE FROM picture"))
        .isInstanceOf(SQLException.class);
  }
}
