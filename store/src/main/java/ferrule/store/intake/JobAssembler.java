package ferrule.store.intake;

import ferrule.core.Problem;
import ferrule.core.array.MeasuredPosition;
import ferrule.core.face.FacePicture;
import ferrule.core.face.GradedFace;
import ferrule.core.job.Job;
import ferrule.core.job.Requirement;
import ferrule.core.optics.Decibels;
import ferrule.core.plant.Cord;
import ferrule.core.plant.FeedTree;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import ferrule.store.intake.TableRow.CordRow;
import ferrule.store.intake.TableRow.FaceRow;
import ferrule.store.intake.TableRow.GradeRow;
import ferrule.store.intake.TableRow.InstrumentRow;
import ferrule.store.intake.TableRow.LinkRow;
import ferrule.store.intake.TableRow.PartRow;
import ferrule.store.intake.TableRow.PolarityRow;
import ferrule.store.intake.TableRow.ReadingRow;
import ferrule.store.intake.TableRow.ReferenceRow;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Puts rows together to a job. What only shows when tables meet is checked here: rows of one zero
 * that disagree about its method, and a reading whose power and loss contradict the zero.
 *
 * <p>Rows that were stored are trusted; rows that come in anew are checked by {@link #admit}.
 */
public final class JobAssembler {

  private static final class OpenZero {
    Method method;
    final List<ZeroLevel> levels = new ArrayList<>();

    OpenZero(Method method) {
      this.method = method;
    }
  }

  private final List<Link> links = new ArrayList<>();
  private final List<Instrument> instruments = new ArrayList<>();
  private final List<Cord> cords = new ArrayList<>();
  private final Map<String, OpenZero> zeros = new LinkedHashMap<>();
  private final List<Reading> readings = new ArrayList<>();
  private final List<FacePicture> faces = new ArrayList<>();
  private final List<GradedFace> graded = new ArrayList<>();
  private final ArrayAdmission arrays = new ArrayAdmission();
  private final List<MeasuredPosition> positions = new ArrayList<>();
  private String lastReference = "";
  private @Nullable OpenZero lastZero;

  /** Adds a row that is known to fit. */
  public void add(TableRow row) {
    if (row instanceof ReadingRow reading) {
      readings.add(reading.reading());
    } else if (row instanceof LinkRow link) {
      links.add(link.link());
      knowLink(link.link().id());
    } else if (row instanceof InstrumentRow instrument) {
      instruments.add(instrument.instrument());
    } else if (row instanceof CordRow cord) {
      cords.add(cord.cord());
    } else if (row instanceof ReferenceRow reference) {
      zeros
          .computeIfAbsent(reference.reference(), k -> new OpenZero(reference.method()))
          .levels
          .add(reference.level());
    } else if (row instanceof FaceRow face) {
      faces.add(face.face());
    } else if (row instanceof GradeRow grade) {
      graded.add(grade.grade());
    } else if (row instanceof PartRow part) {
      arrays.put(part.part());
    } else if (row instanceof PolarityRow polarity) {
      positions.add(polarity.position());
    }
  }

  /** Notes that a link of this name is in the schedule, so that rows may speak of it. */
  public void knowLink(String id) {
    arrays.knowLink(id);
  }

  /**
   * Puts a row in the place of the earlier one of its name; only zeros and parts are checked
   * against.
   */
  public void correct(TableRow row) {
    if (row instanceof ReferenceRow reference) {
      OpenZero open = zeros.get(reference.reference());
      if (open != null) {
        ZeroLevel level = reference.level();
        open.levels.replaceAll(
            old ->
                old.direction() == level.direction() && old.wavelength().equals(level.wavelength())
                    ? level
                    : old);
      }
    } else if (row instanceof PartRow part) {
      arrays.put(part.part());
    }
  }

  /** How many levels the zero of this name has so far. */
  public int levels(String reference) {
    OpenZero open = zeros.get(reference);
    return open == null ? 0 : open.levels.size();
  }

  /** Gives a zero, all of whose levels are about to be corrected, another method. */
  public void changeMethod(String reference, Method method) {
    OpenZero open = zeros.get(reference);
    if (open != null) {
      open.method = method;
    }
  }

  /**
   * Checks a row that comes in anew against what is there; zeros must come before readings, links
   * before parts and parts before measured positions.
   *
   * @param file name to show
   * @param rowNumber row to show
   * @param problems takes what does not fit
   * @return whether it fits; the row is not added
   */
  public boolean admit(TableRow row, String file, long rowNumber, Consumer<Problem> problems) {
    if (row instanceof ReadingRow reading) {
      return admit(reading.reading(), file, rowNumber, problems);
    }
    if (row instanceof PartRow part) {
      return arrays.admit(part.part(), file, rowNumber, problems);
    }
    if (row instanceof PolarityRow polarity) {
      return arrays.admit(polarity.position(), file, rowNumber, problems);
    }
    if (row instanceof ReferenceRow reference) {
      OpenZero open = zeros.get(reference.reference());
      if (open != null && open.method != reference.method()) {
        problems.accept(
            new Problem(
                file,
                rowNumber,
                "method",
                open.method.word() + ", as in the other rows of " + reference.reference(),
                reference.method().word(),
                "one zero has one method: correct it or give the row another reference"));
        return false;
      }
    }
    return true;
  }

  private boolean admit(Reading reading, String file, long rowNumber, Consumer<Problem> problems) {
    if (!reading.hasPower() || !reading.hasLoss()) {
      return true;
    }
    if (lastZero == null || !lastReference.equals(reading.reference())) {
      lastReference = reading.reference();
      lastZero = zeros.get(lastReference);
    }
    if (lastZero == null) {
      return true;
    }
    for (ZeroLevel level : lastZero.levels) {
      if (level.direction() == reading.direction()
          && level.wavelength().nm() == reading.wavelength().nm()) {
        double stored = level.power().value();
        if (!reading.contradicts(stored)) {
          return true;
        }
        problems.accept(
            new Problem(
                file,
                rowNumber,
                "loss_db",
                Decibels.shown(stored - reading.powerDbm())
                    + " dB within "
                    + Reading.POWER_LOSS_AGREEMENT_DB
                    + " dB (zero "
                    + reading.reference()
                    + " at "
                    + Decibels.shown(stored)
                    + " dBm less power_dbm "
                    + Decibels.shown(reading.powerDbm())
                    + ")",
                Decibels.shown(reading.lossDb()) + " dB",
                "find out which of power, loss and reference is wrong"));
        return false;
      }
    }
    return true;
  }

  /** The job. */
  public Job assemble(Requirement requirement) {
    List<Zero> finished = new ArrayList<>();
    zeros.forEach((id, open) -> finished.add(new Zero(id, open.method, open.levels)));
    return new Job(
        requirement,
        FeedTree.paths(links),
        instruments,
        cords,
        ScheduleOrder.of(finished),
        ScheduleOrder.of(links, readings),
        faces,
        graded,
        arrays.parts(),
        positions);
  }
}
