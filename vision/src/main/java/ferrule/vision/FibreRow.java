package ferrule.vision;

import java.util.List;
import java.util.Optional;

/**
 * Claddings that stand in one row or several, at one pitch.
 *
 * @param columns places in each row
 * @param places each place from left to right, the uppermost row first (of rows that run down the
 *     picture from top to bottom, the leftmost first); empty where no cladding was found
 * @param cut whether the picture's edge cuts a fibre of it
 * @param endsSeen whether the picture shows that no fibre stands beyond either end
 */
record FibreRow(
    int columns, List<Optional<CladdingFinder.Found>> places, boolean cut, boolean endsSeen) {

  FibreRow {
    places = List.copyOf(places);
  }

  int rows() {
    return places.size() / columns;
  }

  int found() {
    return (int) places.stream().filter(Optional::isPresent).count();
  }

  /** Whether each row looks the same from either end: four fibres, four empty places, four. */
  boolean isMirrored() {
    for (int i = 0; i < places.size(); i++) {
      int mirrored = i - i % columns + columns - 1 - i % columns;
      if (places.get(i).isPresent() != places.get(mirrored).isPresent()) {
        return false;
      }
    }
    return true;
  }
}
