package ferrule.app.demo;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;

/**
 * An invented job with planted trouble, as the files of a job folder. Nobody built the site, nobody
 * in it exists; docs/demo.md tells the whole of it.
 *
 * <p>The schedule, the crews, their days and the trouble are fixed; the seed varies what nobody can
 * read off a drawing: glass, plugs, matings, sources, handling. Every seed has the same trouble in
 * the same places, and no other.
 */
public final class DemoSite {

  /** The doubts that must ring, and no others: for tests. */
  public static final List<Planted> PLANTED = PlantedDoubts.all();

  private DemoSite() {}

  /**
   * The texts of the files by name: the same seed gives the same bytes, on every machine.
   *
   * @param seed any number
   */
  public static SortedMap<String, String> generate(long seed) {
    return DemoTables.texts(rows(seed), seed);
  }

  /**
   * The same as rows.
   *
   * @param seed any number
   */
  public static DemoRows rows(long seed) {
    return DemoRows.of(seed);
  }

  /**
   * Writes the job folder of a seed, in UTF-8. A file that is there already with these very bytes
   * stays; one with others is never written over.
   *
   * @param folder made if it is not there
   * @param seed any number
   * @throws FileAlreadyExistsException if the folder holds another file of one of the names;
   *     nothing is written then
   * @throws IOException if the folder or a file cannot be written
   */
  public static void write(Path folder, long seed) throws IOException {
    Map<String, String> texts = generate(seed);
    Files.createDirectories(folder);
    for (Map.Entry<String, String> text : texts.entrySet()) {
      Path file = folder.resolve(text.getKey());
      if (Files.exists(file) && !Files.readString(file).equals(text.getValue())) {
        throw new FileAlreadyExistsException(
            file.toString(), null, "holds something else than the demo would write");
      }
    }
    for (Map.Entry<String, String> text : texts.entrySet()) {
      Files.writeString(folder.resolve(text.getKey()), text.getValue());
    }
  }
}
