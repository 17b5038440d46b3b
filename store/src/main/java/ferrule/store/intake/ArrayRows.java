package ferrule.store.intake;

import ferrule.core.array.ArrayPart;
import ferrule.core.array.Keys;
import ferrule.core.array.MapType;
import ferrule.core.array.MeasuredPosition;
import ferrule.core.array.PartEnd;
import ferrule.core.array.PartEnd.Key;
import ferrule.core.array.PartEnd.Pins;
import ferrule.core.array.PartEnd.Polish;
import ferrule.core.array.PartKind;
import ferrule.core.array.PositionMap;
import ferrule.store.intake.TableRow.PartRow;
import ferrule.store.intake.TableRow.PolarityRow;
import java.util.Arrays;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Rows of parts and of polarity. Column numbers follow {@link TableKind#columns()}. */
final class ArrayRows {

  private static final String KINDS =
      Stream.of(PartKind.values()).map(PartKind::word).collect(Collectors.joining(", "));
  private static final Pattern STEP = Pattern.compile("(\\d{1,3})>(\\d{1,3})");
  private static final int LIST_END = ArrayPart.MOST_POSITIONS;

  private final Cells cells;

  ArrayRows(Cells cells) {
    this.cells = cells;
  }

  @Nullable TableRow part() {
    String link = cells.id(0);
    int order = cells.requiredWhole(1, 1, ArrayPart.MOST_ORDER);
    String part = cells.id(2);
    PartKind kind = PartKind.ofWord(cells.required(3)).orElse(null);
    if (kind == null && !cells.text(3).isEmpty()) {
      cells.unknownWord(3, "one of " + KINDS);
    }
    int positions = cells.requiredWhole(4, 2, ArrayPart.MOST_POSITIONS);
    if (positions > Keys.MOST_IN_A_ROW && positions % 2 != 0) {
      cells.unknownWord(4, "an even number, if more than " + Keys.MOST_IN_A_ROW + " in two rows");
    }
    String map = cells.required(5);
    boolean arrayAtA = kind != null && kind.arrayAtBothEnds();
    boolean arrayAtB = arrayAtA;
    if (kind != null && kind.arrayAtOneEnd()) {
      arrayAtA = arrayAtA(kind);
      arrayAtB = !arrayAtA;
    } else if (kind != null && !cells.text(6).isEmpty()) {
      cells.unknownWord(6, "nothing, but for a cassette or fan-out");
    }
    PartEnd a = end(7, arrayAtA, kind);
    PartEnd b = end(10, arrayAtB, kind);
    if (cells.bad() || kind == null) {
      return null;
    }
    PositionMap written =
        kind == PartKind.DUPLEX_CORD ? duplexMap(map, positions) : map(map, positions, kind);
    return written == null
        ? null
        : new PartRow(new ArrayPart(link, order, part, kind, written, a, b));
  }

  private boolean arrayAtA(PartKind kind) {
    String end = cells.text(6);
    if (!end.equalsIgnoreCase("a") && !end.equalsIgnoreCase("b")) {
      cells.problem(
          "array_at",
          "a or b: the end of the " + kind.word() + " that is an array",
          end.isEmpty() ? "nothing" : end,
          "fill it in");
    }
    return end.equalsIgnoreCase("a");
  }

  private PartEnd end(int column, boolean array, @Nullable PartKind kind) {
    Optional<Pins> pins = word(column, Pins.values(), Pins::word);
    Optional<Key> key = word(column + 1, Key.values(), Key::word);
    Optional<Polish> polish = word(column + 2, Polish.values(), Polish::word);
    if (!array && kind != null) {
      for (int i = column; i < column + 3; i++) {
        if (!cells.text(i).isEmpty()) {
          cells.unknownWord(i, "nothing, where the end is no array");
        }
      }
      return PartEnd.PORTS;
    }
    return new PartEnd(true, pins, key, polish);
  }

  private <T> Optional<T> word(int column, T[] values, Function<T, String> word) {
    String text = cells.text(column);
    Optional<T> found =
        Arrays.stream(values).filter(v -> word.apply(v).equalsIgnoreCase(text)).findFirst();
    if (found.isEmpty() && !text.isEmpty()) {
      cells.unknownWord(
          column, Arrays.stream(values).map(word).collect(Collectors.joining(" or ")));
    }
    return found;
  }

  private @Nullable PositionMap duplexMap(String text, int positions) {
    boolean crossed = text.equalsIgnoreCase(ArrayPart.DUPLEX_CROSSED);
    if (positions % 2 != 0 || (!crossed && !text.equalsIgnoreCase(ArrayPart.DUPLEX_STRAIGHT))) {
      cells.unknownWord(
          5,
          ArrayPart.DUPLEX_CROSSED
              + " or "
              + ArrayPart.DUPLEX_STRAIGHT
              + " of a duplex-cord with an even number of positions");
      return null;
    }
    return (crossed ? MapType.STRAIGHT : MapType.PAIR_FLIPPED).map(positions);
  }

  private @Nullable PositionMap map(String text, int positions, PartKind kind) {
    if (text.indexOf('>') >= 0) {
      return listed(text, positions);
    }
    MapType type = MapType.ofWord(text).orElse(null);
    boolean letter = text.length() == 1;
    if (type == null || (letter && !kind.arrayAtBothEnds())) {
      cells.unknownWord(
          5,
          (kind.arrayAtBothEnds() ? "A, B or C of a cable, " : "")
              + "straight, reversed, pair-flipped, universal, or every position as 1>12 2>11");
      return null;
    }
    if (!type.fits(positions) || (letter && positions > Keys.MOST_IN_A_ROW)) {
      cells.unknownWord(
          5,
          "every position as 1>12 2>11: " + text + " is not known for " + positions + " positions");
      return null;
    }
    return type.map(positions);
  }

  private @Nullable PositionMap listed(String text, int positions) {
    int[] to = new int[positions];
    for (String step : text.strip().split("[\\s;]+", LIST_END * 2)) {
      Matcher matcher = STEP.matcher(step);
      if (!matcher.matches()) {
        cells.unknownWord(5, "steps such as 1>12 with blanks between them");
        return null;
      }
      int from = Integer.parseInt(matcher.group(1));
      if (from < 1 || from > positions || to[from - 1] != 0) {
        cells.problem(
            "map",
            "each position from 1 to " + positions + " once",
            step,
            "correct the map or the positions");
        return null;
      }
      to[from - 1] = Integer.parseInt(matcher.group(2));
    }
    String fault = PositionMap.fault(to);
    if (!fault.isEmpty()) {
      cells.problem(
          "map",
          "each position from 1 to " + positions + " arrived at once",
          fault,
          "correct the map");
      return null;
    }
    return PositionMap.of(to);
  }

  TableRow position() {
    String link = cells.id(0);
    int position = cells.requiredWhole(1, 1, ArrayPart.MOST_POSITIONS);
    int arrivesAt = 0;
    if (cells.isEmpty(2)) {
      cells.problem(
          "arrives_at", "a position, or none if nothing came out", "nothing", "fill it in");
    } else if (!cells.text(2).equalsIgnoreCase("none")) {
      arrivesAt = cells.whole(2, 1, ArrayPart.MOST_POSITIONS, 0);
    }
    int after = cells.whole(3, 1, ArrayPart.MOST_ORDER, 0);
    return new PolarityRow(new MeasuredPosition(link, position, arrivesAt, after));
  }
}
