package ferrule.core.trust;

import ferrule.core.allowance.Allowance;
import ferrule.core.allowance.AllowanceRecipe;
import ferrule.core.allowance.TestPlugs;
import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.uncertainty.Budget;
import ferrule.core.uncertainty.Decision;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.util.AbstractList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Objects;
import java.util.Optional;
import java.util.RandomAccess;
import java.util.SortedSet;
import org.jspecify.annotations.Nullable;

/**
 * A job with every reading resolved: which fibre, which zero, which loss, which limit, which
 * uncertainty, which decision. What the doubt finders look at.
 *
 * <p>Fibres are numbered from 0 in the order of the schedule ("slots").
 */
public final class Ledger {

  /** Wilder losses are worked with as this, dB, so that sums and differences stay numbers. */
  private static final double LARGEST_DB = 1e300;

  private final Job job;
  private final Map<String, Integer> linkIndex;
  private final int[] firstSlot;
  private final int[] linkOfSlot;
  private final Map<String, Zero> zeros;
  private final Map<String, Cord> cords;
  private final Map<String, Instrument> instruments;
  private final Map<FibreCategory, SortedSet<Wavelength>> required =
      new EnumMap<>(FibreCategory.class);
  private final List<AssessedReading> readings;
  private final List<AssessedReading> current;
  private final List<AssessedReading> withoutLevel = new ArrayList<>();
  private final List<AssessedReading> unscheduled = new ArrayList<>();
  private final AssessedReading[] bySlot;
  private final int[] firstReading;
  private final ByLevel byLevel;
  private final Map<CaseKey, RecipeAndBudget> recipes = new HashMap<>();

  private record CaseKey(
      FibreCategory category, Wavelength wavelength, Method method, TestPlugs plugs) {}

  private record RecipeAndBudget(AllowanceRecipe recipe, Budget budget) {}

  /** What a level means for links that look the same to it. */
  private record Fit(LinkLook look, RecipeAndBudget recipe) {}

  private static final class OpenLevel {
    final ZeroLevel level;
    final List<Fit> fits = new ArrayList<>();
    final List<AssessedReading> readings = new ArrayList<>();

    OpenLevel(ZeroLevel level) {
      this.level = level;
    }
  }

  private static final class OpenZero {
    final Zero zero;
    final List<OpenLevel> levels = new ArrayList<>();

    OpenZero(Zero zero) {
      this.zero = zero;
      for (ZeroLevel level : zero.levels()) {
        levels.add(new OpenLevel(level));
      }
    }

    @Nullable OpenLevel level(Reading reading) {
      for (OpenLevel open : levels) {
        if (open.level.direction() == reading.direction()
            && open.level.wavelength().nm() == reading.wavelength().nm()) {
          return open;
        }
      }
      return null;
    }
  }

  /** Allowances of one link, a handful: one for each case it was read in. */
  private record LinkAllowance(
      RecipeAndBudget key, Allowance allowance, @Nullable LinkAllowance others) {}

  private static Allowance allowance(
      @Nullable LinkAllowance[] byLink, int linkAt, RecipeAndBudget key, Link link) {
    for (LinkAllowance one = byLink[linkAt]; one != null; one = one.others()) {
      if (one.key() == key) {
        return one.allowance();
      }
    }
    Allowance allowance = key.recipe().of(link);
    byLink[linkAt] = new LinkAllowance(key, allowance, byLink[linkAt]);
    return allowance;
  }

