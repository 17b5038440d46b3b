package ferrule.store.intake;

import ferrule.core.Problem;
import ferrule.core.array.ArrayPart;
import ferrule.core.array.MeasuredPosition;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;

/** What rows of parts and of polarity must find when they come in: their link, and its parts. */
final class ArrayAdmission {

  private final Set<String> links = new HashSet<>();
  private final Map<String, TreeMap<Integer, ArrayPart>> parts = new LinkedHashMap<>();

  void knowLink(String id) {
    links.add(id);
  }

  /** Adds a part, or puts it in the place of the one of its link and order. */
  void put(ArrayPart part) {
    parts.computeIfAbsent(part.link(), k -> new TreeMap<>()).put(part.order(), part);
  }

  /** All parts, link by link. */
  List<ArrayPart> parts() {
    List<ArrayPart> all = new ArrayList<>();
    parts.values().forEach(of -> all.addAll(of.values()));
    return all;
  }

  boolean admit(ArrayPart part, String file, long row, Consumer<Problem> problems) {
    if (links.contains(part.link())) {
      return true;
    }
    problems.accept(
        new Problem(
            file,
            row,
            "link",
            "a link of links.csv",
            part.link(),
            "correct the name, or add the link to the schedule"));
    return false;
  }

  boolean admit(MeasuredPosition position, String file, long row, Consumer<Problem> problems) {
    TreeMap<Integer, ArrayPart> of = parts.get(position.link());
    if (of == null) {
      problems.accept(
          new Problem(
              file,
              row,
              "link",
              "a link with parts in parts.csv",
              position.link(),
              "list its parts, or correct the name"));
      return false;
    }
    int most = of.firstEntry().getValue().positions();
    if (position.position() > most || position.arrivesAt() > most) {
      boolean in = position.position() > most;
      problems.accept(
          new Problem(
              file,
              row,
              in ? "position" : "arrives_at",
              "a position from 1 to " + most + ", as " + position.link() + " has by parts.csv",
              Integer.toString(in ? position.position() : position.arrivesAt()),
              "correct it, or the positions of the parts"));
      return false;
    }
    if (position.after() != 0 && !of.containsKey(position.after())) {
      problems.accept(
          new Problem(
              file,
              row,
              "after",
              "the order of a part of " + position.link() + ", or nothing for the whole link",
              Integer.toString(position.after()),
              "correct it"));
      return false;
    }
    return true;
  }
}
