package ferrule.record.audit;

import ferrule.record.RecordFiles;
import ferrule.record.audit.Difference.Kind;
import ferrule.record.seal.FileIndex;
import ferrule.record.seal.PublicKeys;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.PublicKey;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * The signature and the hashes of a record.
 *
 * @param signature what became of the signature
 * @param fingerprint of the key that is in the record; empty without one
 * @param files how many files the index lists
 * @param changed files that do not fit their hash, are missing or are too many
 * @param differences each in a line; those of files in {@code changed} say so without saying where
 */
public record SealCheck(
    State signature,
    Optional<String> fingerprint,
    int files,
    SortedSet<String> changed,
    List<Difference> differences) {

  /** What became of the signature. */
  public enum State {
    /** It is of the key in the record, over this index. */
    FITS("fits"),
    /** It is not. */
    DOES_NOT_FIT("does not fit"),
    /** There is none. */
    NONE("none");

    private final String word;

    State(String word) {
      this.word = word;
    }

    /** As shown. */
    public String word() {
      return word;
    }
  }

  private static final List<String> OUTSIDE =
      List.of(RecordFiles.INDEX, RecordFiles.SIGNATURE, RecordFiles.TIME_STAMP);

  /** Copies the collections. */
  public SealCheck {
    changed = new TreeSet<>(changed);
    differences = List.copyOf(differences);
  }

  /**
   * Checks a record.
   *
   * @param folder with an index
   * @param expected fingerprint that the key must have; empty if any will do
   * @throws IOException if a file cannot be read
   */
  public static SealCheck of(Path folder, Optional<String> expected) throws IOException {
    return new Checking(folder, expected).check();
  }

  /** Half a million pictures; a hash and a name take about 150 bytes. */
  private static final int LARGEST_INDEX = 64 << 20;

  private static final int LARGEST_KEY = 1 << 16;

  private static final class Checking {
    private final Optional<String> expected;
    private final FileIndex there;
    private final byte[] index;
    private final String indexText;
    private final FileIndex listed;
    private final Optional<byte[]> signature;
    private final Optional<PublicKey> key;
    private final String pem;
    private final List<Difference> differences = new ArrayList<>();
    private final SortedSet<String> changed = new TreeSet<>();

    Checking(Path folder, Optional<String> expected) throws IOException {
      this.expected = expected.map(PublicKeys::plain);
      this.there = FileIndex.of(folder).without(OUTSIDE);
      this.index = bounded(folder.resolve(RecordFiles.INDEX), LARGEST_INDEX);
      this.indexText = new String(index, StandardCharsets.UTF_8);
      this.listed = FileIndex.read(indexText);
      this.signature = bytes(folder.resolve(RecordFiles.SIGNATURE));
      this.pem =
          bytes(folder.resolve(RecordFiles.PUBLIC_KEY))
              .map(bytes -> new String(bytes, StandardCharsets.UTF_8))
              .orElse("");
      this.key = PublicKeys.ofPem(pem);
    }

    private static Optional<byte[]> bytes(Path file) throws IOException {
      return Files.isRegularFile(file) ? Optional.of(bounded(file, LARGEST_KEY)) : Optional.empty();
    }

    private static byte[] bounded(Path file, int most) throws IOException {
      try (InputStream in = Files.newInputStream(file)) {
        byte[] bytes = in.readNBytes(most + 1);
        if (bytes.length > most) {
          throw new IOException(file + " is larger than that of any record");
        }
        return bytes;
      }
    }

    SealCheck check() {
      boolean listedKey = listed.hashes().containsKey(RecordFiles.PUBLIC_KEY);
      boolean signed = signature.isPresent() || !pem.isEmpty() || listedKey;
      State state = State.NONE;
      boolean indexChanged = false;
      if (signed) {
        boolean fits = fits(index);
        state = fits ? State.FITS : State.DOES_NOT_FIT;
        // What was signed can be made again from the files: then it is the index that was changed.
        indexChanged = !fits && fits(there.text().getBytes(StandardCharsets.UTF_8));
        if (indexChanged) {
          changedIndex();
        }
      }
      if (!indexChanged) {
        form();
        hashes();
        if (state == State.DOES_NOT_FIT) {
          signature();
        }
      }
      Optional<String> fingerprint = key.map(PublicKeys::fingerprint);
      expectedKey(fingerprint);
      return new SealCheck(state, fingerprint, listed.hashes().size(), changed, differences);
    }

    private boolean fits(byte[] text) {
      return key.isPresent()
          && signature.isPresent()
          && PublicKeys.verify(key.get(), text, signature.get());
    }

    private void changedIndex() {
      changed.add(RecordFiles.INDEX);
      long line = Lines.firstDifference(indexText, there.text());
      differences.add(
          new Difference(
              Kind.CHANGED,
              RecordFiles.INDEX,
              line,
              "",
              "changed since it was signed",
              Lines.line(there.text(), line)));
    }

    /** An index has one form only. */
    private void form() {
      if (listed.text().equals(indexText)
          && Arrays.equals(index, indexText.getBytes(StandardCharsets.UTF_8))) {
        return;
      }
      changed.add(RecordFiles.INDEX);
      differences.add(
          new Difference(
              Kind.CHANGED,
              RecordFiles.INDEX,
              Lines.firstDifference(indexText, listed.text()),
              "",
              "no line of an index, or not in its place",
              ""));
    }

    private void hashes() {
      SortedSet<String> names = new TreeSet<>(listed.hashes().keySet());
      names.addAll(there.hashes().keySet());
      long line = 0;
      for (String name : names) {
        String wanted = listed.hashes().get(name);
        String found = there.hashes().get(name);
        line += wanted == null ? 0 : 1;
        if (wanted != null && wanted.equals(found)) {
          continue;
        }
        changed.add(name);
        if (wanted == null) {
          differences.add(
              new Difference(Kind.EXTRA, name, 0, "", "the index does not list it", ""));
        } else if (found == null) {
          differences.add(
              new Difference(
                  Kind.MISSING,
                  name,
                  0,
                  "",
                  "not there, though line " + line + " of the index lists it",
                  ""));
        } else {
          differences.add(
              new Difference(
                  Kind.CHANGED,
                  name,
                  name.equals(RecordFiles.PUBLIC_KEY) ? PublicKeys.badLine(pem) : 0,
                  "",
                  "changed: its hash is not the one in line " + line + " of the index",
                  ""));
        }
      }
    }

    private void signature() {
      String says;
      String file = RecordFiles.SIGNATURE;
      if (signature.isEmpty()) {
        says = "there is no signature, though there is a public key";
      } else if (key.isEmpty()) {
        file = RecordFiles.PUBLIC_KEY;
        says =
            !pem.isEmpty()
                ? "this is no Ed25519 key in the form of a record"
                : "there is no public key";
      } else if (changed.contains(RecordFiles.PUBLIC_KEY)) {
        says = "it does not fit: the public key was changed";
      } else if (changed.isEmpty()) {
        says =
            "it is not a signature of this key over this index: it or the whole index was changed";
      } else {
        says = "it is not a signature of this key over this index: more than one file was changed";
      }
      differences.add(new Difference(Kind.SIGNATURE, file, 0, "", says, ""));
      changed.add(file);
    }

    private void expectedKey(Optional<String> fingerprint) {
      if (expected.isEmpty() || expected.equals(fingerprint)) {
        return;
      }
      differences.add(
          new Difference(
              Kind.SIGNATURE,
              RecordFiles.PUBLIC_KEY,
              0,
              "",
              fingerprint
                  .map(f -> "the key of the record is " + f + ", not " + expected.get())
                  .orElse("the record has no key, " + expected.get() + " was expected"),
              ""));
    }
  }
}