  private Ledger(Job job) {
    this.job = job;
    List<Link> links = job.links();
    this.linkIndex = new HashMap<>(links.size() * 2);
    this.firstSlot = new int[links.size() + 1];
    for (int i = 0; i < links.size(); i++) {
      if (linkIndex.put(links.get(i).id(), i) != null) {
        throw new IllegalArgumentException("Link " + links.get(i).id() + " is scheduled twice");
      }
      firstSlot[i + 1] = firstSlot[i] + links.get(i).fibres();
    }
    int slots = firstSlot[links.size()];
    this.linkOfSlot = new int[slots];
    for (int i = 0; i < links.size(); i++) {
      Arrays.fill(linkOfSlot, firstSlot[i], firstSlot[i + 1], i);
    }
    this.zeros = new LinkedHashMap<>();
    job.zeros().forEach(z -> zeros.put(z.id(), z));
    this.cords = new LinkedHashMap<>();
    job.cords().forEach(c -> cords.put(c.id(), c));
    this.instruments = new LinkedHashMap<>();
    job.instruments().forEach(i -> instruments.put(i.id(), i));
    for (FibreCategory category : FibreCategory.values()) {
      required.put(category, job.requirement().wavelengthsFor(category));
    }
    Map<String, OpenZero> open = new LinkedHashMap<>();
    zeros.values().forEach(zero -> open.put(zero.id(), new OpenZero(zero)));
    this.readings = assess(open);
    this.firstReading = new int[slots + 1];
    this.bySlot = groupBySlot();
    this.current = stillCurrent();
    this.byLevel = new ByLevel();
    for (OpenZero zero : open.values()) {
      for (OpenLevel level : zero.levels) {
        byLevel.add(level.level, level.readings, level.fits.stream().map(Fit::look).toList());
      }
    }
  }

  /** Resolves a job. */
  public static Ledger of(Job job) {
    return new Ledger(job);
  }

  private List<AssessedReading> assess(Map<String, OpenZero> open) {
    @Nullable LinkAllowance[] allowances = new LinkAllowance[job.links().size()];
    List<AssessedReading> assessed = new ArrayList<>(job.readings().size());
    String lastLink = "";
    int lastIndex = -1;
    String lastReference = "";
    OpenZero lastZero = null;
    int index = 0;
    for (Reading reading : job.readings()) {
      if (lastIndex < 0 || !reading.link().equals(lastLink)) {
        Integer found = linkIndex.get(reading.link());
        lastLink = reading.link();
        lastIndex = found == null ? -1 : found;
      }
      if (lastZero == null || !reading.reference().equals(lastReference)) {
        lastReference = reading.reference();
        lastZero = open.get(lastReference);
      }
      assessed.add(assess(index++, reading, lastIndex, lastZero, allowances));
    }
    return assessed;
  }

  private static double bounded(double loss) {
    return Math.max(-LARGEST_DB, Math.min(LARGEST_DB, loss));
  }

  private AssessedReading assess(
      int index,
      Reading reading,
      int linkAt,
      @Nullable OpenZero openZero,
      @Nullable LinkAllowance[] allowances) {
    OpenLevel openLevel = openZero == null ? null : openZero.level(reading);
    AssessedReading assessed = assess(index, reading, linkAt, openZero, openLevel, allowances);
    if (openLevel != null) {
      openLevel.readings.add(assessed);
    }
    return assessed;
  }

  private AssessedReading assess(
      int index,
      Reading reading,
      int linkAt,
      @Nullable OpenZero openZero,
      @Nullable OpenLevel openLevel,
      @Nullable LinkAllowance[] allowances) {
    Zero zero = openZero == null ? null : openZero.zero;
    ZeroLevel level = openLevel == null ? null : openLevel.level;
    double loss =
        bounded(
            reading.hasLoss()
                ? reading.lossDb()
                : level == null ? Double.NaN : level.power().value() - reading.powerDbm());
    Link link = linkAt < 0 ? null : job.links().get(linkAt);
    if (link == null || reading.fibre() < 1 || reading.fibre() > link.fibres()) {
      return new AssessedReading(
          index, reading, -1, null, zero, level, loss, null, null, Double.NaN, Decision.UNDECIDED);
    }
    RecipeAndBudget recipe = recipe(reading, link, zero, openLevel);
    Allowance allowance = allowance(allowances, linkAt, recipe, link);
    double standard =
        Double.isNaN(loss) ? Double.NaN : recipe.budget().standard(link.lengthKm(), loss);
    Decision decision =
        job.requirement()
            .decision()
            .decide(loss, allowance.limitDb(), Budget.COVERAGE_FACTOR * standard);
    return new AssessedReading(
        index,
        reading,
        firstSlot[linkAt] + reading.fibre() - 1,
        link,
        zero,
        level,
        loss,
        allowance,
        recipe.budget(),
        standard,
        decision);
  }

