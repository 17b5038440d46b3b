package ferrule.record.audit;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import ferrule.record.audit.Difference.Kind;
import java.io.IOException;
import java.io.Reader;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Consumer;
import java.util.stream.Collectors;

/**
 * What the JSON of a record says against what follows. Both are read side by side, one fibre at a
 * time, so that memory does not grow with the number of fibres.
 */
final class JsonComparison {

  private static final JsonFactory JSON = new JsonFactory();

  /** What a thing in a list is told by, as far as it has these keys. */
  private static final List<String> NAMED_BY =
      List.of(
          "fibre",
          "reference",
          "cord",
          "link",
          "kind",
          "subject",
          "kinds",
          "rank",
          "stop",
          "order",
          "part",
          "place",
          "cause",
          "from",
          "direction",
          "wavelength_nm",
          "measured_at",
          "set_at",
          "file",
          "row",
          "column");

  private final String file;
  private final boolean sameVersion;
  private final Consumer<Difference> found;

  /**
   * @param sameVersion whether both were written by one version; otherwise a key that only one of
   *     them has is no difference
   */
  JsonComparison(String file, boolean sameVersion, Consumer<Difference> found) {
    this.file = file;
    this.sameVersion = sameVersion;
    this.found = found;
  }

  /**
   * Compares two documents, each one object.
   *
   * @throws IOException if the record's cannot be understood
   */
  void compare(Reader record, Reader remade) throws IOException {
    try (JsonParser says = JSON.createParser(record);
        JsonParser follows = JSON.createParser(remade)) {
      says.nextToken();
      follows.nextToken();
      String saysKey = nextKey(says);
      String followsKey = nextKey(follows);
      Map<String, Object> saysLeft = new LinkedHashMap<>();
      Map<String, Object> followsLeft = new LinkedHashMap<>();
      while (!saysKey.isEmpty() || !followsKey.isEmpty()) {
        if (saysKey.equals(followsKey)) {
          values(says, follows, saysKey);
          saysKey = nextKey(says);
          followsKey = nextKey(follows);
        } else if (!saysKey.isEmpty()) {
          saysLeft.put(saysKey, JsonTree.read(says));
          saysKey = nextKey(says);
        } else {
          followsLeft.put(followsKey, JsonTree.read(follows));
          followsKey = nextKey(follows);
        }
      }
      objects("", saysLeft, followsLeft);
    }
  }

  /** The next key, the parser standing at its value; empty at the end of the object. */
  private static String nextKey(JsonParser json) throws IOException {
    JsonToken token = json.nextToken();
    if (token == JsonToken.FIELD_NAME) {
      String key = json.currentName();
      json.nextToken();
      return key;
    }
    return "";
  }

  private void values(JsonParser says, JsonParser follows, String key) throws IOException {
    boolean lists =
        says.currentToken() == JsonToken.START_ARRAY
            && follows.currentToken() == JsonToken.START_ARRAY;
    if (!lists || !key.equals("fibres")) {
      compare(key, JsonTree.read(says), JsonTree.read(follows));
      return;
    }
    // Fibres keep the order of the schedule, so they are taken pair by pair.
    JsonToken one = says.nextToken();
    JsonToken other = follows.nextToken();
    while (one != JsonToken.END_ARRAY && other != JsonToken.END_ARRAY) {
      Object said = JsonTree.read(says);
      Object following = JsonTree.read(follows);
      if (name(said).equals(name(following))) {
        compare(name(said), said, following);
      } else {
        differs(key, name(said), name(following));
      }
      one = says.nextToken();
      other = follows.nextToken();
    }
    for (; one != JsonToken.END_ARRAY; one = says.nextToken()) {
      differs(key, name(JsonTree.read(says)), "");
    }
    for (; other != JsonToken.END_ARRAY; other = follows.nextToken()) {
      differs(key, "", name(JsonTree.read(follows)));
    }
  }

