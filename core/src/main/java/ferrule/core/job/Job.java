package ferrule.core.job;

import ferrule.core.array.ArrayPart;
import ferrule.core.array.MeasuredPosition;
import ferrule.core.face.FacePicture;
import ferrule.core.face.GradedFace;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import java.util.List;

/**
 * Everything about one site to be tested, as it now stands. Ids are unique within each list.
 *
 * @param requirement what must be met
 * @param links in the order of the schedule
 * @param instruments on record
 * @param cords on record
 * @param zeros on record
 * @param readings every attempt; of one fibre, direction, wavelength and time in the order handed
 *     in
 * @param faces pictures listed, every attempt
 * @param graded the grades of those that were examined; of one picture the last counts
 * @param parts what array links are made of
 * @param positions measured positions of array links
 * @param conflicts facts that two crews entered differently and nobody has settled
 */
public record Job(
    Requirement requirement,
    List<Link> links,
    List<Instrument> instruments,
    List<Cord> cords,
    List<Zero> zeros,
    List<Reading> readings,
    List<FacePicture> faces,
    List<GradedFace> graded,
    List<ArrayPart> parts,
    List<MeasuredPosition> positions,
    List<Conflict> conflicts) {

  /** Copies the lists. */
  public Job {
    links = List.copyOf(links);
    instruments = List.copyOf(instruments);
    cords = List.copyOf(cords);
    zeros = List.copyOf(zeros);
    readings = List.copyOf(readings);
    faces = List.copyOf(faces);
    graded = List.copyOf(graded);
    parts = List.copyOf(parts);
    positions = List.copyOf(positions);
    conflicts = List.copyOf(conflicts);
  }

  /** A job in which nothing was entered differently. */
  public Job(
      Requirement requirement,
      List<Link> links,
      List<Instrument> instruments,
      List<Cord> cords,
      List<Zero> zeros,
      List<Reading> readings,
      List<FacePicture> faces,
      List<GradedFace> graded,
      List<ArrayPart> parts,
      List<MeasuredPosition> positions) {
    this(
        requirement,
        links,
        instruments,
        cords,
        zeros,
        readings,
        faces,
        graded,
        parts,
        positions,
        List.of());
  }

  /** A job without array links. */
  public Job(
      Requirement requirement,
      List<Link> links,
      List<Instrument> instruments,
      List<Cord> cords,
      List<Zero> zeros,
      List<Reading> readings,
      List<FacePicture> faces,
      List<GradedFace> graded) {
    this(
        requirement,
        links,
        instruments,
        cords,
        zeros,
        readings,
        faces,
        graded,
        List.of(),
        List.of());
  }

  /** A job of which no picture was examined. */
  public Job(
      Requirement requirement,
      List<Link> links,
      List<Instrument> instruments,
      List<Cord> cords,
      List<Zero> zeros,
      List<Reading> readings,
      List<FacePicture> faces) {
    this(requirement, links, instruments, cords, zeros, readings, faces, List.of());
  }

  /** Number of scheduled fibres. */
  public int fibreCount() {
    int count = 0;
    for (Link link : links) {
      count += link.fibres();
    }
    return count;
  }

  /** The same job under another requirement. */
  public Job under(Requirement other) {
    return new Job(
        other,
        links,
        instruments,
        cords,
        zeros,
        readings,
        faces,
        graded,
        parts,
        positions,
        conflicts);
  }

  /** The same job with facts that were entered differently. */
  public Job with(List<Conflict> found) {
    return new Job(
        requirement,
        links,
        instruments,
        cords,
        zeros,
        readings,
        faces,
        graded,
        parts,
        positions,
        found);
  }
}