  private RecipeAndBudget recipe(
      Reading reading, Link link, @Nullable Zero zero, @Nullable OpenLevel open) {
    if (zero == null || open == null) {
      return recipe(
          link.category(),
          reading.wavelength(),
          zero == null ? job.requirement().method() : zero.method(),
          new TestPlugs(CordGrade.REFERENCE, CordGrade.REFERENCE, false));
    }
    Connector entry = link.entry(reading.direction()).connector();
    Connector exit = link.exit(reading.direction()).connector();
    for (Fit fit : open.fits) {
      LinkLook look = fit.look();
      if (look.category() == link.category()
          && look.entry().equals(entry)
          && look.exit().equals(exit)) {
        return fit.recipe();
      }
    }
    RecipeAndBudget recipe =
        recipe(
            link.category(), reading.wavelength(), zero.method(), plugs(open.level, entry, exit));
    open.fits.add(new Fit(new LinkLook(link.category(), entry, exit), recipe));
    return recipe;
  }

  private RecipeAndBudget recipe(
      FibreCategory category, Wavelength wavelength, Method method, TestPlugs plugs) {
    return recipes.computeIfAbsent(
        new CaseKey(category, wavelength, method, plugs),
        key ->
            new RecipeAndBudget(
                new AllowanceRecipe(
                    job.requirement().rulebook(), category, wavelength, method, plugs),
                Budget.of(
                    category.kind(),
                    wavelength,
                    method,
                    plugs,
                    job.requirement().settings().uncertainty())));
  }

  private TestPlugs plugs(ZeroLevel level, Connector entry, Connector exit) {
    Optional<CordGrade> launch = grade(level.launchCord(), entry);
    Optional<CordGrade> receive = grade(level.receiveCord(), exit);
    return new TestPlugs(
        launch.orElse(CordGrade.REFERENCE),
        receive.orElse(CordGrade.REFERENCE),
        launch.isPresent() && receive.isPresent());
  }

  private Optional<CordGrade> grade(String cord, Connector linkConnector) {
    return cord(cord).flatMap(c -> c.endFor(linkConnector)).flatMap(Cord.CordEnd::grade);
  }

  /** The readings of scheduled fibres, fibre by fibre, each fibre's in the order handed in. */
  private AssessedReading[] groupBySlot() {
    Map<Object, List<AssessedReading>> unscheduled = new HashMap<>();
    for (AssessedReading reading : readings) {
      if (reading.slot() >= 0) {
        firstReading[reading.slot() + 1]++;
      } else {
        unscheduled
            .computeIfAbsent(reading.reading().fibreId(), k -> new ArrayList<>(2))
            .add(reading);
      }
    }
    for (int slot = 1; slot < firstReading.length; slot++) {
      firstReading[slot] += firstReading[slot - 1];
    }
    int[] next = firstReading.clone();
    AssessedReading[] grouped = new AssessedReading[firstReading[firstReading.length - 1]];
    for (AssessedReading reading : readings) {
      if (reading.slot() >= 0) {
        grouped[next[reading.slot()]++] = reading;
      }
    }
    for (int slot = 0; slot + 1 < firstReading.length; slot++) {
      markReplaced(grouped, firstReading[slot], firstReading[slot + 1]);
    }
    for (List<AssessedReading> ofFibre : unscheduled.values()) {
      markReplaced(ofFibre.toArray(new AssessedReading[0]), 0, ofFibre.size());
    }
    return grouped;
  }

  /** Of several readings of one case the latest counts; of equal times the last handed in. */
  private static void markReplaced(AssessedReading[] readings, int from, int to) {
    for (int i = from; i < to; i++) {
      for (int j = i + 1; j < to; j++) {
        if (readings[i].sameCaseAs(readings[j])) {
          boolean older =
              readings[j].reading().measuredAt().isBefore(readings[i].reading().measuredAt());
          readings[older ? j : i].replaced();
        }
      }
    }
  }

