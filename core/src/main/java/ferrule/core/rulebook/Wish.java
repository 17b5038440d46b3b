package ferrule.core.rulebook;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreKind;
import ferrule.core.rulebook.Rulebook.EndKey;
import ferrule.core.rulebook.Rulebook.FibreKey;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Figures that an owner wishes in place of those of a rulebook, to be priced before they are
 * agreed: "no link over 2 dB".
 *
 * @param figures dB, or dB/km for {@link Item#KM}; above 0 and at most {@link Item#mostDb()}
 */
public record Wish(Map<Item, Double> figures) {

  /** Nothing wished. */
  public static final Wish NONE = new Wish(Map.of());

  private static final String SUPPOSED = "a figure supposed";

  /** What a figure limits. */
  public enum Item {
    /** A whole link, whatever its parts would allow. */
    LINK("link", "a whole link", "dB", 60),
    /** A connection inside the link. */
    CONNECTION("connection", "a connection inside the link", "dB", 10),
    /** An end connection, whatever the grade of the test cord. */
    END("end", "an end connection", "dB", 10),
    /** A splice. */
    SPLICE("splice", "a splice", "dB", 10),
    /** A kilometre of cabled fibre, at every wavelength. */
    KM("km", "a km of fibre", "dB/km", 20);

    private final String word;
    private final String shown;
    private final String unit;
    private final double mostDb;

    Item(String word, String shown, String unit, double mostDb) {
      this.word = word;
      this.shown = shown;
      this.unit = unit;
      this.mostDb = mostDb;
    }

    /** The word of a command or an address: "link". */
    public String word() {
      return word;
    }

    /** For a reader: "a whole link". */
    public String shown() {
      return shown;
    }

    /** "dB" or "dB/km". */
    public String unit() {
      return unit;
    }

    /** Figures above this are a slip of the hand, as in a rulebook's file. */
    public double mostDb() {
      return mostDb;
    }

    /** The item with this word, if there is one. */
    public static Optional<Item> ofWord(String word) {
      return Arrays.stream(values()).filter(i -> i.word.equals(word)).findFirst();
    }
  }

  /**
   * Copies the map.
   *
   * @throws IllegalArgumentException if a figure is not above 0 and at most what its item may have
   */
  public Wish {
    EnumMap<Item, Double> copy = new EnumMap<>(Item.class);
    figures.forEach(
        (item, db) -> {
          if (!(db > 0 && db <= item.mostDb())) {
            throw new IllegalArgumentException(item.word() + ": " + db);
          }
          copy.put(item, db);
        });
    figures = Collections.unmodifiableMap(copy);
  }

  /** Whether nothing is wished. */
  public boolean isEmpty() {
    return figures.isEmpty();
  }

  /** The same with one more figure, or another in its place. */
  public Wish with(Item item, double db) {
    Map<Item, Double> more = new HashMap<>(figures);
    more.put(item, db);
    return new Wish(more);
  }

  /** "2.00 dB for a whole link, 0.50 dB for a splice". */
  public String shown() {
    List<String> parts = new ArrayList<>();
    figures.forEach(
        (item, db) -> parts.add(Decibels.shown(db) + " " + item.unit() + " for " + item.shown()));
    return String.join(", ", parts);
  }

  /** The rulebook with the figures wished; the same rulebook if nothing is. */
  public Rulebook in(Rulebook agreed) {
    if (isEmpty()) {
      return agreed;
    }
    Map<FibreKey, Figure> fibre = new HashMap<>(agreed.fibre());
    figure(Item.KM).ifPresent(wished -> fibre.replaceAll((key, old) -> wished));
    Map<EndKey, Figure> end = new HashMap<>(agreed.end());
    figure(Item.END)
        .ifPresent(
            wished -> {
              for (FibreKind kind : FibreKind.values()) {
                for (CordGrade cord : CordGrade.values()) {
                  end.put(new EndKey(kind, cord), wished);
                }
              }
            });
    return new Rulebook(
        agreed.id() + ", but " + shown(),
        agreed.title() + ", but " + shown(),
        agreed.edition(),
        agreed.notes(),
        fibre,
        every(Item.CONNECTION, agreed.inner()),
        end,
        agreed.referencePair(),
        every(Item.SPLICE, agreed.splice()),
        agreed.device(),
        every(Item.LINK, agreed.link()),
        agreed.faces());
  }

  private Map<FibreKind, Figure> every(Item item, Map<FibreKind, Figure> agreed) {
    return figure(item)
        .map(
            wished -> {
              Map<FibreKind, Figure> all = new EnumMap<>(FibreKind.class);
              for (FibreKind kind : FibreKind.values()) {
                all.put(kind, wished);
              }
              return all;
            })
        .orElse(agreed);
  }

  private Optional<Figure> figure(Item item) {
    return Optional.ofNullable(figures.get(item))
        .map(
            db ->
                new Figure(
                    db, new Provenance(SUPPOSED, "", "", Confidence.OWNER, "the question asked")));
  }
}
