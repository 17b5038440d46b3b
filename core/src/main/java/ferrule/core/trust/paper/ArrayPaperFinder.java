package ferrule.core.trust.paper;

import ferrule.core.array.ArrayLink;
import ferrule.core.array.JobArrays;
import ferrule.core.array.Joint;
import ferrule.core.array.TransmitReceive;
import ferrule.core.array.TransmitReceive.Result;
import ferrule.core.plant.Link;
import ferrule.core.trust.Causes;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.DoubtFinder;
import ferrule.core.trust.DoubtKind;
import ferrule.core.trust.Evidence;
import ferrule.core.trust.Handling;
import ferrule.core.trust.Ledger;
import ferrule.core.trust.NextStep;
import ferrule.core.trust.Reach;
import ferrule.core.trust.Subject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/**
 * What the list of parts says by itself: {@code array-mating}, {@code transmit-receive}, and a
 * {@code paper-conflict} where parts and schedule differ. Nothing is held back: losses that were
 * read were read.
 */
public final class ArrayPaperFinder implements DoubtFinder {

  /** What keys of deeds about parts begin with. */
  public static final String KEY = "parts:";

  @Override
  public void find(Ledger ledger, Consumer<Doubt> out) {
    if (ledger.job().parts().isEmpty()) {
      return;
    }
    Map<String, Link> schedule = new HashMap<>();
    ledger.job().links().forEach(link -> schedule.put(link.id(), link));
    for (ArrayLink parts : new JobArrays(ledger.job().parts(), List.of()).links()) {
      Link link = schedule.get(parts.id());
      if (link != null) {
        count(link, parts, out);
        matings(link, parts, out);
        transmit(link, parts, out);
      }
    }
  }

  private static void count(Link link, ArrayLink parts, Consumer<Doubt> out) {
    if (link.fibres() > parts.positions()) {
      out.accept(
          new Doubt(
              DoubtKind.PAPER_CONFLICT,
              Subject.JOB,
              false,
              Reach.ofFibres(link.fibreIds()),
              List.of(
                  Evidence.of(
                      "what",
                      "link "
                          + link.id()
                          + " has "
                          + link.fibres()
                          + " fibres, its parts "
                          + parts.positions()
                          + " positions"),
                  Evidence.of("fibres", link.fibres())),
              Causes.ranked("two links were written as one", "the parts were counted wrong"),
              lookUp(link, "Compare the schedule of link " + link.id() + " with its parts")));
    }
  }

  private static void matings(Link link, ArrayLink parts, Consumer<Doubt> out) {
    List<String> misfits = new ArrayList<>();
    for (Joint joint : parts.joints()) {
      joint.misfits().forEach(m -> misfits.add(joint.named() + ": " + m));
    }
    if (misfits.isEmpty()) {
      return;
    }
    out.accept(
        new Doubt(
            DoubtKind.ARRAY_MATING,
            Subject.link(link.id()),
            false,
            Reach.ofFibres(link.fibreIds()),
            List.of(
                Evidence.of("what", String.join("; ", misfits)),
                Evidence.of("joints", misfits.size())),
            Causes.ranked("written down wrong", "a part of the wrong sort was built in"),
            lookUp(
                link,
                "Look at the ends at "
                    + misfits.get(0).replaceFirst(":.*", "")
                    + " before they are mated: pins, face and key")));
  }

  private static void transmit(Link link, ArrayLink parts, Consumer<Doubt> out) {
    TransmitReceive result = TransmitReceive.of(parts);
    if (result.result() != Result.BROKEN) {
      return;
    }
    out.accept(
        new Doubt(
            DoubtKind.TRANSMIT_RECEIVE,
            Subject.link(link.id()),
            false,
            Reach.ofFibres(link.fibreIds()),
            List.of(
                Evidence.of("what", result.why()),
                Evidence.of("map", parts.map().map(Object::toString).orElse(""))),
            Causes.ranked(
                "parts of two connectivity methods were mixed",
                "keys stand otherwise than written down",
                "the link serves something that is not wired in pairs"),
            lookUp(
                link,
                "Ask which connectivity method link "
                    + link.id()
                    + " is to follow, and compare its parts with it")));
  }

  private static NextStep lookUp(Link link, String todo) {
    return new NextStep(KEY + link.id(), todo, link.a().where(), Handling.LOOK_UP)
        .withResults(
            "The list of parts is found to be wrong and is put right",
            "It is built as listed: a part must be changed");
  }
}
