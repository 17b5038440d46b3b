package ferrule.store.job;

import java.io.IOException;

/**
 * A picture to be kept with the job under the hash of its bytes. The bytes are asked for one
 * picture at a time, when they are stored.
 *
 * @param sha256 hash of the bytes, 64 lower-case hexadecimal digits
 * @param name file as the user named it
 * @param source gives the bytes
 */
public record KeptPicture(String sha256, String name, Source source) {

  /** Gives the bytes of a picture. */
  @FunctionalInterface
  public interface Source {
    /**
     * Reads them.
     *
     * @throws IOException if they cannot be read
     */
    byte[] read() throws IOException;
  }
}
