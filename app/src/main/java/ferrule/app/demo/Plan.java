package ferrule.app.demo;

import ferrule.app.demo.Session.Slip;
import ferrule.app.demo.Session.Stint;
import ferrule.core.plant.Link;
import java.time.OffsetDateTime;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/** Who tested what, when and with what: four days of one week in October 2026. */
final class Plan {

  private static final String HUB = "Office, room 0.12";
  private static final String PRESS = "Press hall, comms";
  private static final String TANKS = "Tank house, comms";
  private static final String FILLING = "Filling hall, comms";
  private static final String COLD = "Cold store, comms";

  /** Both ends of a zero, verified, with warm-up and cleaning. */
  private static final int MINUTES_TO_ZERO = 16;

  static final List<Session> SESSIONS =
      List.of(
          ada("Z01", "12T08:05", Kit.S1, Slip.NONE, hub(1, 2, PRESS, 405, 450).with(0, 2)),
          bruno(
              "Z02",
              "12T08:10",
              Kit.S2,
              Slip.NONE,
              Block.singleMode(22, 12, 2, FILLING, "Filling hall, lines", 84, 190).with(0, 2)),
          chidi(
              "Z03",
              "12T08:20",
              Kit.CHIDI_FAR,
              Kit.M1,
              Slip.NONE,
              Block.multimode(1, 12, 2, FILLING, "Filling hall, lines", 20, 95)),
          ada(
              "Z04",
              "12T13:00",
              Kit.S1,
              Slip.NONE,
              hub(3, 1, TANKS, 760, 800).with(0, 3),
              Block.singleMode(4, 4, 2, HUB, "Gatehouse", 210, 330).with(1, 2)),
          brunoOvernight(),
          chidi(
              "Z06",
              "12T13:10",
              Kit.CHIDI_FAR,
              Kit.M2,
              Slip.UNVERIFIED,
              Block.multimode(13, 8, 2, PRESS, "Press hall, presses", 25, 85)),
          ada(
              "Z07",
              "13T08:00",
              Kit.S2,
              Slip.DIRTY,
              Block.singleMode(8, 9, 2, HUB, "Office, floors", 80, 170)),
          chidi(
              "Z08",
              "13T08:15",
              Kit.CHIDI_FAR,
              Kit.M3,
              Slip.NONE,
              Block.multimode(21, 2, 12, HUB, FILLING, 105, 140).with(1, 0)),
          ada("Z09", "13T13:00", Kit.S1, Slip.NONE, hub(17, 2, COLD, 1120, 1260).with(1, 3)),
          bruno(
              "Z10",
              "13T13:00",
              Kit.S2,
              Slip.TWO_CORD,
              Block.singleMode(50, 6, 2, TANKS, "Tank house, farm", 95, 260).with(0, 2)),
          chidi(
              "Z11",
              "13T13:20",
              Kit.CHIDI_FAR,
              Kit.M1,
              Slip.NONE,
              Block.multimode(23, 12, 2, HUB, "Office, floors", 30, 95)),
          ada(
              "Z12",
              "14T08:00",
              Kit.ANGLED,
              Slip.NONE,
              hub(19, 1, "Spring house", 2380, 2420).with(1, 4).withAngledEnds(),
              hub(20, 1, "Energy house", 620, 660).with(0, 2).withAngledEnds()),
          bruno(
              "Z13",
              "14T08:10",
              Kit.S1,
              Slip.NONE,
              Block.singleMode(56, 10, 2, PRESS, "Press hall, presses", 110, 300).with(0, 2)),
          chidi(
              "Z14",
              "14T08:20",
              Kit.CHIDI_FAR,
              Kit.M2,
              Slip.NONE,
              Block.multimode(35, 8, 2, COLD, "Cold store, docks", 40, 120)),
          ada("Z15", "14T13:00", Kit.S3, Slip.MODULATED, hub(21, 1, FILLING, 300, 330).with(0, 2)),
          chidi(
              "Z16",
              "15T08:15",
              Kit.CHIDI_FAR_LATER,
              Kit.M3,
              Slip.NONE,
              Block.multimode(43, 12, 2, TANKS, "Tank house, farm", 35, 130)));

  private Plan() {}

  /** Every scheduled link, by name. */
  static List<Link> links() {
    return SESSIONS.stream()
        .flatMap(session -> session.stints().stream())
        .flatMap(stint -> stint.block().links().stream())
        .sorted(
            Comparator.comparing((Link link) -> link.category().kind())
                .reversed()
                .thenComparing(Link::id))
        .toList();
  }

  private static Block hub(int first, int count, String to, int shortestM, int longestM) {
    return Block.singleMode(first, count, 12, HUB, to, shortestM, longestM);
  }

  private static Session ada(String zero, String at, Kit.Pair cords, Slip slip, Block... blocks) {
    return session(zero, Crew.ADA, at, Kit.ADA_NEAR, Kit.ADA_FAR, cords, slip, blocks);
  }

  private static Session bruno(String zero, String at, Kit.Pair cords, Slip slip, Block... blocks) {
    return session(zero, Crew.BRUNO, at, Kit.BRUNO_NEAR, Kit.BRUNO_FAR, cords, slip, blocks);
  }

  private static Session chidi(
      String zero, String at, Kit.Set far, Kit.Pair cords, Slip slip, Block... blocks) {
    return session(zero, Crew.CHIDI, at, Kit.CHIDI_NEAR, far, cords, slip, blocks);
  }

  /** Monday's zero of the afternoon, under which Bruno went on testing on Tuesday morning. */
  private static Session brunoOvernight() {
    Session monday =
        bruno(
            "Z05",
            "12T13:05",
            Kit.S3,
            Slip.NONE,
            Block.singleMode(34, 10, 2, COLD, "Cold store, aisles", 120, 380).with(1, 2));
    Stint tuesday =
        new Stint(
            at("13T07:40"),
            Block.singleMode(44, 6, 2, COLD, "Cold store, docks", 90, 240).with(0, 2));
    return new Session(
        monday.zero(),
        monday.crew(),
        monday.setAt(),
        monday.near(),
        monday.far(),
        monday.cords(),
        monday.slip(),
        List.of(monday.stints().get(0), tuesday));
  }

  /** Blocks follow one another: the first has the time of the start, each later one its own. */
  private static Session session(
      String zero,
      Crew crew,
      String dayAndTime,
      Kit.Set near,
      Kit.Set far,
      Kit.Pair cords,
      Slip slip,
      Block... blocks) {
    OffsetDateTime setAt = at(dayAndTime);
    List<Stint> stints =
        Arrays.stream(blocks)
            .map(block -> new Stint(setAt.plusMinutes(MINUTES_TO_ZERO), block))
            .toList();
    return new Session(zero, crew, setAt, near, far, cords, slip, stints);
  }

  private static OffsetDateTime at(String dayAndTime) {
    return OffsetDateTime.parse("2026-10-" + dayAndTime + ":00+02:00");
  }
}
