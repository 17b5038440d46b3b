package ferrule.store.intake;

import ferrule.core.face.FacePicture;
import ferrule.core.isolation.MatedPath;
import ferrule.core.isolation.PathReading;
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
import ferrule.store.intake.TableRow.CordRow;
import ferrule.store.intake.TableRow.FaceRow;
import ferrule.store.intake.TableRow.InstrumentRow;
import ferrule.store.intake.TableRow.LinkRow;
import ferrule.store.intake.TableRow.MatingRow;
import ferrule.store.intake.TableRow.ReadingRow;
import ferrule.store.intake.TableRow.ReferenceRow;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Turns the cells of one row into what they mean. Column numbers follow {@link
 * TableKind#columns()}.
 */
final class RowParser {

  private static final double MOST_LEVEL_DBM = 40;
  private static final double LEAST_LEVEL_DBM = -100;
  private static final double MOST_LOSS_DB = 100;
  private static final double LEAST_LOSS_DB = -60;
  private static final double LEAST_SD_DB = 0.001;
  private static final double MOST_SD_DB = 10;
  private static final String CATEGORIES = "OM1 to OM5, OS1, OS1a or OS2";
  private static final String CONNECTORS =
      "a family and a polish, such as LC-UPC, SC-APC or MPO-PC";
  private static final Pattern SUBJECT = Pattern.compile("(port|cord):.+/[^/]+");
  private static final Set<String> STAGES = Set.of("", "found", "cleaned");
  private static final Set<String> FACE_CLASSES = Set.of("", "sm-pc", "sm-apc", "sm-pc26", "mm");

  private final Cells cells;
  private final ArrayRows arrays;
  private final Map<String, Optional<Connector>> connectors = new HashMap<>();
  private final @Nullable Wavelength[] wavelengths = new Wavelength[Wavelength.LONGEST_NM + 1];

  RowParser(Cells cells) {
    this.cells = cells;
    this.arrays = new ArrayRows(cells);
  }

  /** The row's meaning; null if it has a problem. */
  @Nullable TableRow parse(TableKind kind) {
    TableRow row =
        switch (kind) {
          case LINKS -> link();
          case INSTRUMENTS -> instrument();
          case CORDS -> cord();
          case REFERENCES -> reference();
          case READINGS -> reading();
          case FACES -> face();
          case PARTS -> arrays.part();
          case POLARITY -> arrays.position();
          case MATINGS -> mating();
        };
    return cells.bad() ? null : row;
  }

  private @Nullable TableRow link() {
    String id = cells.id(0);
    FibreCategory category = category(1, true);
    int fibres = cells.requiredWhole(2, 1, Link.MOST_FIBRES);
    double length = cells.requiredNumber(3, 0.01, Link.LONGEST_M, "m");
    Connector a = connector(4, true);
    Connector b = connector(5, true);
    String aPlace = cells.note(6);
    String aPort = cells.note(7);
    String bPlace = cells.note(8);
    String bPort = cells.note(9);
    int connections = cells.whole(10, 0, 1000, 0);
    int splices = cells.whole(11, 0, 10_000, 0);
    List<String> devices = list(cells.note(12), ";");
    String fedBy = cells.idOrNothing(13);
    if (fedBy.indexOf(';') >= 0) {
      cells.unknownWord(13, "one link: a leg has one feeder");
    }
    if (cells.bad() || category == null || a == null || b == null) {
      return null;
    }
    return new LinkRow(
        new Link(
            id,
            category,
            fibres,
            length,
            new LinkEnd(aPlace, aPort, a),
            new LinkEnd(bPlace, bPort, b),
            connections,
            splices,
            devices,
            fedBy));
  }

  private static List<String> list(String text, String separator) {
    if (text.isEmpty()) {
      return List.of();
    }
    List<String> parts = new ArrayList<>();
    for (String part : text.split(separator, -1)) {
      if (!part.isBlank()) {
        parts.add(part.strip());
      }
    }
    return parts;
  }

  private @Nullable TableRow instrument() {
    String id = cells.id(0);
    Optional<Instrument.Kind> kind = Instrument.Kind.ofWord(cells.required(1));
    if (kind.isEmpty() && !cells.text(1).isEmpty()) {
      cells.unknownWord(1, "source, meter or source+meter");
    }
    SortedSet<Wavelength> able = new TreeSet<>();
    for (String part : list(cells.text(2), "[\\s;]+")) {
      Wavelength wavelength = nanometres(part);
      if (wavelength == null) {
        cells.unknownWord(2, "whole nanometres from 600 to 1700 with blanks between them");
        break;
      }
      able.add(wavelength);
    }
    var on = cells.day(3);
    var due = cells.day(4);
    return kind.isEmpty() ? null : new InstrumentRow(new Instrument(id, kind.get(), able, on, due));
  }

  private @Nullable TableRow cord() {
    String id = cells.id(0);
    FibreCategory category = category(1, true);
    double length = cells.number(2, 0, 100_000, "m");
    Cord.CordEnd end1 = cordEnd(3);
    Cord.CordEnd end2 = cordEnd(5);
    int matings = cells.whole(7, 0, 10_000_000, -1);
    var since = cells.day(8);
    if (category == null) {
      return null;
    }
    return new CordRow(
        new Cord(
            id,
            category,
            Double.isNaN(length) ? Optional.empty() : Optional.of(length),
            end1,
            end2,
            matings < 0 ? OptionalInt.empty() : OptionalInt.of(matings),
            since));
  }

  private Cord.CordEnd cordEnd(int column) {
    Connector connector = connector(column, false);
    Optional<CordGrade> grade = CordGrade.ofWord(cells.text(column + 1));
    if (grade.isEmpty() && !cells.text(column + 1).isEmpty()) {
      cells.unknownWord(column + 1, "reference or standard");
    }
    return new Cord.CordEnd(Optional.ofNullable(connector), grade);
  }

  private @Nullable TableRow reference() {
    String id = cells.id(0);
    Instant setAt = cells.requiredTime(1);
    Optional<Method> method = Method.ofWord(cells.required(2));
    if (method.isEmpty() && !cells.text(2).isEmpty()) {
      cells.unknownWord(2, "one-cord, two-cord or three-cord (the count, never a letter)");
    }
    Direction direction = direction(3);
    Wavelength wavelength = wavelength(4);
    double power = cells.requiredNumber(5, LEAST_LEVEL_DBM, MOST_LEVEL_DBM, "dBm");
    String source = cells.idOrNothing(6);
    String meter = cells.idOrNothing(7);
    String launchCord = cells.idOrNothing(8);
    String receiveCord = cells.idOrNothing(9);
    String substitutionCord = cells.idOrNothing(10);
    FibreCategory category = category(11, false);
    double verification = cells.number(12, LEAST_LOSS_DB, MOST_LOSS_DB, "dB");
    String operator = cells.note(13);
    if (cells.bad() || method.isEmpty() || direction == null || wavelength == null) {
      return null;
    }
    return new ReferenceRow(
        id,
        method.get(),
        new ZeroLevel(
            setAt,
            direction,
            wavelength,
            new LevelDbm(power),
            Double.isNaN(verification) ? Optional.empty() : Optional.of(new LossDb(verification)),
            source,
            meter,
            launchCord,
            receiveCord,
            substitutionCord,
            Optional.ofNullable(category),
            operator));
  }

  private @Nullable TableRow reading() {
    String link = cells.id(0);
    int fibre = cells.requiredWhole(1, 1, 1_000_000);
    Direction direction = direction(2);
    Wavelength wavelength = wavelength(3);
    String reference = cells.id(4);
    Instant measuredAt = cells.requiredTime(5);
    double power = cells.number(6, LEAST_LEVEL_DBM, MOST_LEVEL_DBM, "dBm");
    double loss = cells.number(7, LEAST_LOSS_DB, MOST_LOSS_DB, "dB");
    double length = cells.number(8, 0, 10 * Link.LONGEST_M, "m");
    String operator = cells.note(9);
    if (cells.bad() || direction == null || wavelength == null) {
      return null;
    }
    if (Double.isNaN(power) && Double.isNaN(loss)) {
      cells.problem("power_dbm, loss_db", "a power or a loss", "neither", "fill one in");
      return null;
    }
    return new ReadingRow(
        new Reading(
            link,
            fibre,
            direction,
            wavelength,
            power,
            loss,
            length,
            reference,
            measuredAt,
            operator));
  }

  private TableRow face() {
    String picture = cells.id(0);
    String subject = cells.id(1);
    if (!subject.isEmpty() && !SUBJECT.matcher(subject).matches()) {
      cells.unknownWord(1, "port:PORT/FIBRE or cord:CORD/END");
    }
    if (!STAGES.contains(cells.text(2))) {
      cells.unknownWord(2, "found or cleaned");
    }
    if (!FACE_CLASSES.contains(cells.text(3))) {
      cells.unknownWord(3, "sm-pc, sm-apc, sm-pc26 or mm");
    }
    return new FaceRow(
        new FacePicture(
            picture,
            subject,
            cells.text(2),
            cells.text(3),
            Optional.ofNullable(cells.time(4)),
            cells.note(5)));
  }

  private @Nullable TableRow mating() {
    String ends = cells.required(0);
    MatedPath path = null;
    if (!ends.isEmpty()) {
      EndsText read = EndsText.read(ends);
      path = read.path().orElse(null);
      if (path == null) {
        cells.problem("ends", read.expected(), ends, read.action());
      }
    }
    double loss = cells.requiredNumber(1, LEAST_LOSS_DB, MOST_LOSS_DB, "dB");
    Wavelength wavelength = cells.isEmpty(2) ? null : wavelength(2);
    double sd = cells.number(3, LEAST_SD_DB, MOST_SD_DB, "dB");
    Instant measuredAt = cells.time(4);
    if (cells.bad() || path == null) {
      return null;
    }
    return new MatingRow(
        new PathReading(
            path,
            new LossDb(loss),
            Optional.ofNullable(wavelength),
            Double.isNaN(sd) ? OptionalDouble.empty() : OptionalDouble.of(sd),
            Optional.ofNullable(measuredAt)));
  }

  private @Nullable FibreCategory category(int column, boolean required) {
    String text = required ? cells.required(column) : cells.text(column);
    FibreCategory category = FibreCategory.ofLabel(text).orElse(null);
    if (category == null && !text.isEmpty()) {
      cells.unknownWord(column, CATEGORIES);
    }
    return category;
  }

  private @Nullable Connector connector(int column, boolean required) {
    String text = required ? cells.required(column) : cells.text(column);
    if (text.isEmpty()) {
      return null;
    }
    Optional<Connector> connector = connectors.computeIfAbsent(text, Connector::parse);
    if (connector.isEmpty()) {
      cells.unknownWord(column, CONNECTORS);
    }
    return connector.orElse(null);
  }

  private @Nullable Direction direction(int column) {
    String text = cells.required(column);
    if (text.equals("A-B")) {
      return Direction.A_TO_B;
    }
    if (text.equals("B-A")) {
      return Direction.B_TO_A;
    }
    return named(column, text, Direction::ofWord, "A-B or B-A (where the source stands first)");
  }

  private <T> @Nullable T named(
      int column, String text, Function<String, Optional<T>> of, String expected) {
    T value = of.apply(text).orElse(null);
    if (value == null && !text.isEmpty()) {
      cells.unknownWord(column, expected);
    }
    return value;
  }

  private @Nullable Wavelength wavelength(int column) {
    double value = cells.isEmpty(column) ? Double.NaN : cells.plainNumber(column);
    if (value >= Wavelength.SHORTEST_NM
        && value <= Wavelength.LONGEST_NM
        && value == Math.rint(value)) {
      return nanometres((int) value);
    }
    if (!cells.required(column).isEmpty()) {
      cells.unknownWord(column, "whole nanometres from 600 to 1700, without a unit");
    }
    return null;
  }

  private Wavelength nanometres(int nm) {
    Wavelength known = wavelengths[nm];
    if (known == null) {
      known = new Wavelength(nm);
      wavelengths[nm] = known;
    }
    return known;
  }

  private @Nullable Wavelength nanometres(String text) {
    if (text.length() < 3 || text.length() > 4) {
      return null;
    }
    int nm = 0;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c < '0' || c > '9') {
        return null;
      }
      nm = nm * 10 + c - '0';
    }
    if (nm < Wavelength.SHORTEST_NM || nm > Wavelength.LONGEST_NM) {
      return null;
    }
    return nanometres(nm);
  }
}
