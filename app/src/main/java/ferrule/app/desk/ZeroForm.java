package ferrule.app.desk;

import ferrule.app.desk.page.Frame;
import ferrule.app.desk.page.LevelWindows;
import ferrule.app.desk.page.ZeroSteps;
import ferrule.app.desk.page.ZeroSteps.LevelStep;
import ferrule.app.desk.page.ZeroSteps.Step;
import ferrule.core.entry.TypedNumber;
import ferrule.core.entry.ZeroGuide;
import ferrule.core.job.Job;
import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.zero.Method;
import ferrule.core.zero.ZeroLevel;
import ferrule.store.intake.TableRow.ReferenceRow;
import ferrule.store.job.TypedEntries;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/** What was typed while a zero is set, step by step, and what is wrong with it. */
final class ZeroForm {

  private static final List<String> FIELDS =
      List.of(
          "key",
          "reference",
          "method",
          "category",
          "directions",
          "source",
          "meter",
          "launch",
          "receive",
          "third",
          "operator",
          "at");

  private final DeskBook book;
  private final Job job;
  private final Map<String, String> values = new LinkedHashMap<>();
  private final Map<String, String> wrong = new LinkedHashMap<>();
  private final Map<String, String> asked = new LinkedHashMap<>();
  private final List<LevelStep> levels;

  /**
   * @param field the value of a field; empty if absent
   */
  ZeroForm(DeskBook book, Function<String, String> field) {
    this.book = book;
    this.job = book.job();
    FIELDS.forEach(name -> values.put(name, field.apply(name).strip()));
    this.levels = levels();
    for (LevelStep level : levels) {
      for (String kind : List.of("power-", "surepower-", "verification-", "sureverification-")) {
        values.put(kind + level.name(), field.apply(kind + level.name()));
      }
    }
  }

  /** A form with what can be proposed. */
  static ZeroForm proposed(DeskBook book, String key) {
    Job job = book.job();
    Optional<ZeroLevel> last =
        job.zeros().stream()
            .flatMap(z -> z.levels().stream())
            .reduce((a, b) -> b.setAt().isBefore(a.setAt()) ? a : b);
    Map<String, String> proposal = new LinkedHashMap<>();
    proposal.put("key", key);
    proposal.put("reference", nextName(job));
    proposal.put("method", job.requirement().method().word());
    proposal.put("directions", "both");
    proposal.put(
        "category",
        last.flatMap(ZeroLevel::category)
            .or(() -> job.links().stream().findFirst().map(Link::category))
            .map(FibreCategory::label)
            .orElse(""));
    proposal.put("source", last.map(ZeroLevel::source).orElse(""));
    proposal.put("meter", last.map(ZeroLevel::meter).orElse(""));
    proposal.put("launch", last.map(ZeroLevel::launchCord).orElse(""));
    proposal.put("receive", last.map(ZeroLevel::receiveCord).orElse(""));
    proposal.put("third", last.map(ZeroLevel::substitutionCord).orElse(""));
    proposal.put("operator", last.map(ZeroLevel::operator).orElse(""));
    return new ZeroForm(book, name -> proposal.getOrDefault(name, ""));
  }

  /** "Z08" after "Z07"; "Z1" in a job without zeros. */
  private static String nextName(Job job) {
    String last = job.zeros().isEmpty() ? "Z0" : job.zeros().get(job.zeros().size() - 1).id();
    String digits = last.replaceFirst("^.*?([0-9]{0,9})$", "$1");
    String stem = last.substring(0, last.length() - digits.length());
    long number = digits.isEmpty() ? 1 : Long.parseLong(digits) + 1;
    for (long n = number; ; n++) {
      String written = Long.toString(n);
      String name = stem + "0".repeat(Math.max(0, digits.length() - written.length())) + written;
      if (job.zeros().stream().noneMatch(z -> z.id().equals(name))) {
        return name;
      }
    }
  }

  private String value(String name) {
    return values.getOrDefault(name, "");
  }

  private Optional<Method> method() {
    return Method.ofWord(value("method"));
  }

  private Optional<FibreCategory> category() {
    return FibreCategory.ofLabel(value("category"));
  }

  private List<Direction> directions() {
    return value("directions").equals("both")
        ? List.of(Direction.values())
        : Direction.ofWord(value("directions")).stream().toList();
  }

  /** Whether the method has a third cord in line, or in its verification. */
  private boolean usesThird() {
    return method().filter(m -> m != Method.ONE_CORD).isPresent();
  }

  private List<LevelStep> levels() {
    Optional<Method> method = method();
    Optional<FibreCategory> category = category();
    if (method.isEmpty() || category.isEmpty()) {
      return List.of();
    }
    LevelWindows windows = new LevelWindows(job);
    List<LevelStep> found = new ArrayList<>();
    for (Direction direction : directions()) {
      for (Wavelength wavelength : job.requirement().wavelengthsFor(category.get())) {
        ZeroLevel level =
            new ZeroLevel(
                time().orElse(Instant.EPOCH),
                direction,
                wavelength,
                new LevelDbm(0),
                Optional.empty(),
                value("source"),
                value("meter"),
                value("launch"),
                value("receive"),
                usesThird() ? value("third") : "",
                category,
                value("operator"));
        found.add(
            new LevelStep(
                direction.word() + "-" + wavelength.nm(),
                level,
                windows.aim(level),
                windows.verification(method.get(), level)));
      }
    }
    return found;
  }

