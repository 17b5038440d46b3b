package ferrule.app.desk.page;

import java.util.List;

/**
 * One page of a long list.
 *
 * @param items on this page
 * @param page from 1
 * @param pages how many there are, at least 1
 * @param total number of items on all pages
 * @param first number of the first item on this page, from 1; 0 if there is none
 */
public record Pager<T>(List<T> items, int page, int pages, int total, int first) {

  /** Copies the list. */
  public Pager {
    items = List.copyOf(items);
  }

  /**
   * Cuts a list.
   *
   * @param all every item
   * @param size items on a page
   * @param wanted page wished for, from 1; the nearest there is will be taken
   */
  public static <T> Pager<T> of(List<T> all, int size, int wanted) {
    int pages = Math.max(1, (all.size() + size - 1) / size);
    int page = Math.max(1, Math.min(pages, wanted));
    int from = (page - 1) * size;
    List<T> items = all.subList(from, Math.min(all.size(), from + size));
    return new Pager<>(items, page, pages, all.size(), items.isEmpty() ? 0 : from + 1);
  }

  /** The page on which an item stands, from 1. */
  static int pageOf(int place, int size) {
    return place / size + 1;
  }

  /** Number of the last item on this page; 0 if there is none. */
  public int last() {
    return items.isEmpty() ? 0 : first + items.size() - 1;
  }

  /** Whether there is a page before this one. */
  public boolean hasPrevious() {
    return page > 1;
  }

  /** Whether there is a page after this one. */
  public boolean hasNext() {
    return page < pages;
  }
}
