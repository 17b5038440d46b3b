package ferrule.app.face;

import ferrule.core.face.Criteria;
import ferrule.core.face.FaceClass;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * By what a picture is graded.
 *
 * @param criteria one edition; has the class
 * @param faceClass which class
 * @param umPerPx calibrated scale, µm/px; empty where the cladding's diameter gives it
 * @param fibres how many fibres the ferrule has; empty where that is not known
 */
public record FaceTerms(
    Criteria criteria, FaceClass faceClass, OptionalDouble umPerPx, OptionalInt fibres) {}