  /** The readings that count; those that lack a level or a fibre are noted on the way. */
  private List<AssessedReading> stillCurrent() {
    List<AssessedReading> still = new ArrayList<>(readings.size());
    for (AssessedReading reading : readings) {
      if (!reading.current()) {
        continue;
      }
      still.add(reading);
      if (reading.levelOrNull() == null) {
        withoutLevel.add(reading);
      }
      if (reading.slot() < 0) {
        unscheduled.add(reading);
      }
    }
    return still;
  }

  /** A part of an array as a list. */
  private static final class Slice extends AbstractList<AssessedReading> implements RandomAccess {
    private final AssessedReading[] array;
    private final int from;
    private final int size;

    Slice(AssessedReading[] array, int from, int to) {
      this.array = array;
      this.from = from;
      this.size = to - from;
    }

    @Override
    public AssessedReading get(int index) {
      return array[from + Objects.checkIndex(index, size)];
    }

    @Override
    public int size() {
      return size;
    }

    /** Its own, for the compiler sees through it: finders walk along every fibre. */
    @Override
    public Iterator<AssessedReading> iterator() {
      return new Iterator<>() {
        private int next = 0;

        @Override
        public boolean hasNext() {
          return next < size;
        }

        @Override
        public AssessedReading next() {
          if (next >= size) {
            throw new NoSuchElementException();
          }
          return array[from + next++];
        }
      };
    }
  }

  /** The job. */
  public Job job() {
    return job;
  }

  /** What must be met. */
  public Requirement requirement() {
    return job.requirement();
  }

  /** Number of scheduled fibres. */
  public int slots() {
    return linkOfSlot.length;
  }

  /** The link of a fibre. */
  public Link link(int slot) {
    return job.links().get(linkOfSlot[slot]);
  }

  /** The place of a fibre's link in the schedule, from 0. */
  public int linkOf(int slot) {
    return linkOfSlot[slot];
  }

  /** The id of a fibre. */
  public FibreId fibre(int slot) {
    return new FibreId(link(slot).id(), slot - firstSlot[linkOfSlot[slot]] + 1);
  }

  /** The slot of a fibre, or -1 if it is not in the schedule. */
  public int slotOf(FibreId fibre) {
    Integer at = linkIndex.get(fibre.link());
    return at == null || fibre.fibre() < 1 || fibre.fibre() > job.links().get(at).fibres()
        ? -1
        : firstSlot[at] + fibre.fibre() - 1;
  }

  /** Every reading, in the order handed in. */
  public List<AssessedReading> readings() {
    return Collections.unmodifiableList(readings);
  }

  /** The readings that count: of several of one case, the latest. Unscheduled fibres included. */
  public List<AssessedReading> current() {
    return Collections.unmodifiableList(current);
  }

  /** Of the readings that count, those whose zero holds no power for their case or is not there. */
  public List<AssessedReading> withoutLevel() {
    return Collections.unmodifiableList(withoutLevel);
  }

  /** Of the readings that count, those of fibres that are not in the schedule. */
  public List<AssessedReading> unscheduled() {
    return Collections.unmodifiableList(unscheduled);
  }

  /** Every reading of a fibre, in the order handed in. */
  public List<AssessedReading> readings(int slot) {
    return new Slice(bySlot, firstReading[slot], firstReading[slot + 1]);
  }

  /** The readings that count, by the level each was compared with. */
  public ByLevel byLevel() {
    return byLevel;
  }

  /** Wavelengths at which links of a category must be read. */
  public SortedSet<Wavelength> required(FibreCategory category) {
    SortedSet<Wavelength> wavelengths = required.get(category);
    return wavelengths == null ? Collections.emptySortedSet() : wavelengths;
  }

  /** The zero with this id, if on record. */
  public Optional<Zero> zero(String id) {
    return Optional.ofNullable(zeros.get(id));
  }

  /** The cord with this id, if on record. */
  public Optional<Cord> cord(String id) {
    return Optional.ofNullable(cords.get(id));
  }

  /** The instrument with this id, if on record. */
  public Optional<Instrument> instrument(String id) {
    return Optional.ofNullable(instruments.get(id));
  }
}
