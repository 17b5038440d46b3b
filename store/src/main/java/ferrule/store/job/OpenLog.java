package ferrule.store.job;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import ferrule.core.Problem;
import ferrule.store.intake.Sha256;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.security.MessageDigest;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;

/**
 * The log of a job as open text: JSON Lines, one entry a line in the order of the log, each with
 * the hash of the entry before and its own. Keys are the columns of the job file and come in a
 * fixed order; {@code content} is a text, so that its hash can be made from what stands there.
 *
 * <p>A line has one form only. Reading refuses every other, so a changed byte is found whether or
 * not it changes the meaning.
 */
public final class OpenLog {

  /** Keys of a line, in order. */
  public static final List<String> KEYS =
      List.of(
          "seq",
          "id",
          "kind",
          "name",
          "content",
          "intake",
          "file",
          "row",
          "entered_at",
          "supersedes",
          "why",
          "prev",
          "hash");

  private static final JsonFactory JSON = new JsonFactory();

  /** Longer lines are refused unread: a rulebook, the longest content, has at most 1 MiB. */
  private static final int LONGEST_LINE = 16 << 20;

  private OpenLog() {}

  static void write(EntrySource log, Writer out, long most) throws SQLException {
    MessageDigest digest = Sha256.digest();
    byte[][] before = {Entry.BEFORE_THE_FIRST};
    log.readAll(
        entry -> {
          if (entry.seq() > most) {
            return;
          }
          byte[] hash = entry.hash(before[0], digest);
          try {
            out.write(line(entry, Sha256.hex(before[0]), Sha256.hex(hash)));
            out.write('\n');
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
          before[0] = hash;
        });
  }

  private static String line(Entry entry, String prev, String hash) throws IOException {
    StringWriter text = new StringWriter(entry.content().length() + 512);
    try (JsonGenerator json = JSON.createGenerator(text)) {
      json.writeStartObject();
      json.writeNumberField("seq", entry.seq());
      json.writeStringField("id", entry.id());
      json.writeStringField("kind", entry.kind());
      json.writeStringField("name", entry.name());
      json.writeStringField("content", entry.content());
      json.writeStringField("intake", entry.intake());
      json.writeStringField("file", entry.file());
      json.writeNumberField("row", entry.row());
      json.writeStringField("entered_at", entry.enteredAt());
      json.writeNumberField("supersedes", entry.supersedes());
      json.writeStringField("why", entry.why());
      json.writeStringField("prev", prev);
      json.writeStringField("hash", hash);
      json.writeEndObject();
    }
    return text.toString();
  }

  /**
   * Reads a job from the open text of its entries.
   *
   * @param name of the file, to show in problems
   * @param in the lines; stays open
   * @throws JobFileException if a line is not what was written, with its number
   * @throws IOException if {@code in} fails
   */
  public static WrittenJob read(String name, BufferedReader in)
      throws JobFileException, IOException {
    return read(name, in, Long.MAX_VALUE);
  }

  /**
   * Reads a job as it stood after some of its entries.
   *
   * @param name of the file, to show in problems
   * @param in the lines; stays open, and is read no further than needed
   * @param most how many entries to read; all, if there are fewer
   * @throws JobFileException if a line is not what was written, with its number
   * @throws IOException if {@code in} fails
   */
  public static WrittenJob read(String name, BufferedReader in, long most)
      throws JobFileException, IOException {
    Lines lines = new Lines(in, most);
    try {
      return JobSoFar.readWritten(lines);
    } catch (UncheckedIOException e) {
      throw e.getCause();
    } catch (DamagedEntryException | SQLException e) {
      throw new JobFileException(
          new Problem(
              name,
              lines.line,
              "",
              "entries as they were written",
              String.valueOf(e.getMessage()),
              "the file was changed, or is damaged: ask for the record anew"),
          e);
    }
  }

  /** Goes through the lines, checking form and chain. */
  private static final class Lines implements EntrySource {
    private final BufferedReader in;
    private final long most;
    private final MessageDigest digest = Sha256.digest();

    /** The line that is being read, from 1; 0 when all are read and it is the whole that counts. */
    private long line;

    private long seq;
    private byte[] before = Entry.BEFORE_THE_FIRST;

    Lines(BufferedReader in, long most) {
      this.in = in;
      this.most = most;
    }

    @Override
    public void readAll(Visitor visitor) throws SQLException {
      try {
        for (String text = next(); !text.isEmpty(); text = line < most ? next() : "") {
          line++;
          visitor.visit(entry(text));
        }
        line = 0;
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public long lastSeq() {
      return seq;
    }

    @Override
    public byte[] lastHash() {
      return before.clone();
    }

    /** The next line without its line feed; empty at the end. */
    private String next() throws IOException {
      StringBuilder text = new StringBuilder(512);
      for (int c = in.read(); c >= 0; c = in.read()) {
        if (c == '\n') {
          if (text.isEmpty()) {
            line++;
            throw new DamagedEntryException("an empty line");
          }
          return text.toString();
        }
        if (text.length() == LONGEST_LINE) {
          line++;
          throw new DamagedEntryException("a line of more than " + LONGEST_LINE + " characters");
        }
        text.append((char) c);
      }
      if (!text.isEmpty()) {
        line++;
        throw new DamagedEntryException("a line without its end");
      }
      return "";
    }

    private Entry entry(String text) throws IOException {
      Map<String, String> values = values(text);
      Entry entry =
          new Entry(
              number(values, "seq"),
              values.getOrDefault("id", ""),
              values.getOrDefault("kind", ""),
              values.getOrDefault("name", ""),
              values.getOrDefault("content", ""),
              values.getOrDefault("intake", ""),
              values.getOrDefault("file", ""),
              number(values, "row"),
              values.getOrDefault("entered_at", ""),
              number(values, "supersedes"),
              values.getOrDefault("why", ""));
      String prev = values.getOrDefault("prev", "");
      String hash = values.getOrDefault("hash", "");
      if (!line(entry, prev, hash).equals(text)) {
        throw new DamagedEntryException("a line that is no entry in the form of a record");
      }
      if (entry.seq() != line) {
        throw new DamagedEntryException(
            "entry " + entry.seq() + " where entry " + line + " belongs");
      }
      if (!prev.equals(Sha256.hex(before))) {
        throw new DamagedEntryException(
            "entry " + line + ", which names another entry before it than stands there");
      }
      byte[] made = entry.hash(before, digest);
      if (!hash.equals(HexFormat.of().formatHex(made))) {
        throw new DamagedEntryException("entry " + line + " with a hash that does not fit");
      }
      before = made;
      seq = entry.seq();
      return entry;
    }

    private static Map<String, String> values(String text) {
      Map<String, String> values = new HashMap<>();
      try (JsonParser json = JSON.createParser(text)) {
        if (json.nextToken() != JsonToken.START_OBJECT) {
          throw new DamagedEntryException("a line that is no JSON object");
        }
        while (json.nextToken() == JsonToken.FIELD_NAME) {
          String key = json.currentName();
          json.nextToken();
          values.put(key, json.getValueAsString(""));
          json.skipChildren();
        }
        return values;
      } catch (IOException e) {
        throw new DamagedEntryException("a line that is no JSON");
      }
    }

    private static long number(Map<String, String> values, String key) {
      try {
        return Long.parseLong(values.getOrDefault(key, ""));
      } catch (NumberFormatException e) {
        throw new DamagedEntryException("a line without a number under " + key);
      }
    }
  }
}
