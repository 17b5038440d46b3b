package ferrule.store.job;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import ferrule.core.face.FaceClass;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.FacePicture;
import ferrule.core.face.FibreOutcome;
import ferrule.core.face.GradedFace;
import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.LevelDbm;
import ferrule.core.optics.LossDb;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Direction;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Method;
import ferrule.core.zero.Reading;
import ferrule.core.zero.ZeroLevel;
import ferrule.store.intake.TableRow;
import ferrule.store.intake.TableRow.CordRow;
import ferrule.store.intake.TableRow.FaceRow;
import ferrule.store.intake.TableRow.GradeRow;
import ferrule.store.intake.TableRow.InstrumentRow;
import ferrule.store.intake.TableRow.LinkRow;
import ferrule.store.intake.TableRow.PartRow;
import ferrule.store.intake.TableRow.PolarityRow;
import ferrule.store.intake.TableRow.ReadingRow;
import ferrule.store.intake.TableRow.ReferenceRow;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * Rows as JSON and back. The JSON has one form only (keys in a fixed order, absent values left out,
 * numbers as the shortest decimal that gives the same double), so equal rows have equal text. Keys
 * are those of the tables; times are UTC.
 */
final class EntryCodec {

  private static final JsonFactory JSON = new JsonFactory();

  private final Map<String, String> words = new HashMap<>();

  /** One flat JSON object under construction. */
  private static final class Writing implements AutoCloseable {
    private final StringWriter text = new StringWriter(160);
    private final JsonGenerator json;

    Writing() throws IOException {
      json = JSON.createGenerator(text);
      json.writeStartObject();
    }

    Writing put(String key, String value) throws IOException {
      if (!value.isEmpty()) {
        json.writeStringField(key, value);
      }
      return this;
    }

    Writing put(String key, long value) throws IOException {
      json.writeNumberField(key, value);
      return this;
    }

    Writing put(String key, double value) throws IOException {
      if (!Double.isNaN(value)) {
        json.writeNumberField(key, value);
      }
      return this;
    }

    String done() throws IOException {
      json.writeEndObject();
      json.close();
      return text.toString();
    }

    @Override
    public void close() throws IOException {
      json.close();
    }
  }

