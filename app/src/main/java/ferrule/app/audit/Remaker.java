package ferrule.app.audit;

import ferrule.record.About;
import ferrule.store.job.WrittenJob;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

/** Makes a record anew from the entries that a record holds. */
@FunctionalInterface
interface Remaker {

  /**
   * A record made anew, as far as it is not signed.
   *
   * @param folder of it
   * @param recomputed what is in it
   */
  record Remade(Path folder, AuditReport.Recomputed recomputed) {}

  /**
   * Makes it.
   *
   * @param record the folder whose entries and pictures are read
   * @param about time and version of issue, and the key's fingerprint
   * @param job what the entries say
   * @param notes that the record was issued with
   * @param scratch an empty folder to make it in
   * @throws IOException if there is no room for it
   */
  Remade remake(Path record, About about, WrittenJob job, List<String> notes, Path scratch)
      throws IOException;
}
