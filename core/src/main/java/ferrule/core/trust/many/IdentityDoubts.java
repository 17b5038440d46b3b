package ferrule.core.trust.many;

import ferrule.core.optics.Decibels;
import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Steps;
import ferrule.core.trust.Subject;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.function.Consumer;

/**
 * {@code port-shift} and {@code crossed}: readings that belong to other fibres than they are filed
 * under. They block, for what they prove is not known of these fibres.
 */
final class IdentityDoubts {

  private IdentityDoubts() {}

  private static Reach reach(LengthProfile profile, BitSet slots) {
    List<AssessedReading> readings = new ArrayList<>();
    slots.stream().forEach(slot -> readings.addAll(profile.current(slot)));
    readings.sort(Comparator.comparingInt(AssessedReading::index));
    return Reach.of(readings);
  }

  static Doubt shift(LengthProfile profile, LengthsFinder.Placed placed) {
    PortShift shift = placed.shift();
    PortRow row = shift.row();
    String first = port(profile, row, shift.from());
    String last = port(profile, row, shift.to() - 1);
    int by = Math.abs(shift.lag());
    Reach reach = reach(profile, shift.slots());
    List<Evidence> evidence = new ArrayList<>();
    evidence.add(
        Evidence.of(
            "what",
            "readings of ports "
                + first
                + " to "
                + last
                + " fit the schedule "
                + Steps.count(by, "port")
                + (shift.lag() > 0 ? " further on" : " further back")
                + (placed.alsoAt().isEmpty()
                    ? ""
                    : "; as likely at " + String.join(", ", placed.alsoAt()))));
    evidence.add(Evidence.of("lag", shift.lag()));
    evidence.add(Evidence.of("ports", shift.to() - shift.from()));
    evidence.add(Evidence.of("ports_telling", shift.telling()));
    evidence.add(Evidence.of("log_likelihood_ratio", shift.logRatio()));
    evidence.add(Evidence.of("first_port", first));
    evidence.add(Evidence.of("last_port", last));
    if (!placed.alsoAt().isEmpty()) {
      evidence.add(
          Evidence.of(
              "cannot_be_told",
              "the same fibres end in the same order at "
                  + String.join(", ", placed.alsoAt())
                  + ": the readings do not tell at which end the ports are moved"));
    }
    List<String> causes = new ArrayList<>();
    if (row.endsBefore(shift.from())) {
      causes.add(
          shift.lag() > 0 ? "started on a later port" : "a name was used twice at the start");
      causes.add("labels of the panel are offset");
      causes.add("a port was skipped");
    } else {
      causes.add(shift.lag() > 0 ? "a port was skipped" : "a port was read twice, under two names");
      causes.add("labels are offset from here on");
    }
    return new Doubt(
        DoubtKind.PORT_SHIFT,
        new Subject(Subject.Type.PLACE, row.place()),
        true,
        reach,
        evidence,
        Causes.ranked(causes.toArray(String[]::new)),
        new NextStep(
            "ports:" + shift.slots().stream().min().orElse(0),
            "Check with visible light the first and the last port moved ("
                + first
                + " and "
                + last
                + "): if the names slipped, file the readings under their own ports; otherwise"
                + " correct the labels",
            row.place(),
            2 * Handling.IDENTIFY,
            "The light of both comes out "
                + Steps.count(by, "port")
                + (shift.lag() > 0 ? " further on" : " further back")
                + ", as the readings say",
            "It comes out at the ports named: the schedule holds them in another order"));
  }

  private static String port(LengthProfile profile, PortRow row, int at) {
    return row.ports()[at].isEmpty() ? profile.link(row.links()[at]).id() : row.ports()[at];
  }

  /** One doubt for each of the two fibres; each reaches both. */
  static void crossed(
      LengthProfile profile, FibreMisfit misfit, CrossedPair pair, Consumer<Doubt> out) {
    BitSet both = new BitSet();
    both.set(pair.first());
    both.set(pair.second());
    Reach reach = reach(profile, both);
    FibreId first = profile.ledger().fibre(pair.first());
    FibreId second = profile.ledger().fibre(pair.second());
    Link link = profile.link(profile.linkOf(pair.first()));
    NextStep next =
        new NextStep(
            "identify:" + first + "+" + second,
            "Check with visible light which fibres carry the labels "
                + first
                + " and "
                + second
                + " at the far end: if crossed, put right the fibres or the labels and retest both",
            link.b().where(),
            Handling.IDENTIFY,
            "The light of " + first + " comes out at " + second + ": they are crossed",
            "Each comes out at its own label: compare their lengths in the schedule");
    out.accept(crossed(profile, misfit, pair.first(), pair.second(), pair, reach, next));
    out.accept(crossed(profile, misfit, pair.second(), pair.first(), pair, reach, next));
  }

  private static Doubt crossed(
      LengthProfile profile,
      FibreMisfit misfit,
      int slot,
      int other,
      CrossedPair pair,
      Reach reach,
      NextStep next) {
    int link = profile.linkOf(slot);
    int otherLink = profile.linkOf(other);
    FibreId fibre = profile.ledger().fibre(slot);
    FibreId partner = profile.ledger().fibre(other);
    List<Evidence> evidence = new ArrayList<>();
    if (profile.hasLength(slot)) {
      evidence.add(
          Evidence.of(
              "what",
              Decibels.shown(profile.measuredM(slot))
                  + " m measured, "
                  + Decibels.shown(profile.scheduledM(link))
                  + " m scheduled; "
                  + partner
                  + " the other way about: "
                  + Decibels.shown(profile.measuredM(other))
                  + " m measured, "
                  + Decibels.shown(profile.scheduledM(otherLink))
                  + " m scheduled"));
      evidence.add(Evidence.of("measured_m", profile.measuredM(slot)));
      evidence.add(Evidence.of("scheduled_m", profile.scheduledM(link)));
      evidence.add(Evidence.of("scheduled_exchanged_m", profile.scheduledM(otherLink)));
      evidence.add(Evidence.of("length_sd_m", misfit.sdM(profile.scheduledM(otherLink))));
    } else {
      evidence.add(
          Evidence.of(
              "what",
              "its loss fits "
                  + partner
                  + ", and that of "
                  + partner
                  + " fits this one; no length was measured"));
    }
    evidence.add(Evidence.of("partner", partner.toString()));
    double loss = misfit.losses().db(slot, link);
    double exchanged = misfit.losses().db(slot, otherLink);
    if (!Double.isNaN(loss) && !Double.isNaN(exchanged)) {
      evidence.add(Evidence.of("loss_beyond_expected_db", loss));
      evidence.add(Evidence.of("loss_beyond_expected_exchanged_db", exchanged));
    }
    evidence.add(Evidence.of("log_likelihood_ratio", pair.logRatio()));
    return new Doubt(
        DoubtKind.CROSSED,
        Subject.fibre(fibre),
        true,
        reach,
        evidence,
        Causes.ranked(
            "crossed at a panel, splice or cassette",
            "read in the wrong order",
            "labels exchanged",
            "the two lengths exchanged in the schedule"),
        next);
  }
}
