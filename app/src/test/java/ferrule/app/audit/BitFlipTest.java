package ferrule.app.audit;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.record.RecordFiles;
import ferrule.record.audit.Difference;
import ferrule.record.seal.FileIndex;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Single bits flipped at random all over a record: the audit must name the file, and the line where
 * there are lines. {@code -Dferrule.flips=10000} makes the long run, whose figures are in
 * docs/record.md; the seed is fixed, so both are the same every time.
 */
class BitFlipTest {

  private static final int FLIPS = Integer.getInteger("ferrule.flips", 150);

  @TempDir private static Path temp = Path.of("");

  /** Makes the record anew once for each set of arguments: 10,000 times the same takes long. */
  private static final class Once implements Remaker {
    private final TreeMap<String, Remade> made = new TreeMap<>();

    @Override
    public Remade remake(
        Path record,
        ferrule.record.About about,
        ferrule.store.job.WrittenJob job,
        List<String> notes,
        Path scratch)
        throws IOException {
      Path pictures = record.resolve(RecordFiles.PICTURES);
      String key = about + job.stored().head() + notes + FileIndex.of(pictures);
      Remade known = made.get(key);
      if (known == null) {
        Path kept = Files.createDirectory(temp.resolve("remade-" + made.size()));
        known = Audit.remake(record, about, job, notes, kept);
        made.put(key, known);
      }
      return known;
    }
  }

  private static long lineOf(byte[] bytes, int at) {
    long line = 1;
    for (int i = 0; i < at; i++) {
      line += bytes[i] == '\n' ? 1 : 0;
    }
    return line;
  }

  @Test
  void everyFlippedBitIsNamedWithItsPlace() throws Exception {
    Path record = Records.libraryWithAFace(temp);
    Once once = new Once();
    assertThat(new Audit(record, Optional.empty(), once).run().differences()).isEmpty();
    List<String> names = new ArrayList<>(FileIndex.of(record).hashes().keySet());
    List<byte[]> files = new ArrayList<>();
    long all = 0;
    for (String name : names) {
      files.add(Files.readAllBytes(record.resolve(name)));
      all += files.get(files.size() - 1).length;
    }
    Random random = new Random(8032);
    List<String> missed = new ArrayList<>();
    TreeMap<String, Integer> flips = new TreeMap<>();
    int withLine = 0;
    for (int i = 0; i < FLIPS; i++) {
      // Half of them at any byte alike, half in any file alike: else the PDF would take nearly all.
      int file = i % 2 == 0 ? (i / 2) % names.size() : fileAt(files, random.nextLong(all));
      String name = names.get(file);
      byte[] bytes = files.get(file).clone();
      int bit = random.nextInt(bytes.length * 8);
      bytes[bit / 8] ^= (byte) (1 << (bit % 8));
      Files.write(record.resolve(name), bytes);
      String what = name + ", byte " + (bit / 8 + 1) + ", bit " + bit % 8;
      try {
        AuditReport report = new Audit(record, Optional.empty(), once).run();
        boolean lines =
            !List.of(RecordFiles.PAGES, RecordFiles.SIGNATURE).contains(name)
                && !name.startsWith(RecordFiles.PICTURES);
        long line = lineOf(files.get(file), bit / 8);
        boolean named =
            report.differences().stream()
                .anyMatch(d -> d.file().equals(name) && (!lines || d.line() == line));
        withLine += named && lines ? 1 : 0;
        boolean othersBlamed =
            report.differences().stream().map(Difference::file).anyMatch(f -> blamed(f, name));
        if (!named || othersBlamed) {
          missed.add(
              what
                  + ", line "
                  + line
                  + ": "
                  + report.differences().stream().map(Difference::shown).toList());
        }
      } catch (Exception e) {
        missed.add(what + ": " + e);
      }
      Files.write(record.resolve(name), files.get(file));
      flips.merge(
          name.startsWith(RecordFiles.PICTURES) ? RecordFiles.PICTURES : name, 1, Integer::sum);
    }
    System.out.println(
        FLIPS
            + " flips, "
            + withLine
            + " named with their line, "
            + missed.size()
            + " missed: "
            + flips);
    assertThat(missed).isEmpty();
  }

  /** Whether a file is named that was not changed; a changed key takes its signature along. */
  private static boolean blamed(String named, String changed) {
    boolean key = changed.equals(RecordFiles.PUBLIC_KEY) && named.equals(RecordFiles.SIGNATURE);
    return !named.equals(changed) && !key;
  }

  private static int fileAt(List<byte[]> files, long at) {
    long left = at;
    int file = 0;
    while (left >= files.get(file).length) {
      left -= files.get(file).length;
      file++;
    }
    return file;
  }
}
