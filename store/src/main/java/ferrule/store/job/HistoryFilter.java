package ferrule.store.job;

import ferrule.core.plant.FibreId;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/** Which entries of a history are asked for. Used for one log only: it learns on the way. */
public abstract class HistoryFilter {

  private HistoryFilter() {}

  abstract boolean asksFor(Entry entry, EntryKind kind, Map<String, String> values);

  /** All entries. */
  public static HistoryFilter everything() {
    return new HistoryFilter() {
      @Override
      boolean asksFor(Entry entry, EntryKind kind, Map<String, String> values) {
        return true;
      }
    };
  }

  /** What was taken in when, joins, and every correction; not each row. */
  public static HistoryFilter course() {
    return new HistoryFilter() {
      @Override
      boolean asksFor(Entry entry, EntryKind kind, Map<String, String> values) {
        return entry.supersedes() != 0
            || kind == EntryKind.JOB
            || kind == EntryKind.INTAKE
            || kind == EntryKind.JOIN;
      }
    };
  }

  /**
   * A fibre's readings, its link and the parts of it, and the faces at its ports.
   *
   * @param id the fibre
   */
  public static HistoryFilter fibre(FibreId id) {
    return new HistoryFilter() {
      private final Set<String> ports = new HashSet<>();

      @Override
      boolean asksFor(Entry entry, EntryKind kind, Map<String, String> values) {
        boolean ofLink = id.link().equals(values.get("link"));
        return switch (kind) {
          case READING, WITHDRAWAL ->
              ofLink && Integer.toString(id.fibre()).equals(values.get("fibre"));
          case LINK -> {
            if (ofLink) {
              ports.add("port:" + values.get("a_port") + "/" + id.fibre());
              ports.add("port:" + values.get("b_port") + "/" + id.fibre());
            }
            yield ofLink;
          }
          case PART, POLARITY -> ofLink;
          case FACE, GRADE -> ports.contains(values.getOrDefault("subject", ""));
          case JOB, INSTRUMENT, CORD, REFERENCE, INTAKE, JOIN -> false;
        };
      }
    };
  }

  /** A zero's levels and the readings under it. */
  public static HistoryFilter zero(String id) {
    return new HistoryFilter() {
      @Override
      boolean asksFor(Entry entry, EntryKind kind, Map<String, String> values) {
        return (kind == EntryKind.REFERENCE || kind == EntryKind.READING)
            && id.equals(values.get("reference"));
      }
    };
  }

  /** A cord, the levels of zeros that name it, and the faces of its ends. */
  public static HistoryFilter cord(String id) {
    return new HistoryFilter() {
      @Override
      boolean asksFor(Entry entry, EntryKind kind, Map<String, String> values) {
        return switch (kind) {
          case CORD -> id.equals(entry.name());
          case REFERENCE ->
              id.equals(values.get("launch_cord"))
                  || id.equals(values.get("receive_cord"))
                  || id.equals(values.get("substitution_cord"));
          case FACE, GRADE -> values.getOrDefault("subject", "").startsWith("cord:" + id + "/");
          case JOB, LINK, INSTRUMENT, READING, WITHDRAWAL, PART, POLARITY, INTAKE, JOIN -> false;
        };
      }
    };
  }
}
