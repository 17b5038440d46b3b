package ferrule.core.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.allowance.AllowanceRecipe;
import ferrule.core.allowance.TestPlugs;
import ferrule.core.checks.CheckFile;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.RulebookReader;
import ferrule.core.zero.Method;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Paths from the head, and trees that are none. */
class FeedTreeTest {

  private static final Connector SC = Connector.parse("SC-APC").orElseThrow();

  private static Link link(String id, String fedBy) {
    return link(id, FibreCategory.OS2, 100, 0, List.of(), fedBy);
  }

  private static Link link(
      String id,
      FibreCategory category,
      double lengthM,
      int splices,
      List<String> devices,
      String fedBy) {
    return new Link(
        id,
        category,
        1,
        lengthM,
        new LinkEnd("", id + ":in", SC),
        new LinkEnd("", id + ":out", SC),
        0,
        splices,
        devices,
        fedBy);
  }

  @Test
  void theAllowanceOfALegIsThatOfItsWholePathAsWorkedByHand() {
    StringBuilder rulebook =
        new StringBuilder("id = \"hand\"\ntitle = \"Hand\"\nedition = \"1\"\nnotes = []\n");
    figure(rulebook, "fibre", "category = \"OS2\"\nwavelength_nm = 1310\nlimit_db_per_km = 0.4");
    figure(rulebook, "connection", "fibre = \"single-mode\"\nplace = \"inner\"\nlimit_db = 0.7");
    figure(
        rulebook,
        "connection",
        "fibre = \"single-mode\"\nplace = \"end\"\ncord = \"reference\"\nlimit_db = 0.7");
    figure(rulebook, "splice", "fibre = \"single-mode\"\nlimit_db = 0.2");
    figure(rulebook, "device", "device = \"splitter-1x4\"\nlimit_db = 6.02");
    figure(rulebook, "device", "device = \"splitter-1x8\"\nlimit_db = 9.03");
    figure(rulebook, "device", "device = \"splitter-1x2\"\nlimit_db = 3.01");
    AllowanceRecipe recipe =
        new AllowanceRecipe(
            RulebookReader.read("hand.toml", rulebook.toString()).rulebook().orElseThrow(),
            FibreCategory.OS2,
            new Wavelength(1310),
            Method.ONE_CORD,
            TestPlugs.REFERENCE);
    List<Link> links = new ArrayList<>();
    var rows = CheckFile.table("/checks/tree-example.csv");
    for (var row : rows) {
      links.add(
          link(
              row.getField("link"),
              FibreCategory.OS2,
              Double.parseDouble(row.getField("length_m")),
              Integer.parseInt(row.getField("splices")),
              List.of(row.getField("devices")),
              row.getField("fed_by")));
    }
    List<Link> paths = FeedTree.paths(links);
    for (int i = 0; i < rows.size(); i++) {
      assertThat(recipe.of(paths.get(i)).limitDb())
          .isCloseTo(Double.parseDouble(rows.get(i).getField("path_db")), within(1e-9));
    }
    assertThat(paths.get(2).a()).isEqualTo(links.get(0).a());
    assertThat(paths.get(2).b()).isEqualTo(links.get(2).b());
    assertThat(paths.get(2).fedBy()).isEqualTo("S");
  }

  private static void figure(StringBuilder rulebook, String kind, String body) {
    rulebook
        .append("\n[[")
        .append(kind)
        .append("]]\n")
        .append(body)
        .append("\nstandard = \"Hand\"\nconfidence = \"owner\"\nseen_in = \"by hand\"\n");
  }

  @Test
  void linksThatNobodyFeedsStayAsTheyAre() {
    List<Link> links = List.of(link("A", ""), link("B", ""));
    assertThat(FeedTree.paths(links)).isEqualTo(links);
    assertThat(FeedTree.faults(links)).isEmpty();
  }

  @Test
  void aLoopAnUnknownFeederAndMixedFibreAreToldOnceWithAllThatHangsBelow() {
    List<Link> links =
        List.of(
            link("A", "B"),
            link("B", "C"),
            link("C", "A"),
            link("A1", "A"),
            link("U", "nobody"),
            link("U1", "U"),
            link("G", ""),
            link("G1", "G"),
            link("M", FibreCategory.OS1A, 10, 0, List.of(), "G"),
            link("Self", "Self"));
    List<FeedTree.Fault> faults = FeedTree.faults(links);
    assertThat(faults).extracting(FeedTree.Fault::link).containsExactly("A", "U", "M", "Self");
    assertThat(faults.get(0).found()).isEqualTo("a loop: A fed by B fed by C fed by A");
    assertThat(faults.get(0).reach()).containsExactlyInAnyOrder("A", "B", "C", "A1");
    assertThat(faults.get(1).found()).isEqualTo("nobody");
    assertThat(faults.get(1).reach()).containsExactly("U", "U1");
    List<Link> paths = FeedTree.paths(links);
    assertThat(paths.get(3)).isEqualTo(links.get(3));
    assertThat(paths.get(7).lengthM()).isEqualTo(200);
  }

  @Test
  void aHundredThousandLinksInOneTreeOneChainOrOneLoopAreNoTrouble() {
    int many = 100_000;
    List<Link> wide = new ArrayList<>(List.of(link("H", "")));
    List<Link> chain = new ArrayList<>(List.of(link("0", "")));
    List<Link> loop = new ArrayList<>();
    for (int i = 1; i < many; i++) {
      wide.add(link("L" + i, "H"));
      chain.add(link("" + i, "" + (i - 1)));
      loop.add(link("" + i, "" + (i % (many - 1) + 1)));
    }
    Collections.reverse(chain);
    assertThat(FeedTree.faults(wide)).isEmpty();
    assertThat(FeedTree.paths(wide)).hasSize(many);
    assertThat(FeedTree.faults(chain))
        .singleElement()
        .satisfies(f -> assertThat(f.reach()).hasSize(many - FeedTree.DEEPEST));
    assertThat(FeedTree.faults(loop))
        .singleElement()
        .satisfies(f -> assertThat(f.found()).hasSizeLessThan(200));
  }
}
