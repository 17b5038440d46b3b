package ferrule.app.face;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;
import java.util.function.Function;

/**
 * Does the same for many things on all cores and hands the results on in the order of the things.
 * Only a few are under way at once, so that memory does not grow with their number.
 */
public final class InOrder {

  private InOrder() {}

  /**
   * Does it.
   *
   * @param things what to do it for
   * @param work done on several threads at once
   * @param results takes the results on the calling thread
   * @throws IllegalStateException with its cause, if the work throws
   */
  public static <T, R> void run(Iterable<T> things, Function<T, R> work, Consumer<R> results) {
    int threads = Runtime.getRuntime().availableProcessors();
    ExecutorService workers = Executors.newFixedThreadPool(threads);
    try {
      Deque<Future<R>> underWay = new ArrayDeque<>();
      Iterator<T> rest = things.iterator();
      while (rest.hasNext() || !underWay.isEmpty()) {
        while (rest.hasNext() && underWay.size() < 2 * threads) {
          T next = rest.next();
          underWay.add(workers.submit(() -> work.apply(next)));
        }
        results.accept(underWay.remove().get());
      }
    } catch (ExecutionException e) {
      throw new IllegalStateException(e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    } finally {
      workers.shutdownNow();
    }
  }
}