  private Optional<Instant> time() {
    try {
      return Optional.of(Instant.parse(value("at")));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  /** Notes when the powers were typed, unless it is known. */
  void setAt(Instant now) {
    if (time().filter(at -> !at.isAfter(now)).isEmpty()) {
      values.put("at", now.toString());
    }
  }

  /** Whether a step is filled in well; what is not is noted. */
  boolean isGood(Step step) {
    switch (step) {
      case LINE -> checkLine();
      case SET -> levels.forEach(this::checkPower);
      case VERIFY -> levels.forEach(this::checkVerification);
      case FACES -> {} // a list to work along; nothing is typed
    }
    return wrong.isEmpty() && asked.isEmpty();
  }

  private void checkLine() {
    for (String name : List.of("reference", "source", "meter", "launch", "receive", "operator")) {
      checkName(name);
    }
    if (usesThird()) {
      checkName("third");
    }
    if (method().isEmpty()) {
      wrong.put("method", "Choose how many cords stand in line.");
    }
    if (category().isEmpty()) {
      wrong.put("category", "Choose the fibre category of the cords.");
    } else if (levels.isEmpty()) {
      wrong.put(
          "category", "The job asks for no wavelength for this kind of glass: choose another.");
    }
    if (directions().isEmpty()) {
      wrong.put("directions", "Choose one direction or both.");
    }
    if (job.zeros().stream().anyMatch(z -> z.id().equals(value("reference")))) {
      nameTaken();
    }
  }

  /** Notes that another zero has this name. */
  void nameTaken() {
    wrong.put("reference", "A zero of this name is there already: choose another name.");
  }

  private void checkName(String name) {
    String text = value(name);
    if (text.isEmpty()) {
      wrong.put(name, "Fill it in: a zero whose kit is not on record cannot be traced.");
    } else if (text.length() > ZeroSteps.LONGEST_NAME
        || text.chars().anyMatch(Character::isISOControl)) {
      wrong.put(name, "A name has at most " + ZeroSteps.LONGEST_NAME + " printable characters.");
    }
  }

  private void checkPower(LevelStep level) {
    String name = "power-" + level.name();
    number(name, TypedNumber.Kind.LEVEL)
        .ifPresent(
            power -> {
              if (!isAffirmed(name)) {
                level.aim().question(power).ifPresent(q -> asked.put(name, q));
              }
            });
  }

  private void checkVerification(LevelStep level) {
    String name = "verification-" + level.name();
    if (value(name).isBlank()) {
      return;
    }
    number(name, TypedNumber.Kind.LOSS)
        .ifPresent(
            loss -> {
              if (!level.verification().holds(new LossDb(loss)) && !isAffirmed(name)) {
                asked.put(
                    name,
                    Decibels.shown(loss)
                        + " dB is outside "
                        + level.verification().shown()
                        + ": clean and inspect both ends, mate them again and read again; if it"
                        + " stays, set the zero anew.");
              }
            });
  }

  private boolean isAffirmed(String name) {
    return !value(name).isEmpty() && value("sure" + name).equals(value(name));
  }

  private Optional<Double> number(String name, TypedNumber.Kind kind) {
    String typed = value(name);
    TypedNumber.Outcome outcome = TypedNumber.read(typed, kind);
    if (outcome instanceof TypedNumber.Refused refused) {
      wrong.put(name, refused.line(typed.isBlank() ? "nothing" : typed.strip()));
      return Optional.empty();
    }
    return Optional.of(((TypedNumber.Number) outcome).value());
  }

  /** The zero, once every step is good. */
  TypedEntries entries() {
    Method method = method().orElseThrow();
    List<TypedEntries.Item> items = new ArrayList<>();
    for (LevelStep step : levels) {
      ZeroLevel like = step.level();
      double power =
          TypedNumber.value(value("power-" + step.name()), TypedNumber.Kind.LEVEL).orElseThrow();
      Optional<LossDb> verification =
          TypedNumber.value(value("verification-" + step.name()), TypedNumber.Kind.LOSS)
              .map(LossDb::new);
      items.add(
          new TypedEntries.AddLevel(
              new ReferenceRow(
                  value("reference"),
                  method,
                  new ZeroLevel(
                      time().orElseThrow(),
                      like.direction(),
                      like.wavelength(),
                      new LevelDbm(power),
                      verification,
                      like.source(),
                      like.meter(),
                      like.launchCord(),
                      like.receiveCord(),
                      like.substitutionCord(),
                      like.category(),
                      like.operator()))));
    }
    return new TypedEntries(value("key"), items);
  }

  String key() {
    return value("key");
  }

  String reference() {
    return value("reference");
  }

  /** Notes something wrong with the whole. */
  void refuse(String line) {
    wrong.put("", line);
  }

  /** The page of a step. */
  ZeroSteps page(String jobName, Step step) {
    return new ZeroSteps(
        new Frame(jobName, Frame.Section.ZEROS, "Set a zero: " + step.word()),
        book.id(),
        step,
        values,
        wrong,
        asked,
        levels,
        ZeroGuide.of(
            method().orElse(Method.ONE_CORD), value("launch"), value("receive"), value("third")),
        job.cords().stream().map(Cord::id).toList(),
        job.instruments().stream().map(Instrument::id).toList());
  }

  /** Whether a zero of this name was stored under this very form. */
  boolean isStored() {
    return !book.under(key()).isEmpty();
  }
}
