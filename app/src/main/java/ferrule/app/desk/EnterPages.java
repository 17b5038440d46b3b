package ferrule.app.desk;

import ferrule.app.desk.page.EnterPage;
import ferrule.app.desk.page.EnterSetup;
import ferrule.app.desk.page.EnteredReading;
import ferrule.app.desk.page.FibreEntry;
import ferrule.app.desk.page.FibreForm;
import ferrule.app.desk.page.Frame;
import ferrule.core.entry.OneFibre;
import ferrule.core.entry.PortRound;
import ferrule.core.job.Job;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Direction;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.DoubtKind;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.store.job.KeptReading;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;
import java.util.UUID;

/** Puts the page together on which readings are typed. */
final class EnterPages {

  /** Readings typed last that the page shows. */
  private static final int LAST = 8;

  /** Fibres that a browser can go on with while the desk cannot be reached. */
  private static final int AHEAD = 120;

  private final DeskBook book;
  private final String jobName;
  private final Job job;
  private final Map<FibreId, Optional<OneFibre>> looked = new HashMap<>();

  EnterPages(DeskBook book, String jobName) {
    this.book = book;
    this.jobName = jobName;
    this.job = book.job();
  }

  Job job() {
    return job;
  }

  /** Every place at which a link ends, in alphabetical order. */
  List<String> places() {
    TreeSet<String> places = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
    for (Link link : job.links()) {
      places.add(link.a().place());
      places.add(link.b().place());
    }
    places.remove("");
    return List.copyOf(places);
  }

  /** What was chosen; what was not is taken from the reading typed last. */
  EnterSetup proposed(EnterSetup asked) {
    Optional<KeptReading> last = book.typedLast(1).stream().findFirst();
    if (asked.begun() || !asked.refused().isEmpty() || last.isEmpty()) {
      return asked;
    }
    Reading reading = last.get().reading();
    String operator = asked.operator().isEmpty() ? reading.operator() : asked.operator();
    return new EnterSetup(
        asked.place(), asked.direction(), asked.zero(), asked.kind(), operator, false, List.of());
  }

  /** The page before anything was begun. */
  EnterPage setUp(EnterSetup setup) {
    return page(setup, Optional.empty(), Optional.empty(), List.of(), List.of());
  }

  /**
   * The page of a fibre.
   *
   * @param form what was typed and what is wrong with it; empty for a new form of the next fibre
   * @param wanted the fibre asked for, if one was
   * @param stored entries that were just stored
   */
  EnterPage fibre(
      EnterSetup setup, Optional<FibreForm> form, Optional<FibreId> wanted, List<Long> stored) {
    PortRound round = PortRound.of(job, setup.place(), setup.direction());
    List<KeptReading> kept = stored.stream().flatMap(seq -> book.reading(seq).stream()).toList();
    Optional<FibreId> after = kept.stream().map(k -> k.reading().fibreId()).findFirst();
    Optional<FibreId> here = form.map(f -> f.stop().fibre()).or(() -> wanted);
    List<PortRound.Stop> open =
        round.comingAfter(here.or(() -> after)).stream()
            .filter(stop -> isServed(setup, stop))
            .toList();
    Optional<FibreForm> shown =
        form.or(
            () ->
                wanted
                    .flatMap(round::stop)
                    .or(() -> open.stream().findFirst())
                    .map(stop -> blank(setup, stop, true)));
    List<FibreForm> coming = new ArrayList<>();
    for (PortRound.Stop stop : open) {
      if (coming.size() == AHEAD) {
        break;
      }
      if (shown.filter(f -> f.stop().fibre().equals(stop.fibre())).isEmpty()) {
        coming.add(blank(setup, stop, false));
      }
    }
    return page(setup, Optional.of(round), shown, coming, kept);
  }

  /** Whether the zero in force has a level for something that is still to be read. */
  private boolean isServed(EnterSetup setup, PortRound.Stop stop) {
    return stop.open().stream().anyMatch(w -> setup.levelDbm(job, w).isPresent());
  }

