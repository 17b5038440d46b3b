package ferrule.app.desk.page;

import ferrule.core.plant.FibreId;
import ferrule.core.trust.Ledger;
import java.util.ArrayList;
import java.util.List;

/**
 * Fibres that follow one another: some of one link, or all of several links in a row of the
 * schedule.
 *
 * @param shown "K014/1", "K014/1 to 4", "all fibres of K014 to K021 (8 links)"
 * @param address where the first of them is shown; empty if it is not in the schedule
 */
public record FibreSpan(String shown, String address) {

  /** From this many whole links on they are named together. */
  private static final int FEW_LINKS = 3;

  /** Part of one link. */
  private record Piece(String link, int first, int last, int slot, boolean whole) {

    boolean isFollowedBy(FibreId fibre) {
      return link.equals(fibre.link()) && last + 1 == fibre.fibre();
    }

    String shown() {
      return link + "/" + first + (last > first ? " to " + last : "");
    }

    String address() {
      return slot < 0 ? "" : Urls.fibre(new FibreId(link, first));
    }
  }

  /** Joins neighbours; the order of the fibres is kept. */
  public static List<FibreSpan> of(Ledger ledger, List<FibreId> fibres) {
    List<Piece> pieces = pieces(ledger, fibres);
    List<FibreSpan> spans = new ArrayList<>();
    for (int i = 0; i < pieces.size(); ) {
      int end = i + 1;
      while (end < pieces.size() && follows(pieces.get(end - 1), pieces.get(end))) {
        end++;
      }
      if (end - i >= FEW_LINKS) {
        Piece first = pieces.get(i);
        String shown =
            "all fibres of "
                + first.link()
                + " to "
                + pieces.get(end - 1).link()
                + " ("
                + (end - i)
                + " links)";
        spans.add(new FibreSpan(shown, first.address()));
      } else {
        pieces.subList(i, end).forEach(p -> spans.add(new FibreSpan(p.shown(), p.address())));
      }
      i = end;
    }
    return spans;
  }

  private static boolean follows(Piece before, Piece after) {
    return before.whole()
        && after.whole()
        && before.slot() + before.last() - before.first() + 1 == after.slot();
  }

  private static List<Piece> pieces(Ledger ledger, List<FibreId> fibres) {
    List<Piece> pieces = new ArrayList<>();
    for (FibreId fibre : fibres) {
      Piece open = pieces.isEmpty() ? null : pieces.get(pieces.size() - 1);
      boolean joins = open != null && open.isFollowedBy(fibre);
      int first = joins && open != null ? open.first() : fibre.fibre();
      int slot = joins && open != null ? open.slot() : ledger.slotOf(fibre);
      boolean whole = first == 1 && slot >= 0 && ledger.link(slot).fibres() == fibre.fibre();
      Piece piece = new Piece(fibre.link(), first, fibre.fibre(), slot, whole);
      if (joins) {
        pieces.set(pieces.size() - 1, piece);
      } else {
        pieces.add(piece);
      }
    }
    return pieces;
  }
}
