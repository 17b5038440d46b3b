package ferrule.record.seal;

import java.security.GeneralSecurityException;
import java.security.InvalidKeyException;
import java.security.KeyFactory;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.PublicKey;
import java.security.Signature;
import java.security.SignatureException;
import java.security.spec.X509EncodedKeySpec;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Optional;

/** Public halves of keys: as text, as fingerprints, and to verify with. */
public final class PublicKeys {

  private static final String BEGIN = "-----BEGIN PUBLIC KEY-----\n";
  private static final String END = "\n-----END PUBLIC KEY-----\n";
  private static final int SIGNATURE_BYTES = 64;

  private PublicKeys() {}

  /** As a PEM file (SubjectPublicKeyInfo, RFC 8410), in the one form that a record has. */
  public static String pem(PublicKey key) {
    return BEGIN + Base64.getEncoder().encodeToString(key.getEncoded()) + END;
  }

  /** The key of a PEM file in exactly the form of {@link #pem}; empty if it is none. */
  public static Optional<PublicKey> ofPem(String pem) {
    if (!pem.startsWith(BEGIN)
        || !pem.endsWith(END)
        || pem.length() < BEGIN.length() + END.length()) {
      return Optional.empty();
    }
    try {
      byte[] der =
          Base64.getDecoder().decode(pem.substring(BEGIN.length(), pem.length() - END.length()));
      PublicKey key = KeyFactory.getInstance("Ed25519").generatePublic(new X509EncodedKeySpec(der));
      return pem(key).equals(pem) ? Optional.of(key) : Optional.empty();
    } catch (GeneralSecurityException | IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  /**
   * The line, from 1, in which a text is not in the form of {@link #pem}; that of the key itself if
   * its form is right.
   */
  public static long badLine(String pem) {
    if (!pem.startsWith(BEGIN)) {
      return 1;
    }
    int end = pem.indexOf('\n', BEGIN.length());
    boolean keyEnds = end >= 0 && pem.indexOf('-', BEGIN.length()) > end;
    return keyEnds && !pem.substring(end).equals(END) ? 3 : 2;
  }

  /**
   * What a key is told by: SHA-256 of its SubjectPublicKeyInfo, 64 lower-case hexadecimal digits.
   */
  public static String fingerprint(PublicKey key) {
    try {
      return HexFormat.of()
          .formatHex(MessageDigest.getInstance("SHA-256").digest(key.getEncoded()));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("Every Java has SHA-256", e);
    }
  }

  /** A fingerprint as people write it, blanks and colons allowed, in the form that is compared. */
  public static String plain(String fingerprint) {
    return fingerprint.replaceAll("[\\s:]", "").toLowerCase(Locale.ROOT);
  }

  /** Whether a signature over some bytes is of this key. */
  public static boolean verify(PublicKey key, byte[] bytes, byte[] signature) {
    if (signature.length != SIGNATURE_BYTES) {
      return false;
    }
    try {
      Signature verifier = Signature.getInstance("Ed25519");
      verifier.initVerify(key);
      verifier.update(bytes);
      return verifier.verify(signature);
    } catch (SignatureException | InvalidKeyException e) {
      return false; // a point that is not on the curve, or a number that no signature can have
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("Every Java from 15 on has Ed25519", e);
    }
  }
}
