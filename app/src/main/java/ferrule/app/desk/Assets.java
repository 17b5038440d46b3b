package ferrule.app.desk;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Files that pages need besides themselves: style sheet, script, icon, fonts. A fixed list, each
 * read from the program when first asked for and then kept.
 */
final class Assets {

  /** One file, ready to be sent. */
  record Asset(byte[] bytes, String contentType, String etag) {}

  private static final Map<String, String> TYPES =
      Map.ofEntries(
          Map.entry("desk.css", "text/css; charset=utf-8"),
          Map.entry("desk.js", "text/javascript; charset=utf-8"),
          Map.entry("icon.svg", "image/svg+xml"),
          Map.entry("fonts/OFL.txt", "text/plain; charset=utf-8"),
          Map.entry("fonts/plex-sans-400.woff2", "font/woff2"),
          Map.entry("fonts/plex-sans-600.woff2", "font/woff2"),
          Map.entry("fonts/plex-mono-400.woff2", "font/woff2"),
          Map.entry("fonts/plex-sans-ext-400.woff2", "font/woff2"),
          Map.entry("fonts/plex-sans-ext-600.woff2", "font/woff2"),
          Map.entry("fonts/plex-mono-ext-400.woff2", "font/woff2"));

  private final Map<String, Asset> read = new ConcurrentHashMap<>();

  /** The file with this name; empty if it is not on the list. */
  Optional<Asset> find(String name) {
    String type = TYPES.get(name);
    return type == null
        ? Optional.empty()
        : Optional.of(read.computeIfAbsent(name, n -> load(n, type)));
  }

  private static Asset load(String name, String type) {
    try (InputStream in = Assets.class.getResourceAsStream("/desk/" + name)) {
      if (in == null) {
        throw new IllegalStateException("/desk/" + name + " is missing from the program");
      }
      byte[] bytes = in.readAllBytes();
      byte[] hash = MessageDigest.getInstance("SHA-256").digest(bytes);
      return new Asset(bytes, type, "\"" + HexFormat.of().formatHex(hash, 0, 12) + "\"");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
