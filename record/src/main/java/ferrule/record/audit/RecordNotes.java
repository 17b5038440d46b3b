package ferrule.record.audit;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import ferrule.record.About;
import ferrule.record.seal.FileIndex;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What a record was issued with and does not follow from its entries. */
public final class RecordNotes {

  private static final Pattern ISSUE =
      Pattern.compile(
          "\\nRecord of fibre loss tests, issued (\\S+) with Ferrule (\\S+)\\n"
              + "(?:Issue (\\d{1,9}), after the one issued (\\S+) with the first (\\d{1,18}) entries\\n)?");

  private RecordNotes() {}

  /** The notes in a record's judgement; none if it cannot be understood. */
  public static List<String> of(Path judgement) {
    List<String> notes = new ArrayList<>();
    try (JsonParser json = new JsonFactory().createParser(judgement.toFile())) {
      if (json.nextToken() != JsonToken.START_OBJECT) {
        return notes;
      }
      while (json.nextToken() == JsonToken.FIELD_NAME) {
        boolean wanted = json.currentName().equals("notes");
        json.nextToken();
        if (wanted && JsonTree.read(json) instanceof List<?> list) {
          list.forEach(note -> notes.add(String.valueOf(note)));
          return notes;
        }
        json.skipChildren();
      }
      return notes;
    } catch (IOException e) {
      return List.of(); // no JSON, or no text: the comparison says so
    }
  }

  /**
   * Time and version of an issue.
   *
   * @param at time of issue
   * @param version of Ferrule
   * @param number of the issue, from 1
   * @param since time of the issue before and its entries, without their head; empty if none
   */
  public record Issue(Instant at, String version, long number, Optional<About.Since> since) {}

  /** What a record's page of help says of its issue. */
  public static Optional<Issue> issueIn(String readme) {
    Matcher found = ISSUE.matcher(readme);
    if (!found.find()) {
      return Optional.empty();
    }
    try {
      Optional<About.Since> since =
          found.group(3) == null
              ? Optional.empty()
              : Optional.of(
                  new About.Since(
                      Instant.parse(found.group(4)), Long.parseLong(found.group(5)), ""));
      long number = found.group(3) == null ? 1 : Long.parseLong(found.group(3));
      return Optional.of(new Issue(Instant.parse(found.group(1)), found.group(2), number, since));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  /**
   * Whether a time stamp token (RFC 3161) holds the SHA-256 hash of a file: its message imprint has
   * the bytes as they are. Says nothing of who stamped it.
   *
   * @throws IOException if one of them cannot be read
   */
  public static boolean holdsHash(Path token, Path file) throws IOException {
    // Latin-1 gives each byte one character, so that bytes can be looked for as text.
    String bytes = new String(Files.readAllBytes(token), StandardCharsets.ISO_8859_1);
    byte[] hash = HexFormat.of().parseHex(FileIndex.hash(file));
    return bytes.contains(new String(hash, StandardCharsets.ISO_8859_1));
  }
}
