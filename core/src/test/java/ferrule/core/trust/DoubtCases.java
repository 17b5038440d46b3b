package ferrule.core.trust;

import static ferrule.core.fixture.JobFixture.MORNING;
import static ferrule.core.fixture.JobFixture.aLink;
import static ferrule.core.fixture.JobFixture.at;
import static ferrule.core.fixture.JobFixture.length;
import static ferrule.core.fixture.JobFixture.loss;
import static ferrule.core.fixture.JobFixture.named;
import static ferrule.core.fixture.JobFixture.of;
import static ferrule.core.fixture.JobFixture.power;
import static ferrule.core.fixture.JobFixture.reading;
import static ferrule.core.fixture.JobFixture.time;
import static ferrule.core.fixture.JobFixture.towards;
import static ferrule.core.plant.Direction.A_TO_B;
import static ferrule.core.plant.Direction.B_TO_A;
import static ferrule.core.trust.DoubtKind.BELOW_FLOOR;
import static ferrule.core.trust.DoubtKind.CALIBRATION_LAPSED;
import static ferrule.core.trust.DoubtKind.CROSSED;
import static ferrule.core.trust.DoubtKind.DIRECTION_BIAS;
import static ferrule.core.trust.DoubtKind.DIRECTION_GAP;
import static ferrule.core.trust.DoubtKind.DOUBLE;
import static ferrule.core.trust.DoubtKind.FACE_REJECTED;
import static ferrule.core.trust.DoubtKind.FACE_UNSEEN;
import static ferrule.core.trust.DoubtKind.LENGTH_GAP;
import static ferrule.core.trust.DoubtKind.LENGTH_OFFSET;
import static ferrule.core.trust.DoubtKind.LENGTH_SCALE;
import static ferrule.core.trust.DoubtKind.MISSING;
import static ferrule.core.trust.DoubtKind.PAPER_CONFLICT;
import static ferrule.core.trust.DoubtKind.PORT_SHIFT;
import static ferrule.core.trust.DoubtKind.UNSCHEDULED;
import static ferrule.core.trust.DoubtKind.WAVELENGTH_ORDER;
import static ferrule.core.trust.DoubtKind.ZERO_LAPSED;
import static ferrule.core.trust.DoubtKind.ZERO_MISMATCH;
import static ferrule.core.trust.DoubtKind.ZERO_POWER;
import static ferrule.core.trust.DoubtKind.ZERO_UNVERIFIED;
import static ferrule.core.trust.DoubtKind.ZERO_VERIFICATION;

import ferrule.core.face.FaceOutcome;
import ferrule.core.fixture.JobFixture;
import ferrule.core.fixture.ZeroFixture;
import ferrule.core.job.Requirement.Directions;
import ferrule.core.job.Requirement.FaceDemand;
import ferrule.core.job.Settings;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.FibreKind;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Instrument;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Method;
import ferrule.core.zero.PowerWindow;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.IntStream;

/** For every kind of doubt, jobs in which it rings and neighbours in which it must not. */
final class DoubtCases {

  private static final Predicate<Reading> ALL = r -> true;
  private static final String[] FOUR = {"K001/1", "K001/2", "K002/1", "K002/2"};
  private static final Instant LATER = MORNING.plus(Duration.ofHours(2));

  private DoubtCases() {}

  static List<DoubtCase> all() {
    List<DoubtCase> cases = new ArrayList<>();
    zeroPower(cases);
    zeroVerification(cases);
    zeroMismatch(cases);
    zeroLapsed(cases);
    calibration(cases);
    schedule(cases);
    papers(cases);
    singleFibre(cases);
    ManyCases.addTo(cases);
    JointCases.addTo(cases);
    lengths(cases);
    BuiltCases.addTo(cases);
    return cases;
  }

  /** Two links of two fibres under zero Z1, all well, nothing read yet. */
  private static JobFixture unread() {
    return JobFixture.singleMode()
        .link("K001", 2, 150)
        .link("K002", 2, 300)
        .instrument("S1", Instrument.Kind.SOURCE, "2026-12-31")
        .instrument("M1", Instrument.Kind.METER, "2026-12-31");
  }

  private static JobFixture cords(JobFixture job) {
    return job.cord("L1", FibreCategory.OS2, "LC-UPC", CordGrade.REFERENCE)
        .cord("R1", FibreCategory.OS2, "LC-UPC", CordGrade.REFERENCE);
  }

  private static JobFixture under(ZeroFixture zero) {
    return cords(unread()).zero(zero).readAll("Z1", 1310, 1550);
  }

