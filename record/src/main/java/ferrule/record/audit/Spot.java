package ferrule.record.audit;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Where two files that should be equal first differ.
 *
 * @param at the byte, from 1
 * @param line the line it is in, from 1
 * @param there what stands there in the one, a few characters
 * @param wanted what stands there in the other
 */
record Spot(long at, long line, String there, String wanted) {

  private static final int BEFORE = 20;
  private static final int SHOWN = 60;

  /**
   * Finds it.
   *
   * @param file with a difference
   * @param other the file as it should be
   * @throws IOException if one of them cannot be read
   */
  static Spot of(Path file, Path other) throws IOException {
    long at = Math.max(0, Files.mismatch(file, other));
    long line = 1;
    long lineFrom = 0;
    try (InputStream in = new BufferedInputStream(Files.newInputStream(other))) {
      for (long i = 0; i < at; i++) {
        if (in.read() == '\n') {
          line++;
          lineFrom = i + 1;
        }
      }
    }
    long from = Math.max(lineFrom, at - BEFORE);
    return new Spot(at + 1, line, excerpt(file, from), excerpt(other, from));
  }

  private static String excerpt(Path file, long from) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      in.skipNBytes(Math.min(from, Files.size(file)));
      String text = new String(in.readNBytes(SHOWN), StandardCharsets.UTF_8);
      int end = text.indexOf('\n');
      return end < 0 ? text : text.substring(0, end);
    }
  }
}
