package ferrule.app.demo;

import ferrule.app.demo.Session.Crew;
import ferrule.app.demo.Session.Plant;
import ferrule.core.optics.FibreKind;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Set;

/** Who tested when, with what kind of fibre, and what went wrong. Fixed; the seed varies the glass. */
final class DemoPlan {

  static final Crew ADA = new Crew("Ada", "A");
  static final Crew BRUNO = new Crew("Bruno", "B");
  static final Crew CHIDI = new Crew("Chidi", "C");
  static final List<Crew> CREWS = List.of(ADA, BRUNO, CHIDI);

  /** Chidi's far-end set may be used up to and including this day; he works the day after too. */
  static final String CHIDI_CALIBRATION_DUE = "2026-10-13";

  private DemoPlan() {}

  static final List<Session> SESSIONS =
      List.of(
          session("Z01", ADA, "2026-10-12T08:05", FibreKind.SINGLE_MODE, 9),
          session("Z02", BRUNO, "2026-10-12T08:10", FibreKind.MULTIMODE, 12),
          session("Z03", CHIDI, "2026-10-12T08:20", FibreKind.MULTIMODE, 12),
          session("Z04", ADA, "2026-10-12T13:00", FibreKind.SINGLE_MODE, 4, Plant.DIRTY_ZERO),
          session("Z05", BRUNO, "2026-10-12T13:05", FibreKind.MULTIMODE, 9, Plant.WENT_ON),
          session("Z06", CHIDI, "2026-10-12T13:10", FibreKind.MULTIMODE, 4, Plant.UNVERIFIED),
          session("Z07", ADA, "2026-10-13T08:00", FibreKind.SINGLE_MODE, 9),
          session("Z08", BRUNO, "2026-10-13T09:10", FibreKind.MULTIMODE, 12),
          session("Z09", CHIDI, "2026-10-13T08:15", FibreKind.MULTIMODE, 12),
          session("Z10", ADA, "2026-10-13T13:00", FibreKind.SINGLE_MODE, 3, Plant.LOW_POWER),
          session("Z11", BRUNO, "2026-10-13T13:00", FibreKind.MULTIMODE, 11),
          session("Z12", CHIDI, "2026-10-13T13:20", FibreKind.MULTIMODE, 10),
          session("Z13", ADA, "2026-10-14T08:00", FibreKind.SINGLE_MODE, 9),
          session("Z14", BRUNO, "2026-10-14T08:10", FibreKind.MULTIMODE, 4, Plant.TWO_CORD),
          session("Z15", CHIDI, "2026-10-14T08:20", FibreKind.MULTIMODE, 4),
          session("Z16", ADA, "2026-10-14T13:00", FibreKind.SINGLE_MODE, 8),
          session("Z17", BRUNO, "2026-10-14T13:10", FibreKind.MULTIMODE, 12));

  private static Session session(
      String zero, Crew crew, String localTime, FibreKind kind, int links, Plant... plants) {
    return new Session(
        zero, crew, OffsetDateTime.parse(localTime + ":00+02:00"), kind, links, Set.of(plants));
  }
}
