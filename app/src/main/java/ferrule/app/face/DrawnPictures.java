package ferrule.app.face;

import ferrule.core.Problem;
import ferrule.core.face.Criteria;
import ferrule.core.face.GradedFace;
import ferrule.core.face.ShippedCriteria;
import ferrule.record.FacePictures;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The pictures of a job for its record, drawn on anew: a picture is looked at again and drawn only
 * if it comes to what the job holds. What cannot be had is remembered as a problem.
 */
public final class DrawnPictures implements FacePictures {

  /** Gives the bytes of a picture by their hash. */
  @FunctionalInterface
  public interface Source {
    /**
     * Reads them; empty if there are none of this hash.
     *
     * @throws IOException if they cannot be read or do not fit the hash
     */
    Optional<byte[]> bytes(String sha256) throws IOException;
  }

  private final Source source;
  private final PictureGrader grader = new PictureGrader();
  private final Map<String, Problem> problems = new LinkedHashMap<>();

  /**
   * @param source where the pictures come from
   */
  public DrawnPictures(Source source) {
    this.source = source;
  }

  /** Pictures that could not be had. */
  public List<Problem> problems() {
    return new ArrayList<>(problems.values());
  }

  @Override
  public Optional<byte[]> picture(String sha256) {
    String found = "none";
    try {
      Optional<byte[]> bytes = source.bytes(sha256);
      if (bytes.isPresent()) {
        return bytes;
      }
    } catch (IOException e) {
      found = String.valueOf(e.getMessage());
    }
    problems.put(
        sha256,
        new Problem(
            "",
            0,
            "picture " + sha256,
            "the picture that was graded",
            found,
            "the record goes without it; hand its table in again, or go back to a copy"));
    return Optional.empty();
  }

  @Override
  public Optional<byte[]> drawn(GradedFace face) {
    Optional<Criteria> criteria =
        ShippedCriteria.find(face.criteria()).filter(c -> c.of(face.faceClass()).isPresent());
    if (criteria.isEmpty()) {
      return Optional.empty();
    }
    FaceTerms terms =
        new FaceTerms(
            criteria.get(),
            face.faceClass(),
            OptionalDouble.empty(),
            FaceTakeIn.fibres(face.listed().subject()));
    List<byte[]> drawn = new ArrayList<>();
    picture(face.sha256())
        .ifPresent(
            bytes ->
                grader.grade(
                    bytes,
                    face.listed().picture(),
                    terms,
                    (picture, graded) -> {
                      if (graded.grade().outcome() == face.outcome()
                          && graded.grade().reasonTexts().equals(face.reasons())) {
                        drawn.add(Overlay.jpeg(picture.original(), graded, terms));
                      }
                    }));
    return drawn.stream().findFirst();
  }
}
