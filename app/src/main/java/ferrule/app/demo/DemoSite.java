package ferrule.app.demo;

import ferrule.core.optics.LossDb;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** The invented job as the files of a job folder. */
public final class DemoSite {

  private static final ZoneOffset SITE_TIME = ZoneOffset.ofHours(2);

  private DemoSite() {}

  /**
   * Writes the job folder of a seed.
   *
   * @param folder an empty folder
   */
  public static void write(Path folder, long seed) throws IOException {
    for (Map.Entry<String, String> file : files(seed).entrySet()) {
      Files.writeString(folder.resolve(file.getKey()), file.getValue());
    }
  }

  /** The texts of the files by name. The same seed gives the same texts. */
  static Map<String, String> files(long seed) {
    DemoJob job = DemoMaker.make(seed);
    Map<String, String> files = new LinkedHashMap<>();
    files.put("job.toml", job.toml());
    files.put("links.csv", links(job.links()));
    files.put("instruments.csv", instruments(job.instruments()));
    files.put("cords.csv", cords(job.cords()));
    files.put("references.csv", references(job.zeros()));
    files.put("readings.csv", readings(job.readings()));
    return files;
  }

  private static void row(StringBuilder out, Object... cells) {
    for (int i = 0; i < cells.length; i++) {
      String cell = String.valueOf(cells[i]);
      out.append(i == 0 ? "" : ",").append(cell.contains(",") ? '"' + cell + '"' : cell);
    }
    out.append('\n');
  }

  private static String time(Instant time) {
    return OffsetDateTime.ofInstant(time, SITE_TIME).toString();
  }

  private static String two(double value) {
    return String.format(Locale.ROOT, "%.2f", value == 0 ? 0.0 : value);
  }

  private static String links(List<Link> links) {
    StringBuilder out = new StringBuilder();
    row(
        out, "link", "fibre_category", "fibres", "length_m", "a_place", "a_port", "a_connector",
        "b_place", "b_port", "b_connector", "connections", "splices");
    for (Link l : links) {
      row(
          out,
          l.id(),
          l.category().label(),
          l.fibres(),
          Math.round(l.lengthM()),
          l.a().place(),
          l.a().port(),
          l.a().connector(),
          l.b().place(),
          l.b().port(),
          l.b().connector(),
          l.connections(),
          l.splices());
    }
    return out.toString();
  }

  private static String instruments(List<Instrument> instruments) {
    StringBuilder out = new StringBuilder();
    row(out, "instrument", "kind", "wavelengths_nm", "calibrated_on", "calibration_due");
    for (Instrument i : instruments) {
      row(
          out,
          i.id(),
          i.kind().word(),
          String.join(" ", i.wavelengths().stream().map(w -> Integer.toString(w.nm())).toList()),
          i.calibratedOn().map(LocalDate::toString).orElse(""),
          i.calibrationDue().map(LocalDate::toString).orElse(""));
    }
    return out.toString();
  }

  private static String cords(List<Cord> cords) {
    StringBuilder out = new StringBuilder();
    row(
        out, "cord", "fibre_category", "length_m", "end1_connector", "end1_grade",
        "end2_connector", "end2_grade", "matings", "in_service_since");
    for (Cord c : cords) {
      row(
          out,
          c.id(),
          c.category().label(),
          c.lengthM().map(Math::round).map(String::valueOf).orElse(""),
          c.end1().connector().map(Connector::toString).orElse(""),
          c.end1().grade().map(CordGrade::word).orElse(""),
          c.end2().connector().map(Connector::toString).orElse(""),
          c.end2().grade().map(CordGrade::word).orElse(""),
          c.matings().isPresent() ? c.matings().getAsInt() : "",
          c.inServiceSince().map(LocalDate::toString).orElse(""));
    }
    return out.toString();
  }

  private static String references(List<Zero> zeros) {
    StringBuilder out = new StringBuilder();
    row(
        out, "reference", "set_at", "method", "direction", "wavelength_nm", "source", "meter",
        "launch_cord", "receive_cord", "fibre_category", "power_dbm", "verification_db",
        "operator");
    for (Zero zero : zeros) {
      for (ZeroLevel l : zero.levels()) {
        row(
            out,
            zero.id(),
            time(l.setAt()),
            zero.method().word(),
            l.direction().word(),
            l.wavelength().nm(),
            l.source(),
            l.meter(),
            l.launchCord(),
            l.receiveCord(),
            l.category().map(c -> c.label()).orElse(""),
            two(l.power().value()),
            l.verification().map(LossDb::value).map(DemoSite::two).orElse(""),
            l.operator());
      }
    }
    return out.toString();
  }

  private static String readings(List<Reading> readings) {
    StringBuilder out = new StringBuilder();
    row(
        out, "link", "fibre", "direction", "wavelength_nm", "power_dbm", "loss_db", "length_m",
        "reference", "measured_at", "operator");
    for (Reading r : readings) {
      row(
          out,
          r.link(),
          r.fibre(),
          r.direction().word(),
          r.wavelength().nm(),
          two(r.powerDbm()),
          two(r.lossDb()),
          String.format(Locale.ROOT, "%.1f", r.lengthM()),
          r.reference(),
          time(r.measuredAt()),
          r.operator());
    }
    return out.toString();
  }
}
