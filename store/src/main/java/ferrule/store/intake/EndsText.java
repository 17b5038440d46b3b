package ferrule.store.intake;

import ferrule.core.isolation.EndId;
import ferrule.core.isolation.MatedPath;
import ferrule.core.isolation.Mating;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The ends mated on a path, as a crew writes them: {@code L1/2+R1/1} for cord L1's end 2 mated with
 * cord R1's end 1; with a cord between, {@code L1/2+X1/1; X1/2+R1/1}. Blanks do not matter. Or why
 * a text is none such.
 *
 * @param path what is mated; empty if the text is no path
 * @param expected what was expected, if it is none
 * @param action what to do, if it is none
 */
record EndsText(Optional<MatedPath> path, String expected, String action) {

  private static final String ONE_MATING = "two ends with + between, such as L1/2+R1/1";
  private static final int LONGEST_NAME = 200;

  private static EndsText fault(String expected, String action) {
    return new EndsText(Optional.empty(), expected, action);
  }

  static EndsText read(String text) {
    List<Mating> matings = new ArrayList<>();
    Set<EndId> seen = new HashSet<>();
    for (String part : text.split(";", -1)) {
      // A semicolon too many at the end is no fault.
      if (part.isBlank() && !matings.isEmpty()) {
        continue;
      }
      String[] sides = part.split("\\+", -1);
      if (sides.length != 2) {
        return fault(ONE_MATING, "write each mating so, with ; between two matings");
      }
      Optional<EndId> first = EndId.parse(sides[0]);
      Optional<EndId> second = EndId.parse(sides[1]);
      if (first.isEmpty() || second.isEmpty()) {
        return fault(ONE_MATING, "write each end as the cord's name, / and 1 or 2");
      }
      if (!isName(first.get().cord()) || !isName(second.get().cord())) {
        return fault(
            "names of at most " + LONGEST_NAME + " printable characters", "shorten or clean them");
      }
      if (first.get().cord().equals(second.get().cord())) {
        return fault("ends of two cords", "a cord cannot be mated with itself: correct one end");
      }
      if (!seen.add(first.get()) || !seen.add(second.get())) {
        return fault("each end once", "an end can be mated once on a path: correct one end");
      }
      matings.add(new Mating(first.get(), second.get()));
    }
    if (matings.size() > MatedPath.MOST_MATINGS) {
      return fault("at most " + MatedPath.MOST_MATINGS + " matings", "measure shorter paths");
    }
    Optional<MatedPath> path = MatedPath.joined(matings);
    return path.isPresent()
        ? new EndsText(path, "", "")
        : fault(
            "matings in the order of the light, each cord entered at one end and left at the other",
            "write them so: L1/2+X1/1; X1/2+R1/1");
  }

  private static boolean isName(String cord) {
    return cord.length() <= LONGEST_NAME && cord.chars().noneMatch(Character::isISOControl);
  }
}
