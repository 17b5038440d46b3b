package ferrule.store.job;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.ZeroLevel;
import ferrule.store.intake.TableRow;
import ferrule.store.intake.TableRow.CordRow;
import ferrule.store.intake.TableRow.LinkRow;
import ferrule.store.intake.TableRow.ReadingRow;
import ferrule.store.intake.TableRow.ReferenceRow;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class EntryCodecTest {

  private static final List<String> NAMES =
      List.of(
          "K001",
          "\uD83D\uDD0C 7",
          "\u05e7\u05d9\u05e9\u05d5\u05e8-1",
          "a\"b\\c",
          "=A1+S1",
          "{}",
          "x;y");

  private final SplittableRandom random = new SplittableRandom(12);
  private final EntryCodec codec = new EntryCodec();

  private String name() {
    return NAMES.get(random.nextInt(NAMES.size()));
  }

  private double orNothing(double number) {
    return random.nextInt(3) == 0 ? Double.NaN : number;
  }

  private double decibels() {
    return switch (random.nextInt(4)) {
      case 0 -> random.nextInt(-6000, 4000) / 100.0;
      case 1 -> random.nextDouble(-60, 40);
      case 2 -> random.nextDouble() * 1e-12;
      default -> random.nextInt(-60, 40);
    };
  }

  private Instant time() {
    return Instant.ofEpochSecond(
        random.nextLong(315_532_800L, 7_289_654_399L),
        random.nextBoolean() ? 0 : random.nextInt(1_000_000_000));
  }

  private void assertSameAgain(EntryKind kind, TableRow row) {
    String content = codec.encode(row);
    TableRow back = new EntryCodec().decode(kind, content);
    assertThat(back).isEqualTo(row);
    assertThat(back.key()).isEqualTo(row.key());
    assertThat(codec.encode(back)).isEqualTo(content);
  }

  @Test
  void readingsComeBackAsTheyWere() {
    for (int i = 0; i < 5_000; i++) {
      double power = orNothing(decibels());
      assertSameAgain(
          EntryKind.READING,
          new ReadingRow(
              new Reading(
                  name(),
                  random.nextInt(1, 1_000_001),
                  random.nextBoolean() ? Direction.A_TO_B : Direction.B_TO_A,
                  new Wavelength(random.nextInt(600, 1701)),
                  power,
                  Double.isNaN(power) ? decibels() : orNothing(decibels()),
                  orNothing(random.nextDouble(0, 2e6)),
                  name(),
                  time(),
                  random.nextBoolean() ? "" : name())));
    }
  }

  @Test
  void levelsOfZerosComeBackAsTheyWere() {
    for (int i = 0; i < 2_000; i++) {
      assertSameAgain(
          EntryKind.REFERENCE,
          new ReferenceRow(
              name(),
              List.of(Method.values()).get(random.nextInt(3)),
              new ZeroLevel(
                  time(),
                  random.nextBoolean() ? Direction.A_TO_B : Direction.B_TO_A,
                  new Wavelength(random.nextInt(600, 1701)),
                  new LevelDbm(decibels()),
                  Optional.of(decibels()).filter(v -> random.nextBoolean()).map(LossDb::new),
                  name(),
                  "",
                  name(),
                  random.nextBoolean() ? "" : name(),
                  "",
                  Optional.of(FibreCategory.OS2).filter(c -> random.nextBoolean()),
                  name())));
    }
  }

  @Test
  void linksAndCordsOfEveryCategoryComeBackAsTheyWere() {
    Connector lc = Connector.parse("LC-UPC").orElseThrow();
    Connector sc = Connector.parse("SC-APC").orElseThrow();
    for (FibreCategory category : FibreCategory.values()) {
      assertSameAgain(
          EntryKind.LINK,
          new LinkRow(
              new Link(
                  name(),
                  category,
                  12,
                  0.01 + random.nextDouble(0, 1e5),
                  new LinkEnd(name(), "", lc),
                  new LinkEnd("", name(), sc),
                  2,
                  0,
                  random.nextBoolean() ? List.of() : List.of("splitter-1x8", "tap"),
                  random.nextBoolean() ? "" : name())));
      assertSameAgain(
          EntryKind.CORD,
          new CordRow(
              new Cord(
                  name(),
                  category,
                  Optional.of(2.0).filter(l -> random.nextBoolean()),
                  new Cord.CordEnd(Optional.of(lc), Optional.of(CordGrade.REFERENCE)),
                  new Cord.CordEnd(Optional.empty(), Optional.of(CordGrade.STANDARD)),
                  random.nextBoolean() ? OptionalInt.empty() : OptionalInt.of(0),
                  Optional.of(LocalDate.of(2024, 2, 29)).filter(d -> random.nextBoolean()))));
    }
  }
}
