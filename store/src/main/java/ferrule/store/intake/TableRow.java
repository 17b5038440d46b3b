package ferrule.store.intake;

import ferrule.core.array.ArrayPart;
import ferrule.core.array.MeasuredPosition;
import ferrule.core.face.FacePicture;
import ferrule.core.face.GradedFace;
import ferrule.core.isolation.PathReading;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.ZeroLevel;

/** One understood row of a table. */
public sealed interface TableRow {

  /** A row of links. */
  record LinkRow(Link link) implements TableRow {}

  /** A row of instruments. */
  record InstrumentRow(Instrument instrument) implements TableRow {}

  /** A row of cords. */
  record CordRow(Cord cord) implements TableRow {}

  /**
   * A row of references: one level of a zero.
   *
   * @param reference id of the zero
   * @param method as the row gives it; the rows of one zero must agree
   * @param level the level
   */
  record ReferenceRow(String reference, Method method, ZeroLevel level) implements TableRow {}

  /** A row of readings. */
  record ReadingRow(Reading reading) implements TableRow {}

  /** A row of faces. */
  record FaceRow(FacePicture face) implements TableRow {}

  /** A picture of faces with its grade: no row of a table, but told apart and kept like one. */
  record GradeRow(GradedFace grade) implements TableRow {}

  /** A row of parts. */
  record PartRow(ArrayPart part) implements TableRow {}

  /** A row of polarity. */
  record PolarityRow(MeasuredPosition position) implements TableRow {}

  /** A row of matings. */
  record MatingRow(PathReading reading) implements TableRow {}

  /**
   * The name under which at most one row of a kind may stand; empty for readings, faces and grades,
   * of which there may be many alike, and for matings without a time.
   */
  default String key() {
    if (this instanceof LinkRow row) {
      return row.link().id();
    }
    if (this instanceof InstrumentRow row) {
      return row.instrument().id();
    }
    if (this instanceof CordRow row) {
      return row.cord().id();
    }
    if (this instanceof ReferenceRow row) {
      return row.reference()
          + " "
          + row.level().direction().word()
          + " "
          + row.level().wavelength().nm();
    }
    if (this instanceof PartRow row) {
      return row.part().link() + " " + row.part().order();
    }
    if (this instanceof PolarityRow row) {
      MeasuredPosition measured = row.position();
      return measured.link() + " " + measured.position() + " " + measured.after();
    }
    if (this instanceof MatingRow row && row.reading().measuredAt().isPresent()) {
      PathReading reading = row.reading();
      return reading.path()
          + " "
          + reading.wavelength().map(Object::toString).orElse("")
          + " "
          + reading.measuredAt().get();
    }
    return "";
  }
}
