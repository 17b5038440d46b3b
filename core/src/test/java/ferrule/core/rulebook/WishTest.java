package ferrule.core.rulebook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import ferrule.core.allowance.Allowance;
import ferrule.core.allowance.AllowanceRecipe;
import ferrule.core.allowance.TestPlugs;
import ferrule.core.fixture.JobFixture;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Wish.Item;
import ferrule.core.zero.Method;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class WishTest {

  private static final Rulebook ISO = ShippedRulebooks.find("iso-11801-1").orElseThrow();

  /** Two kilometres of OS2 with one connection and two splices inside. */
  private static Allowance under(Rulebook rulebook) {
    return new AllowanceRecipe(
            rulebook,
            FibreCategory.OS2,
            new Wavelength(1310),
            Method.ONE_CORD,
            new TestPlugs(CordGrade.REFERENCE, CordGrade.REFERENCE, true))
        .of(JobFixture.aLink("K001", FibreCategory.OS2, 2, 2000, 1, 2, List.of()));
  }

  @Test
  void eachFigureWishedMovesTheLimitByItsCountInTheLink() {
    double agreed = under(ISO).limitDb();
    Map<Item, Double> counts =
        Map.of(Item.KM, 2.0, Item.CONNECTION, 1.0, Item.END, 2.0, Item.SPLICE, 2.0);
    double inner = ISO.innerLimit(FibreKind.SINGLE_MODE).orElseThrow().value();
    double splice = ISO.spliceLimit(FibreKind.SINGLE_MODE).orElseThrow().value();
    double end = ISO.endLimit(FibreKind.SINGLE_MODE, CordGrade.REFERENCE).orElseThrow().value();
    double km = ISO.fibreLimit(FibreCategory.OS2, new Wavelength(1310)).orElseThrow().value();
    Map<Item, Double> old =
        Map.of(Item.KM, km, Item.CONNECTION, inner, Item.END, end, Item.SPLICE, splice);
    counts.forEach(
        (item, count) ->
            assertThat(under(Wish.NONE.with(item, 0.05).in(ISO)).limitDb())
                .as(item.word())
                .isCloseTo(
                    agreed - count * (old.getOrDefault(item, Double.NaN) - 0.05), within(1e-9)));
  }

  @Test
  void aWholeLinkMayLoseTheLessOfItsOwnFigureAndWhatItsPartsAllow() {
    double parts = under(ISO).limitDb();
    Allowance less = under(Wish.NONE.with(Item.LINK, parts - 0.5).in(ISO));
    assertThat(less.limitDb()).isEqualTo(parts - 0.5);
    assertThat(less.limitTerms().total().value()).isEqualTo(parts - 0.5);
    Allowance more = under(Wish.NONE.with(Item.LINK, parts + 0.5).in(ISO));
    assertThat(more.limitDb()).isEqualTo(parts);
    assertThat(more.limitTerms()).isEqualTo(under(ISO).limitTerms());
  }

  /** No figure of a link can stand for one that the rulebook does not give. */
  @Test
  void aLimitOfAWholeLinkDoesNotHideThatAFigureIsLacking() {
    Rulebook bare =
        new Rulebook(
            "bare",
            "bare",
            "1",
            List.of(),
            ISO.fibre(),
            ISO.inner(),
            Map.of(),
            ISO.referencePair(),
            ISO.splice(),
            ISO.device());
    Allowance capped = under(Wish.NONE.with(Item.LINK, 1).in(bare));
    assertThat(capped.limit()).isEmpty();
    assertThat(capped.lacking()).isNotEmpty();
  }

  @Test
  void whatIsWishedIsSaidAndMarkedAsTheOwnersOwn() {
    Rulebook wished = Wish.NONE.with(Item.SPLICE, 0.1).with(Item.LINK, 2).in(ISO);
    assertThat(wished.title())
        .isEqualTo(ISO.title() + ", but 2.00 dB for a whole link, 0.10 dB for a splice");
    assertThat(wished.linkLimit(FibreKind.MULTIMODE))
        .map(f -> f.provenance().confidence())
        .contains(Confidence.OWNER);
    assertThat(Wish.NONE.in(ISO)).isSameAs(ISO);
  }

  @Test
  void aFigureThatNothingCanMeetIsRefused() {
    for (double db : new double[] {0, -1, 61, Double.NaN, Double.POSITIVE_INFINITY}) {
      assertThatThrownBy(() -> Wish.NONE.with(Item.LINK, db))
          .isInstanceOf(IllegalArgumentException.class);
    }
  }

  @Test
  void aLimitOfAWholeLinkIsReadAndWrittenOut() {
    String based =
        """
        id = "own"
        title = "Own"
        edition = "2026"
        notes = ["invented"]
        based_on = "iso-11801-1"

        [[link]]
        fibre = "single-mode"
        limit_db = 2.5
        standard = "Own"
        confidence = "owner"
        seen_in = "itself"
        """;
    Rulebook read = RulebookReader.read("own.toml", based).rulebook().orElseThrow();
    assertThat(read.linkLimit(FibreKind.SINGLE_MODE)).map(Figure::value).contains(2.5);
    assertThat(read.linkLimit(FibreKind.MULTIMODE)).isEmpty();
    String kept = RulebookReader.standingAlone(based, read);
    assertThat(RulebookReader.read("own.toml", kept).rulebook()).contains(read);
    assertThat(RulebookReader.read("own.toml", based.replace("2.5", "0")).problems())
        .singleElement()
        .satisfies(p -> assertThat(p.line()).contains("a number above 0"));
  }
}
