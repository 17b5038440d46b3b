package ferrule.store.job;

import ferrule.core.plant.FibreId;
import ferrule.core.zero.Reading;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Every reading as entered, by fibre, with what became of it; and which keys are stored. */
final class ReadingHistory {

  private final Map<FibreId, List<KeptReading>> byFibre = new HashMap<>();
  private final Map<Long, FibreId> fibreOf = new HashMap<>();
  private final Map<String, List<Long>> byKey = new LinkedHashMap<>();
  private final List<Long> typed = new ArrayList<>();
  private String lastText = "";
  private Instant lastTime = Instant.EPOCH;

  void entered(Entry entry, Reading reading) {
    boolean byHand = entry.file().equals(TypedEntries.TYPED);
    Instant at = time(entry.enteredAt());
    if (entry.supersedes() != 0) {
      end(entry.supersedes(), new KeptReading.End(entry.seq(), false, at, entry.why()));
    }
    FibreId fibre = reading.fibreId();
    byFibre
        .computeIfAbsent(fibre, k -> new ArrayList<>(4))
        .add(
            new KeptReading(
                entry.seq(),
                reading,
                at,
                entry.file(),
                byHand ? entry.intake() : "",
                entry.supersedes(),
                entry.why(),
                Optional.empty()));
    fibreOf.put(entry.seq(), fibre);
    if (byHand) {
      typed.add(entry.seq());
      key(entry);
    }
  }

  void withdrawn(Entry entry) {
    end(
        entry.supersedes(),
        new KeptReading.End(entry.seq(), true, time(entry.enteredAt()), entry.why()));
    if (entry.file().equals(TypedEntries.TYPED)) {
      key(entry);
    }
  }

  /** The rows of one table were entered at one time: one object for one time. */
  private Instant time(String text) {
    if (!text.equals(lastText)) {
      lastTime = Instant.parse(text);
      lastText = text;
    }
    return lastTime;
  }

  /** Notes the key of an entry that is typed, whatever it is. */
  void key(Entry entry) {
    byKey.computeIfAbsent(entry.intake(), k -> new ArrayList<>(2)).add(entry.seq());
  }

  private void end(long seq, KeptReading.End by) {
    FibreId fibre = fibreOf.get(seq);
    if (fibre != null) {
      byFibre
          .getOrDefault(fibre, List.of())
          .replaceAll(kept -> kept.seq() == seq ? kept.endedBy(by) : kept);
    }
  }

  /** Every reading of a fibre in the order entered. */
  List<KeptReading> of(FibreId fibre) {
    return List.copyOf(byFibre.getOrDefault(fibre, List.of()));
  }

  /** The reading with this number. */
  Optional<KeptReading> find(long seq) {
    return Optional.ofNullable(fibreOf.get(seq)).stream()
        .flatMap(fibre -> byFibre.getOrDefault(fibre, List.of()).stream())
        .filter(kept -> kept.seq() == seq)
        .findFirst();
  }

  /** Numbers of the entries stored under a key; empty if none is. */
  List<Long> under(String key) {
    return List.copyOf(byKey.getOrDefault(key, List.of()));
  }

  /** Numbers of the readings typed, the first first. */
  List<Long> typed() {
    return typed;
  }
}
