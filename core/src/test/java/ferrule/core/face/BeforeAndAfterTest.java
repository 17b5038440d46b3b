package ferrule.core.face;

import static ferrule.core.face.Faces.seen;
import static org.assertj.core.api.Assertions.assertThat;

import ferrule.core.face.FaceComparison.Told;
import ferrule.core.face.FaceComparison.Untold;
import ferrule.core.face.FlawChange.Kind;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Faces of an invented crew, made by a seeded generator; what became of each flaw is known. */
class BeforeAndAfterTest {

  private static final int FACES = 400;

  private static Flaw at(FlawKind kind, double x, double y, double size, double length) {
    double r = Math.hypot(x, y);
    double half = Math.min(r, length / 2);
    return new Flaw(kind, x, y, Math.max(length, size), size, 0.2, -0.3, r - half, r + length / 2);
  }

  private static Flaw anywhere(FlawKind kind, Random random) {
    double r = 120 * Math.sqrt(random.nextDouble());
    double angle = 2 * Math.PI * random.nextDouble();
    double size =
        kind == FlawKind.SCRATCH ? 1 + 2 * random.nextDouble() : 2 + 13 * random.nextDouble();
    double length = kind == FlawKind.SCRATCH ? 10 + 60 * random.nextDouble() : size;
    return at(kind, r * Math.cos(angle), r * Math.sin(angle), size, length);
  }

  /** The same flaw turned and moved, seen with a little error. */
  private static Flaw again(Flaw flaw, double radians, double dx, double dy, Random random) {
    double x = Math.cos(radians) * flaw.xUm() - Math.sin(radians) * flaw.yUm() + dx;
    double y = Math.sin(radians) * flaw.xUm() + Math.cos(radians) * flaw.yUm() + dy;
    double more = 1 + 0.04 * random.nextGaussian();
    return at(
        flaw.kind(),
        x + 0.2 * random.nextGaussian(),
        y + 0.2 * random.nextGaussian(),
        flaw.widthUm() * more,
        flaw.lengthUm() * more);
  }

  /** Two pictures of one face, and what became of each flaw. */
  private static final class Case {
    final List<Flaw> before = new ArrayList<>();
    final List<Flaw> after = new ArrayList<>();
    final List<Kind> truth = new ArrayList<>();
    final double degrees;

    Case(long seed, int stay, int dirt, int fresh) {
      Random random = new Random(seed);
      degrees = 360 * random.nextDouble() - 180;
      double dx = random.nextDouble() - 0.5;
      double dy = random.nextDouble() - 0.5;
      for (int i = 0; i < stay; i++) {
        Flaw flaw = anywhere(i % 3 == 0 ? FlawKind.SCRATCH : FlawKind.DEFECT, random);
        before.add(flaw);
        after.add(again(flaw, Math.toRadians(degrees), dx, dy, random));
        truth.add(Kind.STAYED);
      }
      for (int i = 0; i < dirt; i++) {
        before.add(anywhere(FlawKind.DEFECT, random));
        truth.add(Kind.CLEANED_AWAY);
      }
      for (int i = 0; i < fresh; i++) {
        after.add(anywhere(FlawKind.DEFECT, random));
        truth.add(Kind.NEW);
      }
      Collections.shuffle(after, random);
    }

    FaceComparison compared() {
      return BeforeAndAfter.compare(seen(before), seen(after));
    }
  }

  @ParameterizedTest(name = "{0} flaws that stay")
  @ValueSource(ints = {3, 5, 9})
  void aTurnedFaceIsRegisteredAndPermanentFlawsAreToldFromDirt(int stay) {
    int told = 0;
    int stayed = 0;
    int wrong = 0;
    for (int seed = 0; seed < FACES; seed++) {
      Case one = new Case(1000L * stay + seed, stay, 8, 1);
      if (!(one.compared() instanceof Told comparison)) {
        continue;
      }
      told++;
      assertThat(comparison.turn()).isPresent();
      double off = Math.IEEEremainder(comparison.turn().orElseThrow().degrees() - one.degrees, 360);
      if (Math.abs(off) > 3) {
        wrong++;
        continue;
      }
      for (int i = 0; i < one.before.size(); i++) {
        FlawChange change = comparison.changes().get(i);
        assertThat(change.before()).contains(one.before.get(i));
        if (one.truth.get(i) == Kind.STAYED && change.kind() == Kind.STAYED) {
          stayed++;
        }
      }
    }
    assertThat(told).as("told of %s", FACES).isGreaterThanOrEqualTo((int) (0.97 * FACES));
    assertThat(wrong).as("turned wrongly").isLessThanOrEqualTo(FACES / 100);
    assertThat(stayed / (double) (told * stay)).as("share found again").isGreaterThan(0.97);
  }