  String encode(TableRow row) {
    try (Writing out = new Writing()) {
      if (row instanceof ReadingRow reading) {
        encode(reading.reading(), out);
      } else if (row instanceof LinkRow link) {
        encode(link.link(), out);
      } else if (row instanceof InstrumentRow instrument) {
        encode(instrument.instrument(), out);
      } else if (row instanceof CordRow cord) {
        encode(cord.cord(), out);
      } else if (row instanceof ReferenceRow reference) {
        encode(reference, out);
      } else if (row instanceof FaceRow face) {
        encode(face.face(), out);
      } else if (row instanceof GradeRow grade) {
        encode(grade.grade(), out);
      } else if (row instanceof PartRow part) {
        ArrayCodec.encode(part.part(), out::put, out::put);
      } else if (row instanceof PolarityRow polarity) {
        ArrayCodec.encode(polarity.position(), out::put, out::put);
      }
      return out.done();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void encode(Reading r, Writing out) throws IOException {
    out.put("link", r.link())
        .put("fibre", (long) r.fibre())
        .put("direction", r.direction().word())
        .put("wavelength_nm", (long) r.wavelength().nm())
        .put("power_dbm", r.powerDbm())
        .put("loss_db", r.lossDb())
        .put("length_m", r.lengthM())
        .put("reference", r.reference())
        .put("measured_at", r.measuredAt().toString())
        .put("operator", r.operator());
  }

  private static void encode(Link l, Writing out) throws IOException {
    out.put("link", l.id())
        .put("fibre_category", l.category().label())
        .put("fibres", (long) l.fibres())
        .put("length_m", l.lengthM())
        .put("a_place", l.a().place())
        .put("a_port", l.a().port())
        .put("a_connector", l.a().connector().toString())
        .put("b_place", l.b().place())
        .put("b_port", l.b().port())
        .put("b_connector", l.b().connector().toString())
        .put("connections", (long) l.connections())
        .put("splices", (long) l.splices())
        .put("devices", String.join(";", l.devices()))
        .put("fed_by", l.fedBy());
  }

  private static void encode(Instrument i, Writing out) throws IOException {
    out.put("instrument", i.id())
        .put("kind", i.kind().word())
        .put(
            "wavelengths_nm",
            String.join(" ", i.wavelengths().stream().map(w -> Integer.toString(w.nm())).toList()))
        .put("calibrated_on", i.calibratedOn().map(LocalDate::toString).orElse(""))
        .put("calibration_due", i.calibrationDue().map(LocalDate::toString).orElse(""));
  }

  private static void encode(Cord c, Writing out) throws IOException {
    out.put("cord", c.id())
        .put("fibre_category", c.category().label())
        .put("length_m", c.lengthM().orElse(Double.NaN))
        .put("end1_connector", c.end1().connector().map(Connector::toString).orElse(""))
        .put("end1_grade", c.end1().grade().map(CordGrade::word).orElse(""))
        .put("end2_connector", c.end2().connector().map(Connector::toString).orElse(""))
        .put("end2_grade", c.end2().grade().map(CordGrade::word).orElse(""));
    if (c.matings().isPresent()) {
      out.put("matings", (long) c.matings().getAsInt());
    }
    out.put("in_service_since", c.inServiceSince().map(LocalDate::toString).orElse(""));
  }

  private static void encode(ReferenceRow r, Writing out) throws IOException {
    ZeroLevel l = r.level();
    out.put("reference", r.reference())
        .put("set_at", l.setAt().toString())
        .put("method", r.method().word())
        .put("direction", l.direction().word())
        .put("wavelength_nm", (long) l.wavelength().nm())
        .put("source", l.source())
        .put("meter", l.meter())
        .put("launch_cord", l.launchCord())
        .put("receive_cord", l.receiveCord())
        .put("substitution_cord", l.substitutionCord())
        .put("fibre_category", l.category().map(FibreCategory::label).orElse(""))
        .put("power_dbm", l.power().value())
        .put("verification_db", l.verification().map(LossDb::value).orElse(Double.NaN))
        .put("operator", l.operator());
  }

  private static void encode(FacePicture f, Writing out) throws IOException {
    out.put("picture", f.picture())
        .put("subject", f.subject())
        .put("stage", f.stage())
        .put("class", f.faceClass())
        .put("taken_at", f.takenAt().map(Instant::toString).orElse(""))
        .put("operator", f.operator());
  }

  private static void encode(GradedFace g, Writing out) throws IOException {
    encode(g.listed(), out);
    out.put("sha256", g.sha256())
        .put("criteria", g.criteria())
        .put("graded_class", g.faceClass().id())
        .put("outcome", g.outcome().word())
        .put("close", g.close() ? "yes" : "")
        .put("reasons", String.join("\n", g.reasons()))
        .put(
            "fibres",
            g.fibres().stream()
                .map(f -> f.outcome().word() + (f.close() ? ", close: " : ": ") + f.reason())
                .collect(Collectors.joining("\n")));
  }

  /** "rejected, close: Defect 1 of ...". */
  private static FibreOutcome fibre(String line) {
    int end = line.indexOf(": ");
    String head = line.substring(0, end);
    boolean close = head.endsWith(", close");
    String word = close ? head.substring(0, head.length() - ", close".length()) : head;
    return new FibreOutcome(FaceOutcome.ofWord(word).orElseThrow(), close, line.substring(end + 2));
  }

  /** Values of one flat JSON object as text. */
  private final class Values {
    private final Map<String, String> map;

    Values(Map<String, String> map) {
      this.map = map;
    }

    String text(String key) {
      return map.getOrDefault(key, "");
    }

    /** A word that comes again and again, kept once. */
    String word(String key) {
      String text = text(key);
      String known = words.putIfAbsent(text, text);
      return known == null ? text : known;
    }

    double number(String key) {
      String text = map.get(key);
      if (text == null) {
        return Double.NaN;
      }
      double number = Double.parseDouble(text);
      if (!Double.isFinite(number)) {
        throw new DamagedEntryException(key + " " + text);
      }
      return number;
    }

    int whole(String key) {
      return Integer.parseInt(text(key));
    }

    Optional<LocalDate> day(String key) {
      return Optional.of(text(key)).filter(t -> !t.isEmpty()).map(LocalDate::parse);
    }

    Optional<FibreCategory> category() {
      return FibreCategory.ofLabel(text("fibre_category"));
    }

    Wavelength wavelength() {
      return new Wavelength(whole("wavelength_nm"));
    }

    Direction direction() {
      return Direction.ofWord(text("direction")).orElseThrow();
    }
  }

  /** Reads one flat JSON object. */
  static Map<String, String> flat(String content) {
    Map<String, String> map = new LinkedHashMap<>();
    try (JsonParser json = JSON.createParser(content)) {
      if (json.nextToken() != JsonToken.START_OBJECT) {
        throw new DamagedEntryException("content that is no JSON object");
      }
      while (json.nextToken() == JsonToken.FIELD_NAME) {
        String key = json.currentName();
        json.nextToken();
        map.put(key, json.getValueAsString(""));
        json.skipChildren();
      }
      return map;
    } catch (IOException e) {
      throw new DamagedEntryException("content that is no JSON");
    }
  }

  TableRow decode(EntryKind kind, String content) {
    Values v = new Values(flat(content));
    try {
      return switch (kind) {
        case READING -> new ReadingRow(reading(v));
        case LINK -> new LinkRow(link(v));
        case INSTRUMENT -> new InstrumentRow(instrument(v));
        case CORD -> new CordRow(cord(v));
        case REFERENCE -> reference(v);
        case FACE -> new FaceRow(face(v));
        case GRADE -> new GradeRow(grade(v));
        case PART -> new PartRow(ArrayCodec.part(v::word, v::whole));
        case POLARITY -> new PolarityRow(ArrayCodec.position(v::word, v::whole));
        case JOB, INTAKE, JOIN ->
            throw new DamagedEntryException("a kind that is no row of a table");
      };
    } catch (RuntimeException e) {
      throw new DamagedEntryException("content that is no " + kind.word() + ": " + e.getMessage());
    }
  }

  private static Reading reading(Values v) {
    return new Reading(
        v.word("link"),
        v.whole("fibre"),
        v.direction(),
        v.wavelength(),
        v.number("power_dbm"),
        v.number("loss_db"),
        v.number("length_m"),
        v.word("reference"),
        Instant.parse(v.text("measured_at")),
        v.word("operator"));
  }

  private static Link link(Values v) {
    return new Link(
        v.word("link"),
        v.category().orElseThrow(),
        v.whole("fibres"),
        v.number("length_m"),
        new LinkEnd(
            v.word("a_place"),
            v.text("a_port"),
            Connector.parse(v.text("a_connector")).orElseThrow()),
        new LinkEnd(
            v.word("b_place"),
            v.text("b_port"),
            Connector.parse(v.text("b_connector")).orElseThrow()),
        v.whole("connections"),
        v.whole("splices"),
        list(v.text("devices"), ";"),
        v.word("fed_by"));
  }

  private static List<String> list(String text, String separator) {
    List<String> parts = new ArrayList<>();
    for (String part : text.split(separator, -1)) {
      if (!part.isEmpty()) {
        parts.add(part);
      }
    }
    return parts;
  }

  private static Instrument instrument(Values v) {
    SortedSet<Wavelength> able = new TreeSet<>();
    for (String nm : list(v.text("wavelengths_nm"), " ")) {
      able.add(new Wavelength(Integer.parseInt(nm)));
    }
    return new Instrument(
        v.text("instrument"),
        Instrument.Kind.ofWord(v.text("kind")).orElseThrow(),
        able,
        v.day("calibrated_on"),
        v.day("calibration_due"));
  }

  private static Cord cord(Values v) {
    double length = v.number("length_m");
    return new Cord(
        v.text("cord"),
        v.category().orElseThrow(),
        Double.isNaN(length) ? Optional.empty() : Optional.of(length),
        end(v, "end1"),
        end(v, "end2"),
        v.text("matings").isEmpty() ? OptionalInt.empty() : OptionalInt.of(v.whole("matings")),
        v.day("in_service_since"));
  }

  private static Cord.CordEnd end(Values v, String end) {
    return new Cord.CordEnd(
        Connector.parse(v.text(end + "_connector")), CordGrade.ofWord(v.text(end + "_grade")));
  }

  private static ReferenceRow reference(Values v) {
    double verification = v.number("verification_db");
    return new ReferenceRow(
        v.word("reference"),
        Method.ofWord(v.text("method")).orElseThrow(),
        new ZeroLevel(
            Instant.parse(v.text("set_at")),
            v.direction(),
            v.wavelength(),
            new LevelDbm(v.number("power_dbm")),
            Double.isNaN(verification) ? Optional.empty() : Optional.of(new LossDb(verification)),
            v.word("source"),
            v.word("meter"),
            v.word("launch_cord"),
            v.word("receive_cord"),
            v.word("substitution_cord"),
            v.category(),
            v.word("operator")));
  }

  private static FacePicture face(Values v) {
    return new FacePicture(
        v.text("picture"),
        v.text("subject"),
        v.text("stage"),
        v.text("class"),
        Optional.of(v.text("taken_at")).filter(t -> !t.isEmpty()).map(Instant::parse),
        v.word("operator"));
  }

  private static GradedFace grade(Values v) {
    return new GradedFace(
        face(v),
        v.text("sha256"),
        v.word("criteria"),
        FaceClass.ofId(v.text("graded_class")).orElseThrow(),
        FaceOutcome.ofWord(v.text("outcome")).orElseThrow(),
        v.text("close").equals("yes"),
        v.text("reasons").lines().toList(),
        v.text("fibres").lines().map(EntryCodec::fibre).toList());
  }

  /**
   * The first value in which two contents differ, as three texts: key, stored value, found value.
   */
  static String[] firstDifference(String stored, String found) {
    List<String[]> all = differences(stored, found);
    return all.isEmpty() ? new String[] {"", "", ""} : all.get(0);
  }

  /** Every value in which two contents differ, each as key, stored value, found value. */
  static List<String[]> differences(String stored, String found) {
    Map<String, String> before = flat(stored);
    Map<String, String> after = flat(found);
    List<String[]> all = new ArrayList<>();
    after.forEach(
        (key, value) -> {
          String old = before.getOrDefault(key, "nothing");
          if (!old.equals(value)) {
            all.add(new String[] {key, old, value});
          }
        });
    before.forEach(
        (key, value) -> {
          if (!after.containsKey(key)) {
            all.add(new String[] {key, value, "nothing"});
          }
        });
    return all;
  }
}
