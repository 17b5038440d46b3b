package ferrule.record.seal;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * The SHA-256 hash of each file of a folder by its name, a slash between folder and file, in the
 * order of the names' UTF-16 units. Its text is what {@code sha256sum} reads and writes.
 *
 * @param hashes by name; each 64 lower-case hexadecimal digits
 */
public record FileIndex(SortedMap<String, String> hashes) {

  /** What a line begins with before the name: hash and two blanks. */
  private static final int NAME_AT = 66;

  /** Copies the map. */
  public FileIndex {
    hashes = new TreeMap<>(hashes);
  }

  /**
   * The index of every file in a folder, folders in it included. What is neither a file nor a
   * folder, a link for instance, is listed with the hash {@value #NO_FILE}.
   *
   * @throws IOException if the folder cannot be read
   */
  public static FileIndex of(Path folder) throws IOException {
    SortedMap<String, String> hashes = new TreeMap<>();
    Files.walkFileTree(
        folder,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes)
              throws IOException {
            hashes.put(name(folder, file), attributes.isRegularFile() ? hash(file) : NO_FILE);
            return FileVisitResult.CONTINUE;
          }
        });
    return new FileIndex(hashes);
  }

  /** Stands for the hash of what is no file. */
  public static final String NO_FILE = "not a file";

  private static String name(Path folder, Path file) {
    StringBuilder name = new StringBuilder();
    for (Path part : folder.relativize(file)) {
      name.append(name.isEmpty() ? "" : "/").append(part);
    }
    return name.toString();
  }

  /** Without some files. */
  public FileIndex without(Iterable<String> names) {
    SortedMap<String, String> rest = new TreeMap<>(hashes);
    names.forEach(rest::remove);
    return new FileIndex(rest);
  }

  /** The text of the index. */
  public String text() {
    StringBuilder text = new StringBuilder();
    for (Map.Entry<String, String> entry : hashes.entrySet()) {
      text.append(entry.getValue()).append("  ").append(entry.getKey()).append('\n');
    }
    return text.toString();
  }

  /**
   * Reads the text of an index; lines that are none are left out, since {@link #text} of what was
   * read then differs from what was there.
   */
  public static FileIndex read(String text) {
    SortedMap<String, String> hashes = new TreeMap<>();
    for (String line : text.split("\n", -1)) {
      if (line.length() > NAME_AT
          && line.startsWith("  ", NAME_AT - 2)
          && line.substring(0, NAME_AT - 2).matches("[0-9a-f]{64}")) {
        hashes.put(line.substring(NAME_AT), line.substring(0, NAME_AT - 2));
      }
    }
    return new FileIndex(hashes);
  }

  /**
   * SHA-256 of a file, 64 lower-case hexadecimal digits.
   *
   * @throws IOException if it cannot be read
   */
  public static String hash(Path file) throws IOException {
    MessageDigest digest;
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("Every Java has SHA-256", e);
    }
    byte[] buffer = new byte[64 * 1024];
    try (InputStream in = Files.newInputStream(file)) {
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        digest.update(buffer, 0, n);
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }
}
