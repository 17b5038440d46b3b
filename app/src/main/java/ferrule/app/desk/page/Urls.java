package ferrule.app.desk.page;

import ferrule.core.plant.FibreId;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;

/** Addresses of the desk's pages. Ids may hold anything: slashes, blanks, quotes, umlauts. */
public final class Urls {

  private Urls() {}

  /** The page of a link. */
  public static String link(String id) {
    return inPath("/link", id);
  }

  /** A fibre on the page of its link. */
  public static String fibre(FibreId fibre) {
    int page = Pager.pageOf(fibre.fibre() - 1, LinkPage.FIBRES_A_PAGE);
    String link = link(fibre.link());
    String paged = page == 1 ? link : link + (link.contains("?") ? "&" : "?") + "page=" + page;
    return paged + "#f" + fibre.fibre();
  }

  /** The page of a zero. */
  public static String zero(String id) {
    return inPath("/zero", id);
  }

  /** A doubt among all doubts, by its place there. */
  static String doubt(int place, int number) {
    int page = Pager.pageOf(place, DoubtsPage.DOUBTS_A_PAGE);
    return "/doubts" + (page == 1 ? "" : "?page=" + page) + "#doubt-" + number;
  }

  /** Links of which a place is an end. */
  public static String place(String place) {
    return "/links?place=" + encoded(place);
  }

  /**
   * Browsers take the segments "." and ".." for steps in the path even when they are encoded, so
   * these two (and an empty id) go into the query.
   */
  private static String inPath(String prefix, String id) {
    return id.isEmpty() || id.equals(".") || id.equals("..")
        ? prefix + "?id=" + encoded(id)
        : prefix + "/" + encoded(id);
  }

  /** Percent-encoded, blanks as %20: good in a path segment and in a query. */
  public static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
  }
}