  private void compare(String place, Object says, Object follows) {
    if (says instanceof Map<?, ?> one && follows instanceof Map<?, ?> other) {
      objects(place, one, other);
    } else if (says instanceof List<?> one && follows instanceof List<?> other) {
      lists(place, one, other);
    } else if (says instanceof Double one && follows instanceof Double other) {
      if (!Numbers.same(one, other)) {
        differs(place, shown(says), shown(follows));
      }
    } else if (!says.equals(follows)) {
      differs(place, shown(says), shown(follows));
    }
  }

  private void objects(String place, Map<?, ?> says, Map<?, ?> follows) {
    for (Map.Entry<?, ?> entry : says.entrySet()) {
      Object other = follows.get(entry.getKey());
      if (other != null) {
        compare(inside(place, entry.getKey()), Objects.requireNonNull(entry.getValue()), other);
      } else if (sameVersion) {
        differs(inside(place, entry.getKey()), shown(entry.getValue()), "");
      }
    }
    for (Map.Entry<?, ?> entry : follows.entrySet()) {
      if (sameVersion && !says.containsKey(entry.getKey())) {
        differs(inside(place, entry.getKey()), "", shown(entry.getValue()));
      }
    }
  }

  private static String inside(String place, Object key) {
    return place.isEmpty() ? String.valueOf(key) : place + ", " + key;
  }

  /** Things with names are compared by name, so that one too many does not spoil all behind it. */
  private void lists(String place, List<?> says, List<?> follows) {
    boolean named =
        says.stream().allMatch(v -> v instanceof Map)
            && follows.stream().allMatch(v -> v instanceof Map);
    if (!named) {
      if (!equalLists(says, follows)) {
        differs(place, shown(says), shown(follows));
      }
      return;
    }
    Map<String, List<Object>> waiting = new LinkedHashMap<>();
    follows.forEach(v -> waiting.computeIfAbsent(name(v), k -> new ArrayList<>()).add(v));
    for (Object said : says) {
      List<Object> of = waiting.getOrDefault(name(said), List.of());
      if (of.isEmpty()) {
        differs(place, orText(name(said), said), "");
      } else {
        String name = name(said);
        compare(name.isEmpty() ? place : place + ", " + name, said, of.remove(0));
      }
    }
    waiting.forEach((name, left) -> left.forEach(v -> differs(place, "", orText(name, v))));
  }

  private static String orText(String name, Object value) {
    return name.isEmpty() ? shown(value) : name;
  }

  private static boolean equalLists(List<?> says, List<?> follows) {
    if (says.size() != follows.size()) {
      return false;
    }
    for (int i = 0; i < says.size(); i++) {
      Object one = says.get(i);
      Object other = follows.get(i);
      boolean equal =
          one instanceof Double a && other instanceof Double b
              ? Numbers.same(a, b)
              : Objects.equals(one, other);
      if (!equal) {
        return false;
      }
    }
    return true;
  }

  /** "L02/2", "zero-unverified R2", "A-B 1310". */
  private static String name(Object value) {
    if (!(value instanceof Map<?, ?> object)) {
      return shown(value);
    }
    return NAMED_BY.stream()
        .filter(object::containsKey)
        .map(key -> shown(object.get(key)))
        .filter(text -> !text.isEmpty())
        .collect(Collectors.joining(" "));
  }

  private static String shown(@org.jspecify.annotations.Nullable Object value) {
    if (value instanceof Double number && number == Math.rint(number) && Math.abs(number) < 1e15) {
      return Long.toString(number.longValue());
    }
    if (value instanceof List<?> list) {
      return list.stream().map(JsonComparison::shown).collect(Collectors.joining("; "));
    }
    return String.valueOf(value);
  }

  private void differs(String place, String says, String follows) {
    found.accept(new Difference(Kind.DIFFERS, file, 0, place, says, follows));
  }
}
