package ferrule.record.page;

import ferrule.core.face.FaceOutcome;
import ferrule.core.face.GradedFace;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * A face that the pages show: rejected, unreadable, or close to a limit.
 *
 * @param face its grade
 * @param image the picture as drawn, as a data URI; empty if there is none
 */
public record FaceEntry(GradedFace face, String image) {

  /** More are not shown on paper; faces.jsonl has all. */
  public static final int MOST = 24;

  /** The faces to be looked at, the worst first. */
  public static List<FaceEntry> of(
      List<GradedFace> graded, Function<GradedFace, Optional<byte[]>> drawn) {
    List<FaceEntry> entries = new ArrayList<>();
    for (GradedFace face : worst(graded)) {
      if (entries.size() == MOST) {
        break;
      }
      String image =
          drawn
              .apply(face)
              .map(jpeg -> "data:image/jpeg;base64," + Base64.getEncoder().encodeToString(jpeg))
              .orElse("");
      entries.add(new FaceEntry(face, image));
    }
    return entries;
  }

  /** Every face that is not plainly in order, the worst first, else in the order handed in. */
  static List<GradedFace> worst(List<GradedFace> graded) {
    return graded.stream()
        .filter(face -> face.outcome() != FaceOutcome.CONFORMS || face.close())
        .sorted(Comparator.comparingInt(FaceEntry::rank))
        .toList();
  }

  private static int rank(GradedFace face) {
    return switch (face.outcome()) {
      case REJECTED -> 0;
      case UNREADABLE -> 1;
      case CONFORMS -> 2;
    };
  }

  /** "port:C:01/1, cleaned, 2026-10-05 08:10: rejected". */
  public String headline() {
    return face.listed().subject()
        + (face.listed().stage().isEmpty() ? "" : ", " + face.listed().stage())
        + face.listed().takenAt().map(t -> ", " + Show.time(t) + " UTC").orElse("")
        + ": "
        + face.outcome().word()
        + (face.close() ? ", close" : "");
  }
}
