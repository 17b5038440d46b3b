package ferrule.store.intake;

import ferrule.core.Problem;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/** Finds the row of the first byte that is not UTF-8, after a file turned out not to be. */
final class EncodingFault {

  private EncodingFault() {}

  static Problem locate(Path path, String name) {
    long row = 1;
    String found = "a byte that is not";
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    ByteBuffer bytes = ByteBuffer.allocate(8192);
    CharBuffer chars = CharBuffer.allocate(8192);
    try (InputStream in = new BufferedInputStream(Files.newInputStream(path))) {
      boolean end = false;
      while (!end) {
        int read = in.read(bytes.array(), bytes.position(), bytes.remaining());
        end = read < 0;
        bytes.position(bytes.position() + Math.max(0, read)).flip();
        CoderResult result = decoder.decode(bytes, chars, end);
        chars.flip();
        while (chars.hasRemaining()) {
          if (chars.get() == '\n') {
            row++;
          }
        }
        chars.clear();
        if (result.isError()) {
          found = String.format("byte 0x%02X", bytes.get(bytes.position()) & 0xFF);
          break;
        }
        bytes.compact();
      }
    } catch (IOException e) {
      found = TableReader.reason(e);
    }
    return new Problem(
        name, row, "", "text in UTF-8", found, "save the file as CSV in UTF-8 and try again");
  }
}