  @Test
  void unrelatedFacesAreHardlyEverTakenForOne() {
    int taken = 0;
    for (int seed = 0; seed < FACES; seed++) {
      Case one = new Case(seed, 0, 10, 10);
      taken += one.compared() instanceof Told told && told.turn().isPresent() ? 1 : 0;
    }
    assertThat(taken).isLessThanOrEqualTo(FACES / 50);
  }

  @Test
  void aCleanFaceAfterwardsNeedsNoRegistration() {
    Case one = new Case(7, 0, 6, 0);
    assertThat(one.compared())
        .isInstanceOfSatisfying(
            Told.class,
            told -> {
              assertThat(told.turn()).isEmpty();
              assertThat(told.changes())
                  .hasSize(6)
                  .allMatch(change -> change.kind() == Kind.CLEANED_AWAY);
            });
  }

  @Test
  void aCleanFaceBeforehandMakesEveryFlawNew() {
    assertThat(new Case(7, 0, 0, 4).compared())
        .isInstanceOfSatisfying(
            Told.class,
            told -> assertThat(told.changes()).hasSize(4).allMatch(c -> c.kind() == Kind.NEW));
  }

  @Test
  void oneFlawAloneDoesNotTellTheTurn() {
    Flaw flaw = at(FlawKind.DEFECT, 40, 10, 6, 6);
    assertThat(BeforeAndAfter.compare(seen(flaw), seen(flaw)))
        .isInstanceOfSatisfying(
            Untold.class, untold -> assertThat(untold.reason()).contains("Only one flaw"));
  }

  @Test
  void aFaceThatLooksTheSameTwoWaysRoundCannotBeTold() {
    List<Flaw> flaws = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      double angle = i * Math.PI / 2;
      flaws.add(at(FlawKind.DEFECT, 60 * Math.cos(angle), 60 * Math.sin(angle), 6, 6));
    }
    assertThat(BeforeAndAfter.compare(seen(flaws), seen(flaws)))
        .isInstanceOfSatisfying(
            Untold.class, untold -> assertThat(untold.reason()).contains("turned by another"));
  }

  @Test
  void aParticleFoundElsewhereHasMovedAndAScratchStays() {
    List<Flaw> before =
        List.of(
            at(FlawKind.SCRATCH, 30, 5, 1.5, 40),
            at(FlawKind.DEFECT, -50, 20, 5, 5),
            at(FlawKind.DEFECT, 10, -80, 3, 3),
            at(FlawKind.DEFECT, 70, 60, 12, 12),
            at(FlawKind.DEFECT, 5, 45, 25, 25));
    List<Flaw> after = new ArrayList<>(before.subList(0, 3));
    after.add(at(FlawKind.DEFECT, -20, -30, 12, 12));
    after.add(at(FlawKind.SCRATCH, -80, 0, 2, 15));
    Told told = (Told) BeforeAndAfter.compare(seen(before), seen(after));
    assertThat(told.changes())
        .extracting(FlawChange::kind)
        .containsExactly(
            Kind.STAYED, Kind.STAYED, Kind.STAYED, Kind.MOVED, Kind.CLEANED_AWAY, Kind.NEW);
    assertThat(told.changes().get(0).shown())
        .isEqualTo("Scratch 1.5 µm wide at x 30.0, y 5.0 µm stayed: permanent, not dirt");
    assertThat(told.changes().get(3).after()).isEqualTo(Optional.of(after.get(3)));
    assertThat(told.changes().get(4).shown()).endsWith("cleaned away: it was dirt");
    assertThat(told.changes().get(5).shown()).endsWith("new: damage done since");
    assertThat(told.turn().orElseThrow().degrees()).isBetween(-0.01, 0.01);
  }

  @Test
  void dirtThatShrankInItsPlaceStayed() {
    List<Flaw> before = new ArrayList<>(new Case(11, 4, 0, 0).before);
    List<Flaw> after = new ArrayList<>(before);
    before.add(at(FlawKind.DEFECT, 33, -71, 14, 14));
    after.add(at(FlawKind.DEFECT, 33.4, -71.3, 7, 7));
    Told told = (Told) BeforeAndAfter.compare(seen(before), seen(after));
    assertThat(told.changes()).hasSize(5).allMatch(change -> change.kind() == Kind.STAYED);
  }

  @Test
  void comparingTwiceGivesTheSame() {
    Case one = new Case(3, 5, 20, 3);
    assertThat(one.compared()).isEqualTo(one.compared());
  }
}
