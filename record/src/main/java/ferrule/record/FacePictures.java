package ferrule.record;

import ferrule.core.face.GradedFace;
import java.util.Optional;

/** Where a record gets the pictures of end faces from, and what is drawn on them. */
public interface FacePictures {

  /** No pictures at hand. */
  FacePictures NONE =
      new FacePictures() {
        @Override
        public Optional<byte[]> picture(String sha256) {
          return Optional.empty();
        }

        @Override
        public Optional<byte[]> drawn(GradedFace face) {
          return Optional.empty();
        }
      };

  /** The bytes of a picture by their hash; empty if they are not at hand. */
  Optional<byte[]> picture(String sha256);

  /**
   * The picture of a face with its zones and flaws drawn on it, as a JPEG file; empty if it is not
   * at hand or cannot be drawn as it was graded.
   */
  Optional<byte[]> drawn(GradedFace face);
}
