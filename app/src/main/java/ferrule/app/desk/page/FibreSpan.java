package ferrule.app.desk.page;

import ferrule.core.plant.FibreId;
import java.util.ArrayList;
import java.util.List;

/**
 * Fibres of one link that follow one another: "K014/1 to 4".
 *
 * @param link id of the link
 * @param first number of the first fibre
 * @param last number of the last fibre
 */
public record FibreSpan(String link, int first, int last) {

  /** Joins neighbours; the order of the fibres is kept. */
  public static List<FibreSpan> of(List<FibreId> fibres) {
    List<FibreSpan> spans = new ArrayList<>();
    FibreSpan open = null;
    for (FibreId fibre : fibres) {
      if (open != null && open.link.equals(fibre.link()) && open.last + 1 == fibre.fibre()) {
        open = new FibreSpan(open.link, open.first, fibre.fibre());
        spans.set(spans.size() - 1, open);
      } else {
        open = new FibreSpan(fibre.link(), fibre.fibre(), fibre.fibre());
        spans.add(open);
      }
    }
    return spans;
  }

  /** "K014/1", "K014/1 to 4". */
  public String shown() {
    return link + "/" + first + (last > first ? " to " + last : "");
  }

  /** Where its first fibre is shown. */
  public String address() {
    return Urls.fibre(new FibreId(link, first));
  }
}
