package ferrule.store.job;

import ferrule.core.array.ArrayPart;
import ferrule.core.array.MeasuredPosition;
import ferrule.core.array.PartEnd;
import ferrule.core.array.PartEnd.Key;
import ferrule.core.array.PartEnd.Pins;
import ferrule.core.array.PartEnd.Polish;
import ferrule.core.array.PartKind;
import ferrule.core.array.PositionMap;
import java.io.IOException;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Parts and measured positions of array links as values of an entry, and back. */
final class ArrayCodec {

  private static final Pattern BLANKS = Pattern.compile(" ");

  private ArrayCodec() {}

  /** Takes a text under a key; an empty one is left out. */
  @FunctionalInterface
  interface PutText {
    Object put(String key, String value) throws IOException;
  }

  /** Takes a whole number under a key. */
  @FunctionalInterface
  interface PutWhole {
    Object put(String key, long value) throws IOException;
  }

  static void encode(ArrayPart p, PutText text, PutWhole whole) throws IOException {
    text.put("link", p.link());
    whole.put("order", p.order());
    text.put("part", p.part());
    text.put("kind", p.kind().word());
    whole.put("positions", p.positions());
    text.put("map", p.written().toString());
    if (p.kind().arrayAtOneEnd()) {
      text.put("array_at", p.a().array() ? "a" : "b");
    }
    encode("a", p.a(), text);
    encode("b", p.b(), text);
  }

  private static void encode(String end, PartEnd e, PutText text) throws IOException {
    text.put(end + "_pins", e.pins().map(Pins::word).orElse(""));
    text.put(end + "_key", e.key().map(Key::word).orElse(""));
    text.put(end + "_polish", e.polish().map(Polish::word).orElse(""));
  }

  static void encode(MeasuredPosition m, PutText text, PutWhole whole) throws IOException {
    text.put("link", m.link());
    whole.put("position", m.position());
    whole.put("arrives_at", m.arrivesAt());
    whole.put("after", m.after());
  }

  static ArrayPart part(Function<String, String> text, ToIntFunction<String> whole) {
    PartKind kind = PartKind.ofWord(text.apply("kind")).orElseThrow();
    int[] to =
        BLANKS
            .splitAsStream(text.apply("map"))
            .mapToInt(step -> Integer.parseInt(step.substring(step.indexOf('>') + 1)))
            .toArray();
    if (to.length != whole.applyAsInt("positions") || to.length > ArrayPart.MOST_POSITIONS) {
      throw new DamagedEntryException("a map of " + to.length + " positions");
    }
    PositionMap map = PositionMap.of(to);
    boolean arrayAtA = kind.arrayAtBothEnds() || text.apply("array_at").equals("a");
    boolean arrayAtB = kind.arrayAtBothEnds() || text.apply("array_at").equals("b");
    return new ArrayPart(
        text.apply("link"),
        whole.applyAsInt("order"),
        text.apply("part"),
        kind,
        map,
        end("a", arrayAtA, text),
        end("b", arrayAtB, text));
  }

  private static PartEnd end(String end, boolean array, Function<String, String> text) {
    return array
        ? new PartEnd(
            true,
            word(Pins.values(), Pins::word, text.apply(end + "_pins")),
            word(Key.values(), Key::word, text.apply(end + "_key")),
            word(Polish.values(), Polish::word, text.apply(end + "_polish")))
        : PartEnd.PORTS;
  }

  private static <T> Optional<T> word(T[] values, Function<T, String> word, String text) {
    return Stream.of(values).filter(v -> word.apply(v).equals(text)).findFirst();
  }

  static MeasuredPosition position(Function<String, String> text, ToIntFunction<String> whole) {
    return new MeasuredPosition(
        text.apply("link"),
        whole.applyAsInt("position"),
        whole.applyAsInt("arrives_at"),
        whole.applyAsInt("after"));
  }
}