  private static JobFixture well() {
    return under(z1());
  }

  private static ZeroFixture z1() {
    return ZeroFixture.zero("Z1");
  }

  private static void zeroPower(List<DoubtCase> cases) {
    cases.add(
        DoubtCase.of(ZERO_POWER, "below the window", under(z1().power(-9.01)))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(under(z1().power(-9))));
    cases.add(
        DoubtCase.of(ZERO_POWER, "above the window", under(z1().power(-2.99)))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(under(z1().power(-3))));
    cases.add(
        DoubtCase.of(ZERO_POWER, "one wavelength below the window", oneLevelAt(-9.5))
            .onZero("Z1")
            .blocking()
            .reaching(at(1550), FOUR)
            .butNotIn(oneLevelAt(-8.9)));
    Settings own =
        new Settings(
            Settings.USUAL.zeroValidFor(),
            Settings.USUAL.verifyEvery(),
            Map.of(
                FibreKind.SINGLE_MODE,
                new PowerWindow(new LevelDbm(-8), new LevelDbm(-7), "the source's certificate")),
            Map.of());
    cases.add(
        DoubtCase.of(ZERO_POWER, "outside the job's own window", well().settings(own))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(under(z1().power(-7.5)).settings(own)));
    cases.add(
        DoubtCase.of(ZERO_POWER, "unlike the zero before, verified", twoZeros(-6.31, false))
            .onZero("Z2")
            .reaching(r -> r.reference().equals("Z2"), "K002/1", "K002/2")
            .butNotIn(twoZeros(-6.29, false)));
    cases.add(
        DoubtCase.of(ZERO_POWER, "unlike the zero before, unverified", twoZeros(-5.69, true))
            .onZero("Z2")
            .blocking()
            .reaching(r -> r.reference().equals("Z2"), "K002/1", "K002/2")
            .besides(ZERO_UNVERIFIED)
            .butNotIn(twoZeros(-5.71, true), ZERO_UNVERIFIED));
    cases.add(
        DoubtCase.of(ZERO_POWER, "unlike this source's other zeros", fourZeros(-6.6))
            .onZero("Z4")
            .reaching(r -> r.reference().equals("Z4"), "K002/1", "K002/2")
            .butNotIn(fourZeros(-6.45)));
  }

  private static JobFixture oneLevelAt(double dbm) {
    Zero zero = z1().wavelengths(1310).with(ZeroFixture.zero("Z1").wavelengths(1550).power(dbm));
    return cords(unread()).zero(zero).readAll("Z1", 1310, 1550);
  }

  private static ZeroFixture oneLevel(String id, Instant setAt, double dbm) {
    return ZeroFixture.zero(id).at(setAt).wavelengths(1310).directions(A_TO_B).power(dbm);
  }

  private static JobFixture oneWay(JobFixture job, String zero, Instant from, String link) {
    return job.readAll(zero, from, l -> l.id().equals(link), 1310);
  }

  /** Only 1310 nm A-B: K001 under Z1 at -6 dBm, K002 under Z2, same launch cord. */
  private static JobFixture twoZeros(double second, boolean unverified) {
    ZeroFixture z2 = oneLevel("Z2", LATER, second);
    JobFixture job =
        cords(unread())
            .directions(Directions.ONE)
            .wavelengths(1310)
            .zero(oneLevel("Z1", MORNING, -6))
            .zero(unverified ? z2.unverified() : z2);
    oneWay(job, "Z1", MORNING, "K001");
    oneWay(job, "Z2", LATER, "K002");
    return job.without(towards(B_TO_A));
  }

  private static JobFixture fourZeros(double fourth) {
    JobFixture job = cords(unread()).directions(Directions.ONE).wavelengths(1310);
    double[] powers = {-6, -6.1, -5.9, fourth};
    for (int i = 0; i < 4; i++) {
      job.zero(
          oneLevel("Z" + (i + 1), MORNING.plus(Duration.ofHours(i)), powers[i])
              .launch("L1" + i)
              .receive("R1"));
    }
    oneWay(job, "Z1", MORNING, "K001");
    oneWay(job, "Z4", MORNING.plus(Duration.ofHours(3)), "K002");
    return job.without(towards(B_TO_A));
  }

