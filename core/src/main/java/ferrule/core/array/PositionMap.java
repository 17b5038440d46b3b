package ferrule.core.array;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Where each position of one side arrives on the other: a permutation of 1 to n. Composed as light
 * goes: {@code first.then(second)}.
 */
public final class PositionMap {

  private final int[] to;

  private PositionMap(int[] to) {
    this.to = to;
  }

  /**
   * The map whose position i arrives at {@code arrivals[i - 1]}.
   *
   * @throws IllegalArgumentException if that is no permutation, with {@link #fault} as its message
   */
  public static PositionMap of(int... arrivals) {
    String fault = fault(arrivals);
    if (!fault.isEmpty()) {
      throw new IllegalArgumentException(fault);
    }
    return new PositionMap(arrivals.clone());
  }

  /**
   * Why this is no permutation of 1 to its length, for a reader; empty if it is one. An arrival of
   * 0 stands for a position that is not given.
   */
  public static String fault(int... arrivals) {
    int[] from = new int[arrivals.length + 1];
    for (int i = 0; i < arrivals.length; i++) {
      int at = arrivals[i];
      if (at == 0) {
        return "position " + (i + 1) + " leads nowhere";
      }
      if (at < 0 || at > arrivals.length) {
        return "position " + (i + 1) + " leads to " + at + ", beyond " + arrivals.length;
      }
      if (from[at] != 0) {
        return "positions " + from[at] + " and " + (i + 1) + " both lead to " + at;
      }
      from[at] = i + 1;
    }
    return "";
  }

  /** 1 to 1, 2 to 2. */
  public static PositionMap straight(int positions) {
    int[] to = new int[positions];
    Arrays.setAll(to, i -> i + 1);
    return new PositionMap(to);
  }

  /** 1 to n, 2 to n - 1. */
  public static PositionMap reversed(int positions) {
    int[] to = new int[positions];
    Arrays.setAll(to, i -> positions - i);
    return new PositionMap(to);
  }

  /**
   * 1 to 2, 2 to 1, 3 to 4, 4 to 3.
   *
   * @param positions even
   */
  public static PositionMap pairFlipped(int positions) {
    int[] to = new int[positions];
    Arrays.setAll(to, i -> (i ^ 1) + 1);
    return of(to);
  }

  /**
   * Ports to positions so that each pair of ports takes a position and its mirror image: 1 to 1, 2
   * to n, 3 to 2, 4 to n - 1. Reversing such a map exchanges the two ports of each pair, at either
   * end alike.
   *
   * @param positions even
   */
  public static PositionMap universal(int positions) {
    int[] to = new int[positions];
    Arrays.setAll(to, i -> i % 2 == 0 ? i / 2 + 1 : positions - i / 2);
    return of(to);
  }

  /** How many positions. */
  public int positions() {
    return to.length;
  }

  /**
   * Where a position arrives.
   *
   * @param position 1 to {@link #positions()}
   */
  public int at(int position) {
    return to[position - 1];
  }

  /** This map, then another of as many positions. */
  public PositionMap then(PositionMap next) {
    if (next.to.length != to.length) {
      throw new IllegalArgumentException(to.length + " positions, then " + next.to.length);
    }
    int[] both = new int[to.length];
    Arrays.setAll(both, i -> next.to[to[i] - 1]);
    return new PositionMap(both);
  }

  /** The way back. */
  public PositionMap inverse() {
    int[] back = new int[to.length];
    for (int i = 0; i < to.length; i++) {
      back[to[i] - 1] = i + 1;
    }
    return new PositionMap(back);
  }

  /** Where each position arrives, from position 1 on. */
  public List<Integer> arrivals() {
    return Arrays.stream(to).boxed().toList();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof PositionMap map && Arrays.equals(to, map.to);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(to);
  }

  /** "1>12 2>11 3>10", as parts.csv takes it. */
  @Override
  public String toString() {
    List<String> steps = new ArrayList<>(to.length);
    for (int i = 0; i < to.length; i++) {
      steps.add((i + 1) + ">" + to[i]);
    }
    return String.join(" ", steps);
  }
}
