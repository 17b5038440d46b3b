package ferrule.core.face;

import java.time.Instant;
import java.util.Optional;

/**
 * A picture of an end face, as listed by the crew.
 *
 * @param picture file name
 * @param subject what it shows: "port:PORT/FIBRE" or "cord:CORD/END"
 * @param stage "found", "cleaned", or empty
 * @param faceClass "sm-pc", "sm-apc", "sm-pc26", "mm", or empty
 * @param takenAt when, if on record
 * @param operator who; empty if not on record
 */
public record FacePicture(
    String picture,
    String subject,
    String stage,
    String faceClass,
    Optional<Instant> takenAt,
    String operator) {}
