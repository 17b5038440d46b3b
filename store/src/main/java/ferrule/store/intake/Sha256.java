package ferrule.store.intake;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4), which every Java platform must have. */
public final class Sha256 {

  private Sha256() {}

  /** A fresh digest. */
  public static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("This Java platform lacks SHA-256", e);
    }
  }

  /** The hash of some bytes, lower-case hex. */
  public static String of(byte[] bytes) {
    return hex(digest().digest(bytes));
  }

  /** Lower-case hex. */
  public static String hex(byte[] bytes) {
    return HexFormat.of().formatHex(bytes);
  }
}
