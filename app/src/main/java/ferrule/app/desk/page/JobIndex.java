package ferrule.app.desk.page;

import ferrule.core.plant.FibreId;
import ferrule.core.plant.Link;
import ferrule.core.trust.Doubt;
import ferrule.core.trust.FibreJudgement;
import ferrule.core.trust.Judgement;
import ferrule.core.trust.Proposal;
import ferrule.core.trust.Proposals;
import ferrule.core.trust.Subject;
import ferrule.core.trust.ZeroTrust;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;

/**
 * What the pages look up in a judgement: links, zeros and doubts by name, and the places. Made once
 * for each judgement.
 */
public final class JobIndex {

  private final Judgement judgement;
  private final Map<String, Link> links = new HashMap<>();
  private final Map<String, ZeroTrust> zeros = new HashMap<>();
  private final List<DoubtEntry> doubts;
  private final Map<Doubt, DoubtEntry> byDoubt = new IdentityHashMap<>();
  private final Map<Subject, List<DoubtEntry>> bySubject = new LinkedHashMap<>();
  private final List<String> places;
  private final List<Proposal> proposals;

  /** Looks through a judgement once. */
  public JobIndex(Judgement judgement) {
    this.judgement = judgement;
    TreeSet<String> named = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
    for (Link link : judgement.ledger().job().links()) {
      links.put(link.id(), link);
      named.add(link.a().place());
      named.add(link.b().place());
    }
    named.remove("");
    this.places = List.copyOf(named);
    this.proposals = Proposals.of(judgement);
    judgement.zeros().forEach(zero -> zeros.put(zero.zero().id(), zero));
    this.doubts = List.copyOf(entries());
    for (DoubtEntry entry : doubts) {
      byDoubt.put(entry.doubt(), entry);
      bySubject.computeIfAbsent(entry.doubt().subject(), k -> new ArrayList<>()).add(entry);
    }
  }

  /** Doubts that block first, each part in the judgement's order. */
  private List<DoubtEntry> entries() {
    List<Doubt> all = judgement.doubts();
    List<Integer> order = new ArrayList<>(all.size());
    for (boolean blocking : new boolean[] {true, false}) {
      for (int i = 0; i < all.size(); i++) {
        if (all.get(i).blocking() == blocking) {
          order.add(i);
        }
      }
    }
    List<DoubtEntry> entries = new ArrayList<>(all.size());
    for (int place = 0; place < order.size(); place++) {
      int at = order.get(place);
      Doubt doubt = all.get(at);
      entries.add(
          new DoubtEntry(
              at + 1,
              Urls.doubt(place, at + 1),
              address(doubt.subject()),
              doubt,
              judgement.ledger()));
    }
    return entries;
  }

  private String address(Subject subject) {
    return switch (subject.type()) {
      case REFERENCE -> zeros.containsKey(subject.id()) ? Urls.zero(subject.id()) : "";
      case LINK -> links.containsKey(subject.id()) ? Urls.link(subject.id()) : "";
      case FIBRE -> fibre(subject.id()).map(Urls::fibre).orElse("");
      case PLACE -> places.contains(subject.id()) ? Urls.place(subject.id()) : "";
      case CORD, INSTRUMENT, JOB -> "";
    };
  }

  /** The scheduled fibre written "K014/2". */
  private Optional<FibreId> fibre(String written) {
    return FibreId.ofWritten(written).filter(f -> judgement.ledger().slotOf(f) >= 0);
  }

  /** The judgement. */
  public Judgement judgement() {
    return judgement;
  }

  /** A link of the schedule. */
  public Optional<Link> link(String id) {
    return Optional.ofNullable(links.get(id));
  }

  /** A zero on record. */
  public Optional<ZeroTrust> zero(String id) {
    return Optional.ofNullable(zeros.get(id));
  }

  /** The fibres of a link, in order. */
  public List<FibreJudgement> fibres(Link link) {
    int first = judgement.ledger().slotOf(new FibreId(link.id(), 1));
    return judgement.fibres().subList(first, first + link.fibres());
  }

  /** Every doubt, those that block first. */
  public List<DoubtEntry> doubts() {
    return doubts;
  }

  /** The entry of a doubt of this judgement. */
  public Optional<DoubtEntry> entry(Doubt doubt) {
    return Optional.ofNullable(byDoubt.get(doubt));
  }

  /** Doubts about one thing. */
  public List<DoubtEntry> about(Subject subject) {
    return bySubject.getOrDefault(subject, List.of());
  }

  /** Where fibres would stand with estimated shifts of zeros taken out. */
  public List<Proposal> proposals() {
    return proposals;
  }

  /** Every place at which a link ends, in alphabetical order. */
  public List<String> places() {
    return places;
  }
}
