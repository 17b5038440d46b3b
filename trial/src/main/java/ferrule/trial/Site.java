package ferrule.trial;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.trial.TrueLink.TrueFibre;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** The cabling of one job: places, cables between them, and what each fibre really loses. */
final class Site {

  /** How the fibres of a link are handled when they are read. */
  enum Handling {
    /** Two fibres a link, one at a time. */
    DUPLEX,
    /** 12 or 24 fibres a link, one at a time. */
    SINGLE_OF_MANY,
    /** 12 or 24 fibres a link in one plug, read together. */
    ARRAY
  }

  final Handling handling;
  final List<TrueLink> links = new ArrayList<>();

  private final World world;
  private final Dice dice;
  private final Map<String, Integer> ports = new HashMap<>();
  private final Map<String, Double> panels = new HashMap<>();
  private final boolean lengthsVary;

  Site(World world, Dice dice) {
    this.world = world;
    this.dice = dice;
    handling =
        dice.chance(0.65)
            ? Handling.DUPLEX
            : dice.chance(0.5) ? Handling.SINGLE_OF_MANY : Handling.ARRAY;
    lengthsVary = dice.chance(0.6);
    int fibres = (int) Math.round(dice.logUniform(60, 400));
    double mix = dice.uniform(0, 1);
    double singleMode = mix < 0.45 ? 1 : mix < 0.75 ? 0 : dice.uniform(0.35, 0.65);
    int places = dice.whole(2, 10);
    int atA = dice.whole(1, Math.max(1, places / 2));
    FibreCategory multimode = dice.chance(0.5) ? FibreCategory.OM3 : FibreCategory.OM4;
    int wanted = (int) Math.round(fibres * singleMode);
    build(FibreCategory.OS2, wanted, atA, places - atA);
    build(multimode, fibres - wanted, atA, places - atA);
    links.sort(
        Comparator.comparing((TrueLink l) -> l.kind())
            .reversed()
            .thenComparing(l -> l.schedule().a().place())
            .thenComparing(l -> l.schedule().b().place())
            .thenComparing(TrueLink::id));
  }

  private void build(FibreCategory category, int fibres, int atA, int atB) {
    if (fibres < 8) {
      return;
    }
    int size = handling == Handling.DUPLEX ? 2 : dice.chance(0.7) ? 12 : 24;
    int left = Math.max(2, Math.round(fibres / (float) size));
    int pairs = Math.max(atA, atB);
    int each = Math.max(1, (int) Math.ceil(left / (double) pairs));
    for (int i = 0; left > 0; i++) {
      int a = i < atA ? i : dice.whole(0, atA - 1);
      int b = i < atB ? i : dice.whole(0, atB - 1);
      int count = Math.min(left, Math.max(1, (int) Math.round(each * dice.uniform(0.6, 1.4))));
      cable(category, size, count, "Frame " + (char) ('A' + a), "Room " + (b + 1));
      left -= count;
    }
  }

  private void cable(FibreCategory category, int size, int count, String a, String b) {
    FibreKind kind = category.kind();
    boolean singleMode = kind == FibreKind.SINGLE_MODE;
    double typical = dice.logUniform(20, singleMode ? 2000 : 400);
    double takeUp = dice.uniform(0, 0.01);
    int inner = dice.chance(0.5) ? 0 : dice.whole(1, 3);
    int splices = singleMode && dice.chance(0.5) ? dice.whole(1, 3) : 0;
    double[] batch =
        singleMode
            ? new double[] {dice.normal(0.34, 0.01), dice.normal(0.20, 0.01)}
            : new double[] {dice.normal(2.35, 0.07), dice.normal(0.55, 0.025)};
    double[] scatter = singleMode ? new double[] {0.004, 0.003} : new double[] {0.03, 0.015};
    Connector connector = connector(singleMode);
    for (int i = 0; i < count; i++) {
      double scheduled =
          Math.max(15, Math.rint(lengthsVary ? typical * dice.uniform(0.8, 1.2) : typical));
      Link schedule =
          new Link(
              String.format("K%03d", links.size() + 1),
              category,
              size,
              scheduled,
              new LinkEnd(a, port(a), connector),
              new LinkEnd(b, port(b), connector),
              inner,
              splices,
              List.of());
      double metres = scheduled * (1 + takeUp) + dice.uniform(-0.5, 0.5);
      List<TrueFibre> fibres = new ArrayList<>();
      for (int f = 0; f < size; f++) {
        double[] through = new double[2];
        for (int w = 0; w < 2; w++) {
          through[w] = metres / 1000 * dice.normal(batch[w], scatter[w]);
        }
        for (int c = 0; c < inner; c++) {
          add(through, world.innerDb(kind, dice));
        }
        for (int s = 0; s < splices; s++) {
          add(through, world.spliceDb(dice));
        }
        fibres.add(
            new TrueFibre(
                world.linkTip(kind, panel(a), dice),
                world.linkTip(kind, panel(b), dice),
                through,
                metres + dice.normal(0, 0.05)));
      }
      links.add(new TrueLink(schedule, fibres));
    }
  }

  private static void add(double[] sum, double[] more) {
    sum[0] += more[0];
    sum[1] += more[1];
  }

  private Connector connector(boolean singleMode) {
    if (handling == Handling.ARRAY) {
      return new Connector("MPO", singleMode ? Connector.Polish.APC : Connector.Polish.PC);
    }
    return new Connector("LC", singleMode ? Connector.Polish.UPC : Connector.Polish.PC);
  }

  /** No two panels are terminated quite alike. */
  private double panel(String place) {
    return panels.computeIfAbsent(place, k -> dice.normal(0, world.panelDb));
  }

  private String port(String place) {
    return Integer.toString(ports.merge(place, 1, Integer::sum));
  }

  List<TrueLink> of(FibreKind kind) {
    return links.stream().filter(l -> l.kind() == kind).toList();
  }
}
