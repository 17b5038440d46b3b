package ferrule.app;

import ferrule.store.job.HistoryEntry;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** What an entry of a job's history says, in a few words. */
final class HistoryWords {

  private HistoryWords() {}

  static String of(HistoryEntry entry) {
    Map<String, String> v = entry.values();
    return switch (entry.kind()) {
      case "job" -> "job.toml";
      case "intake" -> intake(v);
      case "join" ->
          "joined of two files with "
              + v.getOrDefault("entries", "")
              + " entries"
              + (v.getOrDefault("conflicts", "0").equals("0")
                  ? ""
                  : ", said differently: " + v.get("conflicts"));
      case "reading" ->
          fibre(v)
              + ": "
              + both(v, "loss_db", " dB", "power_dbm", " dBm")
              + ", zero "
              + v.getOrDefault("reference", "")
              + ", read "
              + HistoryText.time(v.getOrDefault("measured_at", ""));
      case "reference" ->
          "zero "
              + entry.name()
              + " nm: "
              + decimals(v.getOrDefault("power_dbm", ""))
              + " dBm"
              + (v.containsKey("verification_db")
                  ? ", verified " + decimals(v.getOrDefault("verification_db", "")) + " dB"
                  : ", not verified")
              + ", "
              + v.getOrDefault("method", "")
              + cords(v)
              + ", set "
              + HistoryText.time(v.getOrDefault("set_at", ""));
      case "link" ->
          "link "
              + entry.name()
              + ": "
              + v.getOrDefault("fibre_category", "")
              + ", "
              + counted(v, "fibres", "fibre")
              + ", "
              + v.getOrDefault("length_m", "")
              + " m, "
              + counted(v, "connections", "connection")
              + ", "
              + counted(v, "splices", "splice");
      case "face" -> "face " + v.getOrDefault("subject", "") + ", picture " + v.get("picture");
      case "grade" ->
          "grade of "
              + v.getOrDefault("picture", "")
              + ", "
              + v.getOrDefault("subject", "")
              + ": "
              + v.getOrDefault("outcome", "");
      default -> entry.kind() + " " + entry.name() + rest(v);
    };
  }

  /** What the operator of an entry of some kind did. */
  static String deed(String kind) {
    return switch (kind) {
      case "reference" -> "set";
      case "face", "grade" -> "taken";
      default -> "measured";
    };
  }

  private static String intake(Map<String, String> v) {
    StringBuilder said = new StringBuilder(v.getOrDefault("file", "") + ": ");
    said.append(counted(v, "rows", "row"));
    counted(said, v, "entered", " entered");
    counted(said, v, "superseding", " as corrections");
    counted(said, v, "repeated", " in the job already");
    return said.toString();
  }

  private static void counted(StringBuilder said, Map<String, String> v, String key, String what) {
    String number = v.getOrDefault(key, "0");
    if (!number.equals("0")) {
      said.append(", ").append(number).append(what);
    }
  }

  private static String counted(Map<String, String> v, String key, String noun) {
    String number = v.getOrDefault(key, "0");
    return number + " " + (number.equals("1") ? noun : noun + "s");
  }

  private static String fibre(Map<String, String> v) {
    return v.getOrDefault("link", "")
        + "/"
        + v.getOrDefault("fibre", "")
        + " "
        + v.getOrDefault("direction", "")
        + " "
        + v.getOrDefault("wavelength_nm", "")
        + " nm";
  }

  private static String both(
      Map<String, String> v, String key, String unit, String other, String otherUnit) {
    List<String> parts = new ArrayList<>();
    if (v.containsKey(key)) {
      parts.add(decimals(v.get(key)) + unit);
    }
    if (v.containsKey(other)) {
      parts.add(decimals(v.get(other)) + otherUnit);
    }
    return String.join(", ", parts);
  }

  /** As it was entered, with two decimals at least. */
  private static String decimals(String number) {
    int point = number.indexOf('.');
    return point >= 0 && point == number.length() - 2 ? number + "0" : number;
  }

  private static String cords(Map<String, String> v) {
    List<String> cords = new ArrayList<>();
    for (String key : List.of("launch_cord", "receive_cord", "substitution_cord")) {
      if (v.containsKey(key)) {
        cords.add(v.get(key));
      }
    }
    return cords.isEmpty() ? "" : ", cords " + String.join(" and ", cords);
  }

  /** What is left to say of kinds with few values, but for the name. */
  private static String rest(Map<String, String> v) {
    List<String> parts = new ArrayList<>();
    v.entrySet().stream()
        .sorted(Map.Entry.comparingByKey())
        .filter(e -> !List.of("instrument", "cord", "link", "order").contains(e.getKey()))
        .forEach(e -> parts.add(e.getKey() + " " + e.getValue()));
    return parts.isEmpty() ? "" : ": " + String.join(", ", parts);
  }
}
