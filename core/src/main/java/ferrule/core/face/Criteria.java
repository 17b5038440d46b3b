package ferrule.core.face;

import ferrule.core.rulebook.Figure;
import ferrule.core.rulebook.Provenance;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Criteria for end faces of one standard in one edition, as data.
 *
 * @param id short name: "iec-61300-3-35-2015"
 * @param title for a reader
 * @param edition of the standard: "2015"
 * @param notes what a reader must know before relying on it
 * @param smallest smallest flaw that a picture must be able to show, µm
 * @param arrayZones the zones that count where a ferrule holds a row of fibres
 * @param arraySource where that rule comes from
 * @param classes criteria by class
 */
public record Criteria(
    String id,
    String title,
    String edition,
    List<String> notes,
    Figure smallest,
    Set<Zone> arrayZones,
    Provenance arraySource,
    Map<FaceClass, ClassCriteria> classes) {

  /** Copies the collections. */
  public Criteria {
    notes = List.copyOf(notes);
    arrayZones = Set.copyOf(EnumSet.copyOf(arrayZones));
    classes = Map.copyOf(new EnumMap<>(classes));
  }

  /** The criteria of a class, if this edition has them. */
  public Optional<ClassCriteria> of(FaceClass faceClass) {
    return Optional.ofNullable(classes.get(faceClass));
  }
}
