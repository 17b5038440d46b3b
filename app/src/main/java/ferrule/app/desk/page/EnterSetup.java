package ferrule.app.desk.page;

import ferrule.core.entry.TypedNumber;
import ferrule.core.job.Job;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

/**
 * What stays the same while readings are typed: where, which way, under which zero, what the meter
 * shows, who.
 *
 * @param place a place of the schedule; empty for the whole schedule
 * @param direction where the source stands
 * @param zero id of the zero in force; empty if none can be
 * @param kind whether the meter shows a level or a loss
 * @param operator who reads; may be empty while it is being chosen
 * @param begun whether it was chosen, not only proposed
 * @param refused what could not be understood and was left out, each in a sentence
 */
public record EnterSetup(
    String place,
    Direction direction,
    String zero,
    TypedNumber.Kind kind,
    String operator,
    boolean begun,
    List<String> refused) {

  /** Longest name of an operator, characters. */
  public static final int LONGEST_NAME = 200;

  /** Copies the list. */
  public EnterSetup {
    refused = List.copyOf(refused);
  }

  /**
   * Reads a setup from an address or a form. What is not understood is left out and said; then
   * nothing can be typed yet.
   *
   * @param field the value of a field; empty if absent
   * @param job what there is to choose from
   * @param places known places
   */
  public static EnterSetup read(Function<String, String> field, Job job, List<String> places) {
    List<String> refused = new ArrayList<>();
    String place = field.apply("place");
    if (!place.isEmpty() && !places.contains(place)) {
      refused.add("No link of this job ends at “" + LinkFilter.shortened(place) + "”.");
      place = "";
    }
    String way = field.apply("direction").strip();
    Optional<Direction> direction = Direction.ofWord(way);
    if (direction.isEmpty() && !way.isEmpty()) {
      refused.add("“" + LinkFilter.shortened(way) + "” is no direction: A-B or B-A.");
    }
    String shows = field.apply("shows").strip();
    if (!shows.isEmpty() && !shows.equals("level") && !shows.equals("loss")) {
      refused.add("“" + LinkFilter.shortened(shows) + "” is neither level nor loss.");
    }
    String operator = field.apply("operator").strip();
    if (operator.length() > LONGEST_NAME || operator.chars().anyMatch(Character::isISOControl)) {
      refused.add("A name has at most " + LONGEST_NAME + " printable characters; type it again.");
      operator = "";
    }
    boolean begun = direction.isPresent();
    if (begun && operator.isEmpty()) {
      refused.add("Type who takes the readings: a reading without a name cannot be asked about.");
    }
    Direction chosen = direction.orElse(Direction.A_TO_B);
    String zero = field.apply("zero");
    List<Zero> able = able(job, chosen);
    if (!zero.isEmpty() && able.stream().noneMatch(z -> z.id().equals(zero))) {
      refused.add(
          "“"
              + LinkFilter.shortened(zero)
              + "” is no zero of this job with a level "
              + chosen.word()
              + ".");
    }
    String inForce =
        able.stream()
            .map(Zero::id)
            .filter(id -> id.equals(zero))
            .findFirst()
            .orElse(able.isEmpty() ? "" : able.get(0).id());
    return new EnterSetup(
        place,
        chosen,
        inForce,
        shows.equals("loss") ? TypedNumber.Kind.LOSS : TypedNumber.Kind.LEVEL,
        operator,
        begun && refused.isEmpty() && !inForce.isEmpty(),
        refused);
  }

  /** The zeros that hold a level for a direction, the one set last first. */
  public static List<Zero> able(Job job, Direction direction) {
    return job.zeros().stream()
        .filter(z -> z.levels().stream().anyMatch(l -> l.direction() == direction))
        .sorted(Comparator.comparing((Zero z) -> lastSet(z)).reversed())
        .toList();
  }

  private static java.time.Instant lastSet(Zero zero) {
    return zero.levels().stream()
        .map(ZeroLevel::setAt)
        .max(Comparator.naturalOrder())
        .orElseThrow();
  }

  /** The level of the zero in force, dBm. */
  public OptionalDouble levelDbm(Job job, Wavelength wavelength) {
    return job.zeros().stream()
        .filter(z -> z.id().equals(zero))
        .flatMap(z -> z.level(direction, wavelength).stream())
        .mapToDouble(l -> l.power().value())
        .findFirst();
  }

  /** "level" or "loss". */
  public String shows() {
    return kind == TypedNumber.Kind.LOSS ? "loss" : "level";
  }

  /** "the whole schedule" or the place. */
  public String placeInWords() {
    return place.isEmpty() ? "the whole schedule" : place;
  }

  /** The address of the page with this setup; more may be added with {@code &}. */
  public String address() {
    return "/enter?place="
        + Urls.encoded(place)
        + "&direction="
        + direction.word()
        + "&zero="
        + Urls.encoded(zero)
        + "&shows="
        + shows()
        + "&operator="
        + Urls.encoded(operator);
  }
}
