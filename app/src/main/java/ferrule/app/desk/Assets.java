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

  /** Where a file lies in the program, and what it is. The fonts are the record's. */
  private record Place(String resource, String contentType) {}

  private static final Map<String, Place> PLACES =
      Map.of(
          "desk.css", new Place("/desk/desk.css", "text/css; charset=utf-8"),
          "desk.js", new Place("/desk/desk.js", "text/javascript; charset=utf-8"),
          "work.js", new Place("/desk/work.js", "text/javascript; charset=utf-8"),
          "icon.svg", new Place("/desk/icon.svg", "image/svg+xml"),
          "sans-400.ttf", new Place("/fonts/IBMPlexSans-Regular.ttf", "font/ttf"),
          "sans-600.ttf", new Place("/fonts/IBMPlexSans-SemiBold.ttf", "font/ttf"));

  private final Map<String, Asset> read = new ConcurrentHashMap<>();

  /** The file with this name; empty if it is not on the list. */
  Optional<Asset> find(String name) {
    Place place = PLACES.get(name);
    return place == null
        ? Optional.empty()
        : Optional.of(read.computeIfAbsent(name, n -> load(place)));
  }

  private static Asset load(Place place) {
    try (InputStream in = Assets.class.getResourceAsStream(place.resource())) {
      if (in == null) {
        throw new IllegalStateException(place.resource() + " is missing from the program");
      }
      byte[] bytes = in.readAllBytes();
      byte[] hash = MessageDigest.getInstance("SHA-256").digest(bytes);
      return new Asset(
          bytes, place.contentType(), "\"" + HexFormat.of().formatHex(hash, 0, 12) + "\"");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