  private static void zeroVerification(List<DoubtCase> cases) {
    cases.add(
        DoubtCase.of(ZERO_UNVERIFIED, "not verified at all", under(z1().unverified()))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(well()));
    cases.add(
        DoubtCase.of(ZERO_UNVERIFIED, "exactly nothing everywhere", under(z1().verification(0)))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(
                cords(unread())
                    .zero(
                        z1().wavelengths(1310)
                            .verification(0)
                            .with(ZeroFixture.zero("Z1").wavelengths(1550).verification(0.01)))
                    .readAll("Z1", 1310, 1550)));
    cases.add(
        DoubtCase.of(
                ZERO_UNVERIFIED,
                "not verified in one direction",
                cords(unread())
                    .zero(
                        z1().directions(A_TO_B)
                            .with(ZeroFixture.zero("Z1").directions(B_TO_A).unverified()))
                    .readAll("Z1", 1310, 1550))
            .onZero("Z1")
            .blocking()
            .reaching(towards(B_TO_A), FOUR)
            .butNotIn(well()));
    cases.add(
        DoubtCase.of(
                ZERO_VERIFICATION, "above what two good plugs lose", under(z1().verification(0.21)))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(under(z1().verification(0.20))));
    cases.add(
        DoubtCase.of(ZERO_VERIFICATION, "negative", under(z1().verification(-0.04)))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(under(z1().verification(-0.03))));
    cases.add(
        DoubtCase.of(
                ZERO_VERIFICATION,
                "out at one wavelength only",
                cords(unread())
                    .zero(
                        z1().wavelengths(1310)
                            .verification(0.35)
                            .with(ZeroFixture.zero("Z1").wavelengths(1550)))
                    .readAll("Z1", 1310, 1550))
            .onZero("Z1")
            .blocking()
            .reaching(at(1310), FOUR)
            .butNotIn(well()));
    cases.add(
        DoubtCase.of(ZERO_VERIFICATION, "multimode, above its own bound", multimode(0.11))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, "K001/1", "K001/2")
            .butNotIn(multimode(0.10)));
    cases.add(
        DoubtCase.of(ZERO_VERIFICATION, "two-cord, below minus one pair", twoCord(-0.21))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(twoCord(-0.19)));
    cases.add(
        DoubtCase.of(
                ZERO_VERIFICATION,
                "an ordinary cord widens the window, and no further",
                ordinaryReceiveCord(0.76))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .besides(ZERO_MISMATCH)
            .butNotIn(ordinaryReceiveCord(0.74), ZERO_MISMATCH));
  }

  private static JobFixture multimode(double verification) {
    return JobFixture.multimode()
        .link("K001", FibreCategory.OM4, 2, 100)
        .zero(ZeroFixture.multimode("Z1").verification(verification))
        .readAll("Z1", 850, 1300);
  }

  private static JobFixture twoCord(double verification) {
    return cords(unread())
        .method(Method.TWO_CORD)
        .zero(z1().method(Method.TWO_CORD).verification(verification))
        .readAll("Z1", 1310, 1550);
  }

  private static JobFixture ordinaryReceiveCord(double verification) {
    return unread()
        .cord("L1", FibreCategory.OS2, "LC-UPC", CordGrade.REFERENCE)
        .cord("R1", FibreCategory.OS2, "LC-UPC", CordGrade.STANDARD)
        .zero(z1().verification(verification))
        .readAll("Z1", 1310, 1550);
  }

  private static void zeroMismatch(List<DoubtCase> cases) {
    cases.add(
        DoubtCase.of(
                ZERO_MISMATCH, "another method than required", under(z1().method(Method.TWO_CORD)))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(twoCord(0.06)));
    cases.add(
        DoubtCase.of(ZERO_MISMATCH, "cords of another core", coreOf(FibreCategory.OM1))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, "K001/1", "K001/2")
            .butNotIn(coreOf(FibreCategory.OM3)));
    cases.add(
        DoubtCase.of(
                ZERO_MISMATCH, "a launch cord that does not fit the port", launchCord("SC-UPC"))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(launchCord("LC-PC")));
    cases.add(
        DoubtCase.of(ZERO_MISMATCH, "angled to straight", launchCord("LC-APC"))
            .onZero("Z1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(launchCord("LC-UPC")));
    cases.add(
        DoubtCase.of(ZERO_MISMATCH, "power and loss contradict each other", storedPower(0.03))
            .onZero("Z1")
            .blocking()
            .reaching(of("K002/1").and(at(1310)).and(towards(A_TO_B)), "K002/1")
            .butNotIn(storedPower(0.02)));
    cases.add(
        DoubtCase.of(ZERO_MISMATCH, "an ordinary cord", ordinaryReceiveCord(0.06))
            .onZero("Z1")
            .reaching(ALL, FOUR)
            .butNotIn(well()));
  }

  private static JobFixture coreOf(FibreCategory cords) {
    return JobFixture.multimode()
        .link("K001", FibreCategory.OM4, 2, 100)
        .zero(ZeroFixture.multimode("Z1").category(cords))
        .readAll("Z1", 850, 1300);
  }

  private static JobFixture launchCord(String connector) {
    return unread()
        .cord("L1", FibreCategory.OS2, connector, CordGrade.REFERENCE)
        .cord("R1", FibreCategory.OS2, "LC-UPC", CordGrade.REFERENCE)
        .zero(z1())
        .readAll("Z1", 1310, 1550);
  }

  private static JobFixture storedPower(double off) {
    return well()
        .change(
            of("K002/1").and(at(1310)).and(towards(A_TO_B)),
            r -> power(-6 - r.lossDb() - off, r.lossDb()).apply(r));
  }

  private static void zeroLapsed(List<DoubtCase> cases) {
    Predicate<Reading> one = of("K001/1").and(at(1310)).and(towards(A_TO_B));
    Predicate<Reading> mating = of("K001/1").and(towards(A_TO_B));
    cases.add(
        DoubtCase.of(
                ZERO_LAPSED,
                "read before it was set",
                well().change(mating, time(MORNING.minusSeconds(1))))
            .onZero("Z1")
            .blocking()
            .reaching(mating, "K001/1")
            .butNotIn(well().change(mating, time(MORNING))));
    Instant end = MORNING.plus(Duration.ofHours(12));
    cases.add(
        DoubtCase.of(
                ZERO_LAPSED,
                "read after it lapsed",
                well().change(mating, time(end.plusSeconds(1))))
            .onZero("Z1")
            .blocking()
            .reaching(mating, "K001/1")
            .butNotIn(well().change(mating, time(end))));
    cases.add(
        DoubtCase.of(ZERO_LAPSED, "its source was zeroed again", zeroedAgain(LATER))
            .onZero("Z1")
            .blocking()
            .reaching(of("K002/2").and(towards(B_TO_A)), "K002/2")
            .butNotIn(zeroedAgain(LATER.minusSeconds(1))));
    cases.add(
        DoubtCase.of(ZERO_LAPSED, "no such zero", well().change(one, DoubtCases::ofUnknownZero))
            .onZero("Z9")
            .blocking()
            .reaching(one, "K001/1")
            .butNotIn(well()));
    cases.add(
        DoubtCase.of(ZERO_LAPSED, "no level for this direction", under(z1().directions(A_TO_B)))
            .onZero("Z1")
            .blocking()
            .reaching(towards(B_TO_A), FOUR)
            .butNotIn(well()));
  }

  private static Reading ofUnknownZero(Reading r) {
    return reading(
        r.link(), r.fibre(), r.direction(), r.wavelength().nm(), r.lossDb(), "Z9", r.measuredAt());
  }

  /** Z2 is set at {@link #LATER}; the last mating of Z1 is read at the given time. */
  private static JobFixture zeroedAgain(Instant lastMating) {
    return well()
        .zero(ZeroFixture.zero("Z2").at(LATER))
        .change(of("K002/2").and(towards(B_TO_A)), time(lastMating));
  }

  private static void calibration(List<DoubtCase> cases) {
    cases.add(
        DoubtCase.of(CALIBRATION_LAPSED, "a source used the day after", dueOn("S1", "2026-03-01"))
            .onInstrument("S1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(dueOn("S1", "2026-03-02")));
    cases.add(
        DoubtCase.of(CALIBRATION_LAPSED, "a meter used the day after", dueOn("M1", "2026-03-01"))
            .onInstrument("M1")
            .blocking()
            .reaching(ALL, FOUR)
            .butNotIn(dueOn("M1", "2026-03-02")));
    Instant midnight = Instant.parse("2026-03-03T00:00:00Z");
    Predicate<Reading> last = of("K002/2").and(towards(B_TO_A));
    cases.add(
        DoubtCase.of(
                CALIBRATION_LAPSED,
                "used past midnight of the last day",
                throughTheNight().change(last, time(midnight)))
            .onInstrument("S1")
            .blocking()
            .reaching(last, "K002/2")
            .butNotIn(throughTheNight().change(last, time(midnight.minusSeconds(1)))));
  }

  private static JobFixture dueOn(String instrument, String day) {
    return cords(JobFixture.singleMode().link("K001", 2, 150).link("K002", 2, 300))
        .instrument(
            instrument,
            instrument.equals("S1") ? Instrument.Kind.SOURCE : Instrument.Kind.METER,
            day)
        .zero(z1())
        .readAll("Z1", 1310, 1550);
  }

  private static JobFixture throughTheNight() {
    Instant evening = Instant.parse("2026-03-02T20:00:00Z");
    return cords(JobFixture.singleMode().link("K001", 2, 150).link("K002", 2, 300))
        .instrument("S1", Instrument.Kind.SOURCE, "2026-03-02")
        .zero(z1().at(evening))
        .readAll("Z1", evening, l -> true, 1310, 1550);
  }

  private static void schedule(List<DoubtCase> cases) {
    Predicate<Reading> one = of("K001/2").and(at(1550)).and(towards(B_TO_A));
    cases.add(
        DoubtCase.of(MISSING, "one reading of four", well().without(one))
            .onFibre("K001/2")
            .touching("K001/2")
            .butNotIn(well().without(one).directions(Directions.ONE)));
    cases.add(
        DoubtCase.of(MISSING, "a whole wavelength", well().without(of("K001/2").and(at(1550))))
            .onFibre("K001/2")
            .touching("K001/2")
            .butNotIn(well().wavelengths(1310).without(of("K001/2").and(at(1550)))));
    cases.add(
        DoubtCase.of(MISSING, "a fibre never read", well().without(of("K001/2")))
            .onFibre("K001/2")
            .touching("K001/2")
            .butNotIn(well()));
    cases.add(
        DoubtCase.of(UNSCHEDULED, "a link that is not scheduled", stranger("K009", 1))
            .onFibre("K009/1")
            .reaching(r -> r.link().equals("K009"), "K009/1")
            .butNotIn(well()));
    cases.add(
        DoubtCase.of(UNSCHEDULED, "a fibre beyond the link's last", stranger("K001", 3))
            .onFibre("K001/3")
            .reaching(of("K001/3"), "K001/3")
            .butNotIn(well()));
    cases.add(
        DoubtCase.of(UNSCHEDULED, "fibre 0, which no link has", stranger("K002", 0))
            .onFibre("K002/0")
            .reaching(of("K002/0"), "K002/0")
            .butNotIn(well()));
    Instant retest = LATER;
    cases.add(
        DoubtCase.of(DOUBLE, "a retest", well().reading(again(retest, 0.30, Double.NaN)))
            .onFibre("K001/1")
            .reaching(currentAfterRetest(retest), "K001/1")
            .butNotIn(
                well()
                    .reading(reading("K001", 1, A_TO_B, 1383, 0.30, "Z1", retest))
                    .zero(ZeroFixture.zero("Z3").source("S3").wavelengths(1383))
                    .change(
                        at(1383),
                        r -> reading("K001", 1, A_TO_B, 1383, 0.30, "Z3", r.measuredAt()))));
    cases.add(
        DoubtCase.of(DOUBLE, "two losses at one instant", sameInstant(0.01))
            .onFibre("K001/1")
            .blocking()
            .reaching(lastOf(sameInstant(0.01)), "K001/1")
            .butNotIn(well()));
    cases.add(
        DoubtCase.of(
                DOUBLE,
                "two lengths",
                well().change(firstCase(), length(150)).reading(again(retest, 0.29, 152.6)))
            .onFibre("K001/1")
            .blocking()
            .reaching(currentAfterRetest(retest), "K001/1")
            .butNotIn(well().change(firstCase(), length(150))));
    cases.add(
        DoubtCase.of(FACE_UNSEEN, "both ends to be graded", oneFibre().faces(FaceDemand.ENDS))
            .onFibre("K001/1")
            .touching("K001/1")
            .butNotIn(oneFibre().picture("a.png")));
    cases.add(
        DoubtCase.of(
                FACE_UNSEEN,
                "one end graded, the other unreadable",
                ends(FaceOutcome.CONFORMS, FaceOutcome.UNREADABLE).faces(FaceDemand.ENDS))
            .onFibre("K001/1")
            .touching("K001/1")
            .butNotIn(ends(FaceOutcome.CONFORMS, FaceOutcome.CONFORMS).faces(FaceDemand.ENDS)));
    cases.add(
        DoubtCase.of(
                FACE_REJECTED,
                "a rejected end where ends must be graded",
                ends(FaceOutcome.CONFORMS, FaceOutcome.REJECTED).faces(FaceDemand.ENDS))
            .onFibre("K001/1")
            .blocking()
            .reaching(r -> true, "K001/1")
            .butNotIn(
                ends(FaceOutcome.CONFORMS, FaceOutcome.REJECTED)
                    .face("port:Glaze store / K001/1", "cleaned", FaceOutcome.CONFORMS)
                    .faces(FaceDemand.ENDS)));
    cases.add(
        DoubtCase.of(
                FACE_REJECTED,
                "a rejected end where none is asked for",
                ends(FaceOutcome.REJECTED, FaceOutcome.REJECTED))
            .onFibre("K001/1")
            .reaching(r -> true, "K001/1")
            .butNotIn(ends(FaceOutcome.UNREADABLE, FaceOutcome.CONFORMS)));
  }

  /** One fibre, a picture of each end. */
  private static JobFixture ends(FaceOutcome a, FaceOutcome b) {
    return oneFibre()
        .face("port:Kiln room/K001/1", "found", a)
        .face("port:Glaze store / K001/1", "found", b);
  }

  private static Predicate<Reading> firstCase() {
    return of("K001/1").and(at(1310)).and(towards(A_TO_B));
  }

  private static Reading again(Instant when, double loss, double metres) {
    return length(metres).apply(reading("K001", 1, A_TO_B, 1310, loss, "Z1", when));
  }

  private static Predicate<Reading> currentAfterRetest(Instant retest) {
    return of("K001/1").and(firstCase().negate().or(r -> r.measuredAt().equals(retest)));
  }

  private static JobFixture sameInstant(double apart) {
    Reading first = well().readings().stream().filter(firstCase()).findFirst().orElseThrow();
    return well().reading(again(first.measuredAt(), first.lossDb() + apart, Double.NaN));
  }

  /** All of K001/1 but the first of the two readings of one case. */
  private static Predicate<Reading> lastOf(JobFixture job) {
    Reading last = job.readings().get(job.readings().size() - 1);
    return of("K001/1").and(firstCase().negate().or(r -> r.equals(last)));
  }

  private static JobFixture stranger(String link, int fibre) {
    return well()
        .reading(reading("K001", 1, A_TO_B, 1310, 0.29, "Z1", LATER))
        .change(r -> r.measuredAt().equals(LATER), named(link, fibre));
  }

  private static JobFixture oneFibre() {
    return JobFixture.singleMode().link("K001", 1, 150).zero(z1()).readAll("Z1", 1310, 1550);
  }

  private static void papers(List<DoubtCase> cases) {
    cases.add(
        DoubtCase.of(
                PAPER_CONFLICT,
                "a wavelength no link can be judged at",
                well().wavelengths(1310, 1550, 1300))
            .butNotIn(
                well()
                    .wavelengths(1310, 1550, 1300, 850)
                    .link("K003", FibreCategory.OM4, 1, 50)
                    .zero(ZeroFixture.multimode("Z2").source("S2").launch("L2").receive("R2"))
                    .readAll("Z2", 850, 1300)));
    cases.add(
        DoubtCase.of(
                PAPER_CONFLICT,
                "a link no required wavelength fits",
                well().link("K003", FibreCategory.OM4, 1, 50))
            .touching("K003/1")
            .besides(MISSING)
            .butNotIn(well().link("K003", FibreCategory.OS1A, 1, 50), MISSING));
    cases.add(
        DoubtCase.of(
                PAPER_CONFLICT, "a device without a limit", withDevice(List.of("splitter-1x8")))
            .touching("K003/1")
            .besides(MISSING)
            .butNotIn(withDevice(List.of()), MISSING));
    cases.add(
        DoubtCase.of(
                PAPER_CONFLICT, "a third cord in a one-cord zero", under(z1().substitution("X1")))
            .butNotIn(under(z1())));
    cases.add(
        DoubtCase.of(PAPER_CONFLICT, "one cord in two places", under(z1().receive("L1")))
            .butNotIn(under(z1().launch("R1").receive("L1"))));
    cases.add(
        DoubtCase.of(PAPER_CONFLICT, "a meter as a source", under(z1().source("M1")))
            .butNotIn(
                under(z1().source("B1").meter("B1"))
                    .instrument("B1", Instrument.Kind.SOURCE_AND_METER, "2026-12-31")));
    cases.add(
        DoubtCase.of(PAPER_CONFLICT, "a source as a meter", under(z1().meter("S1")))
            .butNotIn(under(z1())));
    cases.add(
        DoubtCase.of(PAPER_CONFLICT, "a source not listed for the wavelength", listedFor(1310))
            .butNotIn(listedFor(1310, 1550)));
    cases.add(
        DoubtCase.of(PAPER_CONFLICT, "calibrated after it was due", calibrated("2027-01-01"))
            .butNotIn(calibrated("2026-12-31")));
  }

  private static JobFixture withDevice(List<String> devices) {
    return well().link(aLink("K003", FibreCategory.OS2, 1, 50, 0, 0, devices));
  }

  private static JobFixture listedFor(Integer... nm) {
    TreeSet<Wavelength> listed = new TreeSet<>();
    for (int one : nm) {
      listed.add(new Wavelength(one));
    }
    return under(z1().source("S7"))
        .instrument(
            new Instrument(
                "S7", Instrument.Kind.SOURCE, listed, Optional.empty(), Optional.empty()));
  }

  private static JobFixture calibrated(String day) {
    return well()
        .instrument(
            new Instrument(
                "S7",
                Instrument.Kind.SOURCE,
                new TreeSet<>(),
                Optional.of(LocalDate.parse(day)),
                Optional.of(LocalDate.parse("2026-12-31"))));
  }

  private static void singleFibre(List<DoubtCase> cases) {
    // 150 m of glass lose at least 0.045 dB; the uncertainty is just under 0.15 dB.
    cases.add(
        DoubtCase.of(BELOW_FLOOR, "less than nothing", well().change(of("K001/1"), loss(r -> -0.2)))
            .onFibre("K001/1")
            .blocking()
            .reaching(of("K001/1"), "K001/1")
            .butNotIn(well().change(of("K001/1"), loss(r -> -0.05))));
    cases.add(
        DoubtCase.of(
                BELOW_FLOOR, "less than twenty kilometres of glass", twentyKilometres(5.0, 2.8))
            .onFibre("K003/1")
            .blocking()
            .reaching(of("K003/1").and(at(1550)).or(of("K003/1").and(at(1310))), "K003/1")
            .butNotIn(twentyKilometres(5.9, 3.4)));
    cases.add(
        DoubtCase.of(BELOW_FLOOR, "at one wavelength only", twentyKilometres(5.0, 3.5))
            .onFibre("K003/1")
            .blocking()
            .reaching(of("K003/1").and(at(1310)), "K003/1")
            .butNotIn(twentyKilometres(5.9, 3.5)));
    cases.add(
        DoubtCase.of(BELOW_FLOOR, "three-cord, more than two pairs below", threeCord(-0.6))
            .onFibre("K001/1")
            .blocking()
            .reaching(of("K001/1"), "K001/1")
            .butNotIn(threeCord(-0.4)));
    Predicate<Reading> long1 = of("K001/1").and(at(1550)).and(towards(A_TO_B));
    cases.add(
        DoubtCase.of(WAVELENGTH_ORDER, "a tenth more, in one mating", bent(long1, 0.10))
            .onFibre("K001/1")
            .reaching(of("K001/1").and(towards(A_TO_B)), "K001/1")
            .butNotIn(bent(long1, 0.099)));
    Predicate<Reading> long2 = of("K001/1").and(at(1550));
    cases.add(
        DoubtCase.of(WAVELENGTH_ORDER, "two tenths more, in two matings", bentLater(long2, 0.21))
            .onFibre("K001/1")
            .reaching(of("K001/1"), "K001/1")
            .butNotIn(bentLater(long2, 0.19)));
    Predicate<Reading> ab = of("K001/1").and(at(1310)).and(towards(A_TO_B));
    cases.add(
        DoubtCase.of(
                DIRECTION_GAP,
                "one direction higher",
                well().change(ab, loss(r -> r.lossDb() + 0.4)))
            .onFibre("K001/1")
            .reaching(of("K001/1").and(at(1310)), "K001/1")
            .butNotIn(well().change(ab, loss(r -> r.lossDb() + 0.19))));
    cases.add(
        DoubtCase.of(
                DIRECTION_GAP, "one fibre of many, beside a common offset", manyWithOffset(0.6))
            .onFibre("K001/7")
            .reaching(of("K001/7").and(at(1310)), "K001/7")
            .besides(DIRECTION_BIAS)
            .butNotIn(manyWithOffset(0.3), DIRECTION_BIAS));
    cases.add(
        DoubtCase.of(
                LENGTH_GAP,
                "six metres too long",
                well().change(of("K001/1").and(at(1310)), length(155.1)))
            .onFibre("K001/1")
            .reaching(of("K001/1").and(at(1310)), "K001/1")
            .butNotIn(well().change(of("K001/1").and(at(1310)), length(155))));
    cases.add(
        DoubtCase.of(LENGTH_GAP, "too short", well().change(of("K001/1"), length(144.9)))
            .onFibre("K001/1")
            .reaching(of("K001/1"), "K001/1")
            .butNotIn(well().change(of("K001/1"), length(145))));
  }

  private static void lengths(List<DoubtCase> cases) {
    String[] twenty =
        IntStream.rangeClosed(1, 20).mapToObj(DoubtCases::oneOf).toArray(String[]::new);
    cases.add(
        DoubtCase.of(LENGTH_SCALE, "feet for metres", measured((i, m) -> m[i] * 3.2808))
            .reaching(ALL, twenty)
            .butNotIn(measured((i, m) -> m[i] * 1.012)));
    cases.add(
        DoubtCase.of(LENGTH_OFFSET, "two cords not deducted", measured((i, m) -> m[i] + 4))
            .reaching(ALL, twenty)
            .butNotIn(measured((i, m) -> m[i] + 0.8)));
    cases.add(
        DoubtCase.of(
                PORT_SHIFT,
                "one port skipped",
                measured((i, m) -> i < 8 ? m[i] : i == 19 ? 9 : m[i + 1]))
            .onPlace("Glaze store")
            .times(2)
            .blocking()
            .reaching(r -> r.link().compareTo("K009") >= 0, Arrays.copyOfRange(twenty, 8, 20))
            .butNotIn(measured((i, m) -> m[i])));
    cases.add(
        DoubtCase.of(CROSSED, "two fibres", measured((i, m) -> m[i == 4 ? 11 : i == 11 ? 4 : i]))
            .onFibre("K005/1")
            .times(2)
            .blocking()
            .reaching(of("K005/1").or(of("K012/1")), "K005/1", "K012/1")
            .butNotIn(measured((i, m) -> m[i == 4 ? 5 : i]), LENGTH_GAP));
  }

  private static String oneOf(int number) {
    return "K%03d/1".formatted(number);
  }

  /** What is measured of a link, given the honest lengths of all. */
  private interface Measured {
    double of(int link, double[] honest);
  }

  /** Twenty links of one fibre and of all lengths, measured half a per cent longer. */
  private static JobFixture measured(Measured measured) {
    JobFixture job = JobFixture.singleMode();
    double[] honest = new double[20];
    for (int i = 0; i < honest.length; i++) {
      double scheduled = 40 + i * 77 % 200;
      honest[i] = scheduled * 1.005 + (i % 3 - 1) * 0.2;
      job.link("K%03d".formatted(i + 1), 1, scheduled);
    }
    cords(job).zero(z1()).readAll("Z1", 1310, 1550);
    for (int i = 0; i < honest.length; i++) {
      job.change(of(oneOf(i + 1)), length(measured.of(i, honest)));
    }
    return job;
  }

  private static JobFixture twentyKilometres(double at1310, double at1550) {
    return well()
        .link("K003", 1, 20_000)
        .readAll("Z1", LATER, l -> l.id().equals("K003"), 1310, 1550)
        .change(of("K003/1").and(at(1310)), loss(r -> at1310))
        .change(of("K003/1").and(at(1550)), loss(r -> at1550));
  }

  private static JobFixture threeCord(double loss) {
    return cords(unread())
        .method(Method.THREE_CORD)
        .zero(z1().method(Method.THREE_CORD).substitution("X1"))
        .readAll("Z1", 1310, 1550)
        .change(of("K001/1"), loss(r -> loss));
  }

  /** Readings at the longer wavelength so much above that at 1310 nm. */
  private static JobFixture bent(Predicate<Reading> which, double more) {
    double at1310 =
        well().readings().stream().filter(firstCase()).findFirst().orElseThrow().lossDb();
    return well().change(which, loss(r -> at1310 + more));
  }

  private static JobFixture bentLater(Predicate<Reading> which, double more) {
    return bent(which, more)
        .change(which, r -> time(r.measuredAt().plus(Duration.ofMinutes(5))).apply(r));
  }

  /** Twenty-four fibres, all 0.3 dB higher A-B at 1310 nm; the seventh by the given amount. */
  private static JobFixture manyWithOffset(double seventh) {
    return cords(JobFixture.singleMode().link("K001", 24, 150).zero(z1()).readAll("Z1", 1310, 1550))
        .change(
            at(1310).and(towards(A_TO_B)),
            loss(r -> r.lossDb() + (r.fibre() == 7 ? seventh : 0.3)));
  }
}
