package ferrule.record;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/**
 * What a record says of itself, as {@value RecordFiles#ABOUT}.
 *
 * @param format of the record
 * @param title of the job
 * @param issuedAt time of issue
 * @param ferruleVersion that wrote it
 * @param decision rule by which readings were decided: "simple" or "guarded"
 * @param origin what it was made from
 * @param entries how many entries it holds
 * @param head hash of the last
 * @param signedBy fingerprint of the key; empty if it is not signed
 * @param issue number of the issue, from 1
 * @param since the issue that it follows; empty if it is the first
 */
public record About(
    long format,
    String title,
    Instant issuedAt,
    String ferruleVersion,
    String decision,
    JobLog.Origin origin,
    long entries,
    String head,
    Optional<String> signedBy,
    long issue,
    Optional<Since> since) {

  /**
   * The issue that another one follows: the entries up to its head are the first ones of both.
   *
   * @param issuedAt its time of issue
   * @param entries how many entries it holds
   * @param head hash of the last of them
   */
  public record Since(Instant issuedAt, long entries, String head) {}

  /** The format that this version writes, and the newest that it reads. */
  public static final long FORMAT = 1;

  private static final JsonFactory JSON = new JsonFactory();

  /** What a record of this issue says. */
  static About of(RecordIssue issue, Optional<String> fingerprint) {
    return new About(
        FORMAT,
        issue.judgement().ledger().requirement().title(),
        issue.issuedAt(),
        issue.ferruleVersion(),
        issue.judgement().ledger().requirement().decision().word(),
        issue.log().origin(),
        issue.log().entries(),
        issue.log().head(),
        fingerprint,
        issue.earlier().map(earlier -> earlier.issue() + 1).orElse(1L),
        issue.earlier().map(e -> new Since(e.issuedAt(), e.entries(), e.head())));
  }

  /** The text of the file: one key a line. */
  public String json() {
    StringWriter text = new StringWriter();
    DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
    try (JsonGenerator json = JSON.createGenerator(text)) {
      json.setPrettyPrinter(
          new DefaultPrettyPrinter()
              .withObjectIndenter(indenter)
              .withSeparators(
                  Separators.createDefaultInstance()
                      .withObjectFieldValueSpacing(Separators.Spacing.AFTER)));
      json.writeStartObject();
      json.writeNumberField("record_format", format);
      json.writeStringField("title", title);
      json.writeStringField("issued_at", issuedAt.toString());
      json.writeStringField("ferrule_version", ferruleVersion);
      json.writeStringField("decision", decision);
      json.writeStringField("made_from", origin.word());
      json.writeNumberField("entries", entries);
      json.writeStringField("head", head);
      if (signedBy.isPresent()) {
        json.writeStringField("signed_by", signedBy.get());
      } else {
        json.writeNullField("signed_by");
      }
      json.writeNumberField("issue", issue);
      if (since.isPresent()) {
        json.writeStringField("since_issued_at", since.get().issuedAt().toString());
        json.writeNumberField("since_entries", since.get().entries());
        json.writeStringField("since_head", since.get().head());
      } else {
        json.writeNullField("since_issued_at");
        json.writeNullField("since_entries");
        json.writeNullField("since_head");
      }
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text + "\n";
  }

  /**
   * What the record in a folder says.
   *
   * @return empty if it has no such file, or it says nothing that can be understood
   * @throws IOException if it cannot be read
   */
  public static Optional<About> in(Path folder) throws IOException {
    Path file = folder.resolve(RecordFiles.ABOUT);
    return Files.isRegularFile(file)
        ? read(new String(Files.readAllBytes(file), StandardCharsets.UTF_8))
        : Optional.empty();
  }

  /**
   * Reads the text of the file; keys that a later format may add are passed over.
   *
   * @return empty if it says nothing that can be understood
   */
  public static Optional<About> read(String text) {
    Map<String, String> values = new HashMap<>();
    try (JsonParser json = JSON.createParser(text)) {
      if (json.nextToken() != JsonToken.START_OBJECT) {
        return Optional.empty();
      }
      while (json.nextToken() == JsonToken.FIELD_NAME) {
        String key = json.currentName();
        if (json.nextToken() != JsonToken.VALUE_NULL) {
          values.put(key, json.getValueAsString(""));
        }
        json.skipChildren();
      }
      return Optional.of(
          new About(
              Long.parseLong(values.getOrDefault("record_format", "")),
              values.getOrDefault("title", ""),
              Instant.parse(values.getOrDefault("issued_at", "")),
              values.getOrDefault("ferrule_version", ""),
              values.getOrDefault("decision", ""),
              JobLog.Origin.ofWord(values.getOrDefault("made_from", "")),
              Long.parseLong(values.getOrDefault("entries", "")),
              values.getOrDefault("head", ""),
              Optional.ofNullable(values.get("signed_by")),
              Long.parseLong(values.getOrDefault("issue", "1")),
              since(values)));
    } catch (IOException | NumberFormatException | DateTimeException e) {
      return Optional.empty();
    }
  }

  private static Optional<Since> since(Map<String, String> values) {
    return values.containsKey("since_entries")
        ? Optional.of(
            new Since(
                Instant.parse(values.getOrDefault("since_issued_at", "")),
                Long.parseLong(values.getOrDefault("since_entries", "")),
                values.getOrDefault("since_head", "")))
        : Optional.empty();
  }
}
