package ferrule.app.desk;

import ferrule.app.desk.page.EnterSetup;
import ferrule.app.desk.page.FibreForm;
import ferrule.core.entry.PortRound;
import ferrule.core.entry.Slip;
import ferrule.core.entry.TypedNumber;
import ferrule.core.optics.Wavelength;
import ferrule.core.zero.Reading;
import ferrule.store.job.KeptReading;
import ferrule.store.job.TypedEntries;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * What was typed for one fibre: either entries to be stored, or the form again with what is wrong
 * beside each field and everything typed still in it.
 */
final class TypedForm {

  /** A browser's clock may be ahead of the desk's by this much. */
  private static final Duration AHEAD = Duration.ofMinutes(2);

  private final EnterPages pages;
  private final EnterSetup setup;
  private final PortRound.Stop stop;
  private final Form form;
  private final Instant now;

  TypedForm(EnterPages pages, EnterSetup setup, PortRound.Stop stop, Form form, Instant now) {
    this.pages = pages;
    this.setup = setup;
    this.stop = stop;
    this.form = form;
    this.now = now;
  }

  /**
   * What becomes of it.
   *
   * @param entries what is to be stored; null if something is wrong
   * @param form the form again
   */
  record Read(@Nullable TypedEntries entries, FibreForm form) {}

  Read read() {
    String why = form.text("why");
    boolean again = !form.get("how").equals("wrong");
    String wrong = "";
    Instant at = now.truncatedTo(ChronoUnit.SECONDS);
    try {
      at = time(at);
    } catch (IllegalArgumentException e) {
      wrong = String.valueOf(e.getMessage());
    }
    List<FibreForm.Field> fields = new ArrayList<>();
    List<TypedEntries.Item> items = new ArrayList<>();
    boolean whyMissing = false;
    for (FibreForm.Field blank : pages.blank(setup, stop, true).fields()) {
      Checked checked = check(blank);
      fields.add(checked.field());
      if (checked.value().isPresent()) {
        if (blank.there().isPresent() && why.isEmpty()) {
          whyMissing = true;
        } else {
          items.add(item(blank, checked.value().getAsDouble(), at, why, again));
        }
      }
    }
    String whyWrong = "";
    if (whyMissing) {
      whyWrong = "A reading is there already: say why another one is entered.";
    } else if (why.length() > TypedEntries.LONGEST_REASON) {
      whyWrong = "A reason has at most " + TypedEntries.LONGEST_REASON + " characters.";
    }
    boolean anyTyped = fields.stream().anyMatch(f -> !f.typed().isEmpty());
    if (wrong.isEmpty() && !anyTyped) {
      wrong = "Nothing was typed: type at least one number, or choose another fibre below.";
    }
    FibreForm shown = new FibreForm(stop, key(), fields, why, again, whyWrong, wrong);
    return new Read(shown.anyWrong() ? null : new TypedEntries(key(), items), shown);
  }

  private String key() {
    return form.text("key");
  }

  /** When it was read: as the browser says, which may be long before it could be sent. */
  private Instant time(Instant otherwise) {
    String text = form.text("at");
    if (text.isEmpty()) {
      return otherwise;
    }
    Instant at;
    try {
      at = Instant.parse(text).truncatedTo(ChronoUnit.SECONDS);
    } catch (DateTimeException e) {
      throw new IllegalArgumentException("The browser sent a time that is none; send it again.", e);
    }
    if (at.isAfter(now.plus(AHEAD))) {
      throw new IllegalArgumentException(
          "The clock of this browser is ahead of the desk's: it says "
              + at
              + ", the desk "
              + otherwise
              + ". Set it right and send the form again.");
    }
    if (at.isBefore(Instant.parse("2000-01-01T00:00:00Z"))) {
      throw new IllegalArgumentException(
          "The clock of this browser says " + at + ". Set it right and send the form again.");
    }
    return at;
  }

  private record Checked(FibreForm.Field field, OptionalDouble value) {}

  private Checked check(FibreForm.Field blank) {
    String typed = form.get(blank.name());
    boolean newThere =
        !typed.isBlank() && !form.text("k" + blank.wavelength().nm()).equals("" + blank.known());
    if (typed.isBlank()) {
      return new Checked(blank, OptionalDouble.empty());
    }
    TypedNumber.Outcome outcome = TypedNumber.read(typed, setup.kind());
    if (outcome instanceof TypedNumber.Refused refused) {
      return new Checked(
          field(blank, typed, refused.line(typed.strip()), Optional.empty(), newThere),
          OptionalDouble.empty());
    }
    double value = ((TypedNumber.Number) outcome).value();
    if (setup.kind() == TypedNumber.Kind.LEVEL && blank.zeroDbm().isEmpty()) {
      return new Checked(
          field(
              blank,
              typed,
              "Zero "
                  + setup.zero()
                  + " has no level at "
                  + blank.wavelength()
                  + " "
                  + setup.direction().word()
                  + ": choose another zero above, or type a loss.",
              Optional.empty(),
              newThere),
          OptionalDouble.empty());
    }
    Optional<Slip> slip =
        form.get("sure" + blank.wavelength().nm()).equals(typed)
            ? Optional.empty()
            : Slip.of(setup.kind(), value, blank.zeroDbm());
    return new Checked(
        field(blank, typed, "", slip, newThere),
        slip.isPresent() || newThere ? OptionalDouble.empty() : OptionalDouble.of(value));
  }

  private static FibreForm.Field field(
      FibreForm.Field blank, String typed, String wrong, Optional<Slip> slip, boolean newThere) {
    return new FibreForm.Field(
        blank.wavelength(),
        typed,
        wrong,
        slip,
        blank.there(),
        newThere,
        blank.zeroDbm(),
        blank.limitDb(),
        blank.expectedDb());
  }

  private TypedEntries.Item item(
      FibreForm.Field field, double value, Instant at, String why, boolean again) {
    Optional<KeptReading> there = field.there();
    if (there.isPresent() && !again) {
      KeptReading wrong = there.get();
      return new TypedEntries.Correct(
          reading(field.wavelength(), value, wrong.reading().measuredAt()), wrong.seq(), why);
    }
    return new TypedEntries.Add(
        reading(field.wavelength(), value, at), field.known(), there.isPresent() ? why : "");
  }

  private Reading reading(Wavelength wavelength, double value, Instant at) {
    boolean level = setup.kind() == TypedNumber.Kind.LEVEL;
    return new Reading(
        stop.fibre().link(),
        stop.fibre().fibre(),
        setup.direction(),
        wavelength,
        level ? value : Double.NaN,
        level ? Double.NaN : value,
        Double.NaN,
        setup.zero(),
        at,
        setup.operator());
  }
}