  private EnterPage page(
      EnterSetup setup,
      Optional<PortRound> round,
      Optional<FibreForm> form,
      List<FibreForm> coming,
      List<KeptReading> stored) {
    Optional<FibreEntry> storedFibre =
        stored.stream()
            .findFirst()
            .flatMap(k -> look(k.reading().fibreId()))
            .map(one -> new FibreEntry(one.fibre()));
    return new EnterPage(
        new Frame(jobName, Frame.Section.ENTER, "Enter readings"),
        book.id(),
        setup,
        places(),
        allZeros(),
        round,
        round.stream()
            .flatMap(r -> r.stops().stream())
            .filter(stop -> stop.isOpen() && !isServed(setup, stop))
            .count(),
        form,
        coming,
        storedFibre,
        stored.stream().map(this::entered).toList(),
        book.typedLast(LAST).stream().map(this::entered).toList());
  }

  private List<Zero> allZeros() {
    List<Zero> zeros = new ArrayList<>(EnterSetup.able(job, Direction.A_TO_B));
    for (Zero zero : EnterSetup.able(job, Direction.B_TO_A)) {
      if (!zeros.contains(zero)) {
        zeros.add(zero);
      }
    }
    zeros.sort(Comparator.comparing(Zero::setAt).reversed());
    return zeros;
  }

  /**
   * An empty form of a fibre.
   *
   * @param withLimits whether to work out limits and expected losses
   */
  FibreForm blank(EnterSetup setup, PortRound.Stop stop, boolean withLimits) {
    Map<Wavelength, AssessedReading> limits = withLimits ? limits(setup, stop) : Map.of();
    List<FibreForm.Field> fields = new ArrayList<>();
    for (Wavelength wavelength : stop.required()) {
      AssessedReading limit = limits.get(wavelength);
      fields.add(
          new FibreForm.Field(
              wavelength,
              "",
              "",
              Optional.empty(),
              there(stop.fibre(), setup.direction(), wavelength),
              false,
              setup.levelDbm(job, wavelength),
              limit == null ? Double.NaN : limit.limitDb(),
              limit == null ? Double.NaN : limit.expectedDb()));
    }
    return new FibreForm(stop, UUID.randomUUID().toString(), fields, "", true, "", "");
  }

  /** What a reading would be held against, told by one of no loss that is entered nowhere. */
  private Map<Wavelength, AssessedReading> limits(EnterSetup setup, PortRound.Stop stop) {
    List<Reading> trial =
        stop.required().stream()
            .map(
                w ->
                    new Reading(
                        stop.fibre().link(),
                        stop.fibre().fibre(),
                        setup.direction(),
                        w,
                        Double.NaN,
                        0,
                        Double.NaN,
                        setup.zero(),
                        Instant.EPOCH,
                        ""))
            .toList();
    Map<Wavelength, AssessedReading> limits = new HashMap<>();
    OneFibre.of(job, stop.fibre(), trial)
        .ifPresent(
            one -> one.fibre().readings().forEach(r -> limits.put(r.reading().wavelength(), r)));
    return limits;
  }

  /** The reading of a case that stands and was entered last. */
  Optional<KeptReading> there(FibreId fibre, Direction direction, Wavelength wavelength) {
    return book.readings(fibre).stream()
        .filter(KeptReading::stands)
        .filter(k -> k.reading().isOfCase(direction, wavelength))
        .reduce((first, second) -> second);
  }

  /** The level of the zero in force, dBm. */
  OptionalDouble levelDbm(EnterSetup setup, Wavelength wavelength) {
    return setup.levelDbm(job, wavelength);
  }

  private Optional<OneFibre> look(FibreId fibre) {
    return looked.computeIfAbsent(
        fibre,
        id ->
            OneFibre.of(
                job,
                id,
                book.readings(id).stream()
                    .filter(KeptReading::stands)
                    .map(KeptReading::reading)
                    .toList()));
  }

  /** An entry with what its fibre says of it. */
  EnteredReading entered(KeptReading kept) {
    Optional<OneFibre> one = kept.stands() ? look(kept.reading().fibreId()) : Optional.empty();
    Optional<AssessedReading> assessed =
        one.stream()
            .flatMap(o -> o.fibre().readings().stream())
            .filter(r -> r.reading().equals(kept.reading()))
            .findFirst();
    return new EnteredReading(
        kept,
        assessed,
        assessed.isEmpty()
            ? List.of()
            : one.stream()
                .flatMap(o -> o.doubts().stream())
                .filter(d -> d.kind() != DoubtKind.MISSING) // the round says what is still to come
                .filter(
                    d ->
                        d.reach().readings().isEmpty()
                            || d.reach().readings().contains(assessed.get()))
                .toList());
  }
}
