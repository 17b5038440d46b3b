package ferrule.app.desk;

import ferrule.store.intake.JobFolder;
import ferrule.store.intake.Purpose;
import ferrule.store.job.Batch;
import ferrule.store.job.JobFile;
import ferrule.store.job.JobFileException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Random;

/** Job files of an invented dye works in which nothing has been read yet. */
final class TypingJob {

  /** A place whose name is meant to break pages. */
  static final String HOSTILE = "<script>alert(1)</script> \"'&";

  private TypingJob() {}

  /** Links of two fibres each, "D001" on, from the Vat house to a store, one zero, no readings. */
  static Path make(Path folder, int links) throws IOException, JobFileException {
    return make(folder, links, "Vat house");
  }

  /** The same with another name of the place. */
  static Path make(Path folder, int links, String place) throws IOException, JobFileException {
    Path tables = Files.createDirectories(folder.resolve("tables"));
    Files.writeString(
        tables.resolve("job.toml"),
        """
        title = "Alder dye works (invented)"
        [requirement]
        rulebook = "iso-11801-1"
        wavelengths_nm = [1310, 1550]
        directions = "both"
        method = "one-cord"
        decision = "simple"
        """);
    StringBuilder rows =
        new StringBuilder(
            "link,fibre_category,fibres,length_m,a_place,a_port,a_connector,b_place,b_port,"
                + "b_connector\n");
    for (int i = 1; i <= links; i++) {
      rows.append(
          String.format(
              "D%03d,OS2,2,%d,\"%s\",1:%d,LC-UPC,Cloth store,2:%d,LC-UPC%n",
              i, 100 + i, place.replace("\"", "\"\""), i, i));
    }
    Files.writeString(tables.resolve("links.csv"), rows.toString().replace("\r\n", "\n"));
    Files.writeString(
        tables.resolve("references.csv"),
        """
        reference,set_at,method,direction,wavelength_nm,power_dbm,verification_db,source,meter,operator
        Z1,2026-10-05T07:00:00Z,one-cord,A-B,1310,-5.12,0.06,S1,M1,Teasel
        Z1,2026-10-05T07:00:00Z,one-cord,A-B,1550,-5.48,0.05,S1,M1,Teasel
        Z1,2026-10-05T07:00:00Z,one-cord,B-A,1310,-5.20,0.07,S1,M1,Teasel
        """);
    Path job = folder.resolve("dye.ferrule");
    JobFolder read = JobFolder.read(tables, Purpose.STORE);
    if (!read.problems().isEmpty()) {
      throw new IllegalStateException(read.problems().toString());
    }
    JobFile.create(
        job,
        new Batch(read.paper(), read.tables(), read.fileNotes()),
        Clock.systemUTC(),
        new Random(5),
        stored -> {});
    return job;
  }
}
