package ferrule.core.face;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import ferrule.core.checks.CheckFile;
import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Connector;
import ferrule.core.rulebook.Confidence;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The shipped criteria against every row collected, with their sources. */
class ShippedCriteriaTest {

  /** One row of the file. */
  record Row(
      String id,
      String edition,
      FaceClass faceClass,
      Zone zone,
      double outerUm,
      FlawKind kind,
      SizeRange sizes,
      OptionalInt most,
      String table,
      Confidence confidence,
      String source) {

    static Row of(NamedCsvRecord r) {
      String sizes = r.getField("sizes_um");
      String[] ends = sizes.substring(1, sizes.length() - 1).split(" ", -1);
      String most = r.getField("most");
      return new Row(
          r.getField("id"),
          r.getField("edition"),
          FaceClass.ofId(r.getField("class")).orElseThrow(),
          Zone.valueOf(r.getField("zone")),
          Double.parseDouble(r.getField("outer_um")),
          FlawKind.ofWord(r.getField("flaw")).orElseThrow(),
          new SizeRange(
              Double.parseDouble(ends[0]),
              sizes.startsWith("["),
              ends[1].equals("inf") ? Double.POSITIVE_INFINITY : Double.parseDouble(ends[1]),
              sizes.endsWith("]")),
          most.equals("unlimited") ? OptionalInt.empty() : OptionalInt.of(Integer.parseInt(most)),
          r.getField("table"),
          Confidence.ofId(r.getField("confidence")).orElseThrow(),
          r.getField("source"));
    }

    @Override
    public String toString() {
      return confidence.id() + ": " + id + ", " + edition + " " + faceClass.id() + " " + zone;
    }
  }

  static List<Row> rows() {
    return CheckFile.table("/checks/face-criteria.csv").stream().map(Row::of).toList();
  }

  private static ClassCriteria criteria(Row row) {
    return ShippedCriteria.find(row.edition()).orElseThrow().of(row.faceClass()).orElseThrow();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("rows")
  void eachRowIsShippedWithItsSource(Row row) {
    ClassCriteria criteria = criteria(row);
    CountLimit limit =
        criteria.limits(row.zone(), row.kind()).stream()
            .filter(l -> l.sizes().equals(row.sizes()))
            .findFirst()
            .orElseThrow();
    assertThat(limit.most()).isEqualTo(row.most());
    assertThat(limit.provenance().edition()).isEqualTo(row.edition());
    assertThat(limit.provenance().clause()).isEqualTo(row.table());
    assertThat(limit.provenance().confidence()).isEqualTo(row.confidence());
    assertThat(limit.provenance().seenIn()).isEqualTo(row.source());
    assertThat(criteria.zones().stream().filter(z -> z.zone() == row.zone()))
        .singleElement()
        .satisfies(
            band -> {
              assertThat(band.outer().value()).isEqualTo(row.outerUm());
              assertThat(band.outer().provenance().fromMemory())
                  .isEqualTo(wholeZoneFromMemory(row));
            });
  }

  private static boolean wholeZoneFromMemory(Row row) {
    return rows().stream()
        .filter(
            r ->
                r.edition().equals(row.edition())
                    && r.faceClass() == row.faceClass()
                    && r.zone() == row.zone())
        .allMatch(r -> r.confidence() == Confidence.MEMORY);
  }

  @Test
  void nothingIsShippedThatWasNotCollected() {
    int shipped = 0;
    for (String id : ShippedCriteria.ids()) {
      for (ClassCriteria one : ShippedCriteria.find(id).orElseThrow().classes().values()) {
        shipped += one.limits().size();
      }
    }
    assertThat(rows()).hasSize(shipped);
    Set<String> ids = new HashSet<>();
    assertThat(rows()).allMatch(row -> ids.add(row.id()));
  }

  @Test
  void everyEditionHasEveryClass() {
    for (String id : ShippedCriteria.ids()) {
      assertThat(ShippedCriteria.find(id).orElseThrow().classes())
          .containsOnlyKeys(FaceClass.values());
    }
  }

  @Test
  void the2009EditionIsFromMemoryAndSaysSo() {
    Criteria criteria = ShippedCriteria.find("2009").orElseThrow();
    assertThat(criteria.notes()).anyMatch(note -> note.contains("from memory"));
    assertThat(criteria.classes().values())
        .allSatisfy(
            one -> {
              assertThat(one.limits())
                  .allMatch(
                      l ->
                          l.provenance()
                              .line()
                              .endsWith("(from memory: confirm against the standard)"));
              assertThat(one.zones()).allMatch(z -> z.outer().provenance().fromMemory());
            });
  }

  @Test
  void noOtherEditionIsShipped() {
    assertThat(ShippedCriteria.ids()).containsExactly("iec-61300-3-35-2009", "iec-61300-3-35-2015");
    assertThat(ShippedCriteria.find("2022")).isEmpty();
    assertThat(ShippedCriteria.find("iec-61300-3-35-2022")).isEmpty();
    assertThat(ShippedCriteria.find("5")).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "SINGLE_MODE, LC-UPC, sm-pc",
    "SINGLE_MODE, SC-PC, sm-pc",
    "SINGLE_MODE, SC-APC, sm-apc",
    "MULTIMODE, LC-PC, mm"
  })
  void theClassFollowsFromTheConnectorWhereNoneIsNamed(
      FibreKind kind, String connector, String id) {
    assertThat(FaceClass.of(kind, Connector.parse(connector).orElseThrow()).id()).isEqualTo(id);
  }
}
