package ferrule.core.plant;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Links that feed each other: a feeder, splitter stages, drops. A leg is read from the head of its
 * tree, so its loss and its allowance are those of the whole path.
 */
public final class FeedTree {

  /** Most links one behind another. */
  public static final int DEEPEST = 8;

  /** Most links of a loop that are named. */
  private static final int NAMED = 6;

  /**
   * A link whose feeders do not lead to a head.
   *
   * @param link its id
   * @param expected what its feeder had to be
   * @param found what it is
   * @param action what to do
   * @param reach ids of the links that have no path because of it, itself included
   */
  public record Fault(
      String link, String expected, String found, String action, List<String> reach) {

    /** Copies the list. */
    public Fault {
      reach = List.copyOf(reach);
    }
  }

  private FeedTree() {}

  /**
   * The same links, each that is fed standing for its whole path from the head: end A, length,
   * connections, splices and devices of all links of the path, and one connection more where one
   * feeds the next. A link without a path ({@link #faults}) stays as it is; a path beyond {@link
   * Link#LONGEST_M} is cut to it.
   */
  public static List<Link> paths(List<Link> links) {
    if (!isTree(links)) {
      return links;
    }
    Map<String, Link> byId = byId(links);
    Set<String> lost = new HashSet<>();
    faults(links).forEach(f -> lost.addAll(f.reach()));
    return links.stream()
        .map(l -> l.fedBy().isEmpty() || lost.contains(l.id()) ? l : path(l, byId))
        .toList();
  }

  private static boolean isTree(List<Link> links) {
    for (Link link : links) {
      if (!link.fedBy().isEmpty()) {
        return true;
      }
    }
    return false;
  }

  private static Link path(Link leg, Map<String, Link> byId) {
    Deque<Link> path = new ArrayDeque<>();
    for (Link link = leg; link != null; link = byId.get(link.fedBy())) {
      path.addFirst(link);
    }
    double length = 0;
    int connections = path.size() - 1;
    int splices = 0;
    List<String> devices = new ArrayList<>();
    for (Link link : path) {
      length += link.lengthM();
      connections += link.connections();
      splices += link.splices();
      devices.addAll(link.devices());
    }
    return new Link(
        leg.id(),
        leg.category(),
        leg.fibres(),
        Math.min(length, Link.LONGEST_M),
        path.getFirst().a(),
        leg.b(),
        connections,
        splices,
        devices,
        leg.fedBy());
  }

  /** Links that have no path to a head, each cause once, in the order of the schedule. */
  public static List<Fault> faults(List<Link> links) {
    if (!isTree(links)) {
      return List.of();
    }
    Map<String, Link> byId = byId(links);
    Map<String, List<String>> children = children(links);
    Set<String> done = new HashSet<>();
    List<Fault> faults = new ArrayList<>();
    // 0 for a head; links that were followed to one are not followed again.
    Map<String, Integer> depths = new HashMap<>();
    for (Link link : links) {
      if (!link.fedBy().isEmpty() && !done.contains(link.id())) {
        follow(link, byId, children, depths, done, faults);
      }
    }
    return faults;
  }

  private static void follow(
      Link from,
      Map<String, Link> byId,
      Map<String, List<String>> children,
      Map<String, Integer> depths,
      Set<String> done,
      List<Fault> faults) {
    Set<String> seen = new LinkedHashSet<>();
    Link link = from;
    while (!depths.containsKey(link.id()) && !done.contains(link.id())) {
      if (!seen.add(link.id())) {
        add(loop(link, seen), children, done, faults);
        return;
      }
      Link feeder = byId.get(link.fedBy());
      if (link.fedBy().isEmpty()) {
        depths.put(link.id(), 0);
      } else if (feeder == null) {
        add(
            new Fault(link.id(), "a link of the schedule", link.fedBy(), "correct it", List.of()),
            children,
            done,
            faults);
      } else if (feeder.category() != link.category()) {
        add(
            new Fault(
                link.id(),
                "a feeder of " + link.category().label() + ", as " + link.id() + " is",
                feeder.id() + " of " + feeder.category().label(),
                "correct the fibre, or judge the two as links of their own",
                List.of()),
            children,
            done,
            faults);
      } else {
        link = feeder;
      }
    }
    List<String> upwards = new ArrayList<>(seen);
    for (int i = upwards.size() - 1; i >= 0; i--) {
      Link one = byId.get(upwards.get(i));
      if (one == null || done.contains(one.id()) || depths.containsKey(one.id())) {
        continue;
      }
      int depth = depths.getOrDefault(one.fedBy(), 0) + 1;
      depths.put(one.id(), depth);
      if (depth >= DEEPEST) {
        add(
            new Fault(
                one.id(),
                "at most " + DEEPEST + " links one behind another",
                Integer.toString(depth + 1),
                "leave out what is no stage of the tree",
                List.of()),
            children,
            done,
            faults);
      }
    }
  }

  private static Fault loop(Link at, Set<String> seen) {
    List<String> loop = new ArrayList<>(seen);
    loop = loop.subList(loop.indexOf(at.id()), loop.size());
    return new Fault(
        at.id(),
        "feeders that lead to a head",
        "a loop: "
            + String.join(" fed by ", loop.subList(0, Math.min(NAMED, loop.size())))
            + (loop.size() > NAMED ? " and " + (loop.size() - NAMED) + " more" : "")
            + " fed by "
            + at.id(),
        "correct one of them",
        List.of());
  }

  /** Adds a fault with everything that hangs below it. */
  private static void add(
      Fault fault, Map<String, List<String>> children, Set<String> done, List<Fault> faults) {
    List<String> reach = new ArrayList<>();
    Deque<String> open = new ArrayDeque<>(List.of(fault.link()));
    while (!open.isEmpty()) {
      String id = open.removeFirst();
      if (done.add(id)) {
        reach.add(id);
        open.addAll(children.getOrDefault(id, List.of()));
      }
    }
    faults.add(new Fault(fault.link(), fault.expected(), fault.found(), fault.action(), reach));
  }

  /** The links that each link feeds, in the order of the schedule. */
  public static Map<String, List<String>> children(List<Link> links) {
    Map<String, List<String>> children = new LinkedHashMap<>();
    for (Link link : links) {
      if (!link.fedBy().isEmpty()) {
        children.computeIfAbsent(link.fedBy(), k -> new ArrayList<>()).add(link.id());
      }
    }
    return children;
  }

  private static Map<String, Link> byId(List<Link> links) {
    Map<String, Link> byId = new HashMap<>();
    links.forEach(link -> byId.put(link.id(), link));
    return byId;
  }
}
