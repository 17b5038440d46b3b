package ferrule.app.demo;

import ferrule.core.optics.Decibels;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.LossDb;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Reading;
import ferrule.core.zero.Zero;
import ferrule.core.zero.ZeroLevel;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** The rows as the texts of a job folder: UTF-8, commas, a header, lines ended by a line feed. */
final class DemoTables {

  private static final DateTimeFormatter SITE_TIME =
      DateTimeFormatter.ISO_OFFSET_DATE_TIME.withZone(ZoneOffset.ofHours(2));

  private final StringBuilder text = new StringBuilder();

  private DemoTables(String header) {
    text.append(header).append('\n');
  }

  static SortedMap<String, String> texts(DemoRows rows, long seed) {
    SortedMap<String, String> texts = new TreeMap<>();
    texts.put("job.toml", jobPaper(seed));
    texts.put("links.csv", links(rows.links()));
    texts.put("instruments.csv", instruments(rows.instruments()));
    texts.put("cords.csv", cords(rows.cords()));
    texts.put("references.csv", references(rows.zeros()));
    texts.put("readings.csv", readings(rows.readings()));
    return texts;
  }

  private static String jobPaper(long seed) {
    return """
        # Invented by ferrule demo, seed %d. Nobody built this juice works; nobody in it exists.
        # Trouble was planted on purpose: docs/demo.md tells what and where.
        title = "Cherrywell juice works, all buildings (invented)"
        owner = "Cherrywell Juices (invented)"
        contractor = "Lantern Yard Cabling (invented)"

        [requirement]
        rulebook = "iso-11801-1"
        wavelengths_nm = [850, 1300, 1310, 1550]
        directions = "both"
        method = "one-cord"
        decision = "simple"
        faces = "none"
        """
        .formatted(seed);
  }

  private void row(Object... cells) {
    for (int i = 0; i < cells.length; i++) {
      text.append(i == 0 ? "" : ",").append(quoted(String.valueOf(cells[i])));
    }
    text.append('\n');
  }

  private static String quoted(String cell) {
    return cell.contains(",") || cell.contains("\"") || cell.contains("\n")
        ? '"' + cell.replace("\"", "\"\"") + '"'
        : cell;
  }

  private static String links(List<Link> links) {
    DemoTables table =
        new DemoTables(
            "link,fibre_category,fibres,length_m,a_place,a_port,a_connector,"
                + "b_place,b_port,b_connector,connections,splices");
    for (Link link : links) {
      table.row(
          link.id(),
          link.category().label(),
          link.fibres(),
          Math.round(link.lengthM()),
          link.a().place(),
          link.a().port(),
          link.a().connector(),
          link.b().place(),
          link.b().port(),
          link.b().connector(),
          link.connections(),
          link.splices());
    }
    return table.text.toString();
  }

  private static String instruments(List<Instrument> instruments) {
    DemoTables table =
        new DemoTables("instrument,kind,wavelengths_nm,calibrated_on,calibration_due");
    for (Instrument instrument : instruments) {
      table.row(
          instrument.id(),
          instrument.kind().word(),
          String.join(
              " ", instrument.wavelengths().stream().map(w -> Integer.toString(w.nm())).toList()),
          instrument.calibratedOn().map(LocalDate::toString).orElse(""),
          instrument.calibrationDue().map(LocalDate::toString).orElse(""));
    }
    return table.text.toString();
  }

  private static String cords(List<Cord> cords) {
    DemoTables table =
        new DemoTables(
            "cord,fibre_category,length_m,end1_connector,end1_grade,end2_connector,end2_grade,"
                + "matings,in_service_since");
    for (Cord cord : cords) {
      table.row(
          cord.id(),
          cord.category().label(),
          cord.lengthM().map(DemoTables::metres).orElse(""),
          cord.end1().connector().map(Connector::toString).orElse(""),
          cord.end1().grade().map(CordGrade::word).orElse(""),
          cord.end2().connector().map(Connector::toString).orElse(""),
          cord.end2().grade().map(CordGrade::word).orElse(""),
          cord.matings().isPresent() ? cord.matings().getAsInt() : "",
          cord.inServiceSince().map(LocalDate::toString).orElse(""));
    }
    return table.text.toString();
  }

  private static String references(List<Zero> zeros) {
    DemoTables table =
        new DemoTables(
            "reference,set_at,method,direction,wavelength_nm,source,meter,launch_cord,"
                + "receive_cord,fibre_category,power_dbm,verification_db,operator");
    for (Zero zero : zeros) {
      for (ZeroLevel level : zero.levels()) {
        table.row(
            zero.id(),
            time(level.setAt()),
            zero.method().word(),
            level.direction().word(),
            level.wavelength().nm(),
            level.source(),
            level.meter(),
            level.launchCord(),
            level.receiveCord(),
            level.category().map(FibreCategory::label).orElse(""),
            Decibels.shown(level.power().value()),
            level.verification().map(LossDb::value).map(Decibels::shown).orElse(""),
            level.operator());
      }
    }
    return table.text.toString();
  }

  private static String readings(List<Reading> readings) {
    DemoTables table =
        new DemoTables(
            "link,fibre,direction,wavelength_nm,power_dbm,loss_db,length_m,reference,"
                + "measured_at,operator");
    for (Reading reading : readings) {
      table.row(
          reading.link(),
          reading.fibre(),
          reading.direction().word(),
          reading.wavelength().nm(),
          Decibels.shown(reading.powerDbm()),
          Decibels.shown(reading.lossDb()),
          metres(reading.lengthM()),
          reading.reference(),
          time(reading.measuredAt()),
          reading.operator());
    }
    return table.text.toString();
  }

  private static String metres(double value) {
    long tenths = Math.round(value * 10);
    return tenths / 10 + "." + tenths % 10;
  }

  private static String time(Instant time) {
    return SITE_TIME.format(time);
  }
}
