package ferrule.core.plan;

import ferrule.core.job.Job;
import ferrule.core.job.OtherPapers.Traces;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Link;
import ferrule.core.zero.Method;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * What to bring.
 *
 * @param cords sets of test cords, one line for each kind of zero
 * @param items everything else
 */
public record KitList(List<CordSets> cords, List<Item> items) {

  /**
   * Sets of test cords for one kind of zero.
   *
   * @param setup what they must fit
   * @param cordsInSet test cords in one set: 2, or 3 with a third cord
   * @param grade plugs that stand at the link: "reference"
   * @param links how many links they test
   * @param matings matings of each link-side plug in one direction
   * @param matingsIfSwapped the same if the cords change ends for a second direction
   * @param sets sets used up in the directions asked
   * @param spares spare sets: one for the crew, and one for every 500 duplex links (worked out, no
   *     standard)
   * @param onRecord cords on record that fit both ends or one
   */
  public record CordSets(
      ZeroSetup setup,
      int cordsInSet,
      String grade,
      int links,
      long matings,
      long matingsIfSwapped,
      Range sets,
      long spares,
      List<String> onRecord) {

    /** Copies the list. */
    public CordSets {
      onRecord = List.copyOf(onRecord);
    }
  }

  /**
   * One thing to bring.
   *
   * @param what it is
   * @param amount how many, in words
   * @param why what for
   */
  public record Item(String what, String amount, String why) {}

  /** Links of which one set tests so many before a further spare is packed. */
  private static final int LINKS_A_SPARE = 500;

  /** Copies the lists. */
  public KitList {
    cords = List.copyOf(cords);
    items = List.copyOf(items);
  }

  static KitList of(Job job, Map<ZeroSetup, List<Link>> bySetup, KitFit fit, FaceCount faces) {
    Method method = job.requirement().method();
    int passes = Choice.required(job.requirement()).passes();
    List<CordSets> cords = new ArrayList<>();
    bySetup.forEach((setup, links) -> cords.add(sets(setup, links, method, passes, fit)));
    return new KitList(cords, items(job, bySetup, faces.total(passes)));
  }

  private static CordSets sets(
      ZeroSetup setup, List<Link> links, Method method, int passes, KitFit fit) {
    long matings = 0;
    for (Link link : links) {
      matings += setup.holdsArray() ? FaceCount.rows(link) : (link.fibres() + 1) / 2;
    }
    long spares = 1 + matings / LINKS_A_SPARE;
    Range life = (setup.holdsArray() ? Practice.ARRAY_CORD_LIFE : Practice.CORD_LIFE).range();
    long asked = matings * passes;
    Set<String> onRecord = new LinkedHashSet<>();
    fit.fitting(setup, setup.first()).forEach(c -> onRecord.add(c.id()));
    fit.fitting(setup, setup.second()).forEach(c -> onRecord.add(c.id()));
    return new CordSets(
        setup,
        method == Method.THREE_CORD ? 3 : 2,
        "reference",
        links.size(),
        matings,
        matings * 2,
        new Range(
            Math.ceil(asked / life.high()),
            Math.ceil(asked / life.usual()),
            Math.ceil(asked / life.low())),
        spares,
        List.copyOf(onRecord));
  }

  private static List<Item> items(Job job, Map<ZeroSetup, List<Link>> bySetup, long faces) {
    List<Item> items = new ArrayList<>();
    Map<FibreKind, SortedSet<Wavelength>> wavelengths = new EnumMap<>(FibreKind.class);
    job.links()
        .forEach(
            l ->
                wavelengths
                    .computeIfAbsent(l.category().kind(), k -> new TreeSet<>())
                    .addAll(job.requirement().wavelengthsFor(l.category())));
    wavelengths.forEach(
        (kind, of) -> {
          String all = of.stream().map(Wavelength::toString).collect(Collectors.joining(", "));
          items.add(
              new Item(
                  kind.word() + " source and meter",
                  "1 of each",
                  of.isEmpty() ? "no required wavelength has a limit" : all));
          if (kind == FibreKind.MULTIMODE) {
            items.add(
                new Item(
                    "launch conditioning (encircled flux) for the multimode launch cord",
                    "1 for each launch cord",
                    "without it values differ by tens of per cent from source to source"));
          }
        });
    Set<String> plugs = new LinkedHashSet<>();
    boolean arrays = false;
    for (ZeroSetup setup : bySetup.keySet()) {
      plugs.add(ZeroSetup.shown(setup.first()));
      plugs.add(ZeroSetup.shown(setup.second()));
      arrays |= setup.holdsArray();
    }
    String tips = String.join(", ", plugs);
    items.add(
        new Item(
            "microscope with a screen",
            "1 for each technician, tips for " + tips,
            "200 times for multimode, 400 for single-mode cores (common practice, no source);"
                + " never look into a fibre that may be lit"));
    items.add(
        new Item(
            "adapters, ceramic sleeves",
            "1 for each cord set and kind of plug: " + tips,
            "to verify; a new one with each change of cords (common practice, no source)"));
    Range dirty = Practice.DIRTY_SHARE.range().times(faces);
    items.add(
        new Item(
            "dry cleaners for " + tips + (arrays ? ", array ones too" : ""),
            "for "
                + Math.round(dirty.low())
                + " to "
                + Math.round(dirty.high())
                + " cleanings, "
                + Math.round(dirty.usual())
                + " to plan with",
            "5 to 40 % of " + faces + " faces are dirty when found (common practice, no source)"));
    items.add(
        new Item(
            "wipes and cleaning fluid, wet to dry",
            "for what dry cleaning leaves; after three tries it is damage",
            "common practice, no source"));
    items.add(
        new Item(
            "visible light locator", "1", "to find which fibre is which; treat it as lit fibre"));
    boolean traces =
        job.requirement().papers().traces() == Traces.ALL
            || job.links().stream().anyMatch(Advice::traceIsOfUse);
    if (traces) {
      items.add(
          new Item(
              "time-domain reflectometer, launch and receive fibre",
              "1 set",
              "about 100 m of multimode, 1 km of single-mode, 100 to 150 m indoors"));
    }
    for (Cord cord : job.cords()) {
      cord.matings()
          .ifPresent(
              used ->
                  items.add(new Item("cord " + cord.id(), used + " matings so far", left(used))));
    }
    return items;
  }

  private static String left(int used) {
    long life = Math.round(Practice.CORD_LIFE.range().usual());
    return used >= life
        ? "past the usual " + life + ": replace it"
        : (life - used) + " left of the usual " + life;
  }
}
