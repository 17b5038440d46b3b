package ferrule.record.data;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import ferrule.core.face.Cladding;
import ferrule.core.face.Criteria;
import ferrule.core.face.Examined;
import ferrule.core.face.FaceClass;
import ferrule.core.face.FaceGrade;
import ferrule.core.face.FaceOutcome;
import ferrule.core.face.Flaw;
import ferrule.core.face.Grade;
import ferrule.core.face.GradedFlaw;
import ferrule.core.face.RowGrade;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Grades of end faces as JSON, as {@code ferrule faces --json} gives them: one list, written while
 * the grading goes on. Keys are a contract: they may be added, never renamed. Numbers are
 * unrounded; places count from the cladding's centre, x to the right and y down.
 */
public final class FacesJson implements AutoCloseable {

  private static final JsonFactory FACTORY =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private final JsonGenerator json;
  private final Criteria criteria;

  /**
   * Begins the list.
   *
   * @param out stays open
   * @param criteria by which all are graded
   * @throws IOException if {@code out} fails
   */
  public FacesJson(Writer out, Criteria criteria) throws IOException {
    this.json = FACTORY.createGenerator(out);
    this.criteria = criteria;
    json.writeStartArray();
  }

  /**
   * Writes one picture.
   *
   * @throws IOException if the writer fails
   */
  public void graded(String picture, String sha256, Examined examined, FaceGrade grade)
      throws IOException {
    json.writeStartObject();
    head(picture, grade.faceClass(), grade.outcome(), grade.reasonTexts());
    json.writeBooleanField("close", grade.close());
    json.writeStringField("sha256", sha256);
    if (examined instanceof Examined.Row row && grade instanceof RowGrade graded) {
      row(picture, row, graded);
    } else {
      seen(examined);
      json.writeBooleanField("resolution_ok", grade.resolutionOk());
      json.writeArrayFieldStart("flaws");
      if (grade instanceof Grade one) {
        flaws(one, OptionalInt.empty());
      }
      json.writeEndArray();
    }
    json.writeEndObject();
  }

  /** A row: all flaws with the number of their fibre, then each fibre by itself. */
  private void row(String picture, Examined.Row row, RowGrade grade) throws IOException {
    nothingSeen();
    json.writeBooleanField("resolution_ok", grade.resolutionOk());
    json.writeArrayFieldStart("flaws");
    for (int i = 0; i < grade.fibres().size(); i++) {
      flaws(grade.fibres().get(i), OptionalInt.of(i + 1));
    }
    json.writeEndArray();
    json.writeArrayFieldStart("fibres");
    for (int i = 0; i < grade.fibres().size(); i++) {
      Grade fibre = grade.fibres().get(i);
      json.writeStartObject();
      json.writeNumberField("fibre", i + 1);
      head(picture, fibre.faceClass(), fibre.outcome(), fibre.reasonTexts());
      json.writeBooleanField("close", fibre.close());
      seen(row.fibres().get(i));
      json.writeBooleanField("resolution_ok", fibre.resolutionOk());
      json.writeArrayFieldStart("flaws");
      flaws(fibre, OptionalInt.empty());
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void flaws(Grade grade, OptionalInt fibre) throws IOException {
    for (GradedFlaw flaw : grade.flaws()) {
      flaw(flaw, fibre);
    }
  }

  /**
   * Writes a file that is no picture: unreadable, for the reason given.
   *
   * @throws IOException if the writer fails
   */
  public void unusable(String picture, FaceClass faceClass, String reason) throws IOException {
    json.writeStartObject();
    head(picture, faceClass, FaceOutcome.UNREADABLE, List.of(reason));
    json.writeBooleanField("close", false);
    json.writeNullField("sha256");
    nothingSeen();
    json.writeBooleanField("resolution_ok", false);
    json.writeArrayFieldStart("flaws");
    json.writeEndArray();
    json.writeEndObject();
  }

  private void head(String picture, FaceClass faceClass, FaceOutcome outcome, List<String> reasons)
      throws IOException {
    json.writeStringField("picture", picture);
    json.writeStringField("class", faceClass.id());
    json.writeStringField("edition", criteria.edition());
    json.writeStringField("criteria", criteria.id());
    json.writeStringField("outcome", outcome.word());
    json.writeArrayFieldStart("reasons");
    for (String reason : reasons) {
      json.writeString(reason);
    }
    json.writeEndArray();
  }

  private void seen(Examined examined) throws IOException {
    if (!(examined instanceof Examined.Seen seen)) {
      nothingSeen();
      return;
    }
    Cladding edge = seen.cladding();
    json.writeObjectFieldStart("cladding");
    json.writeNumberField("cx", edge.cx());
    json.writeNumberField("cy", edge.cy());
    json.writeNumberField("r_px", edge.rPx());
    json.writeNumberField("rx_px", edge.rxPx());
    json.writeNumberField("ry_px", edge.ryPx());
    json.writeEndObject();
    json.writeNumberField("um_per_px", seen.umPerPx());
    json.writeNumberField("resolvable_um", seen.resolvableUm());
    json.writeNumberField("shown_um", seen.shownUm());
  }

  private void nothingSeen() throws IOException {
    json.writeNullField("cladding");
    json.writeNullField("um_per_px");
  }

  private void flaw(GradedFlaw graded, OptionalInt fibre) throws IOException {
    Flaw flaw = graded.flaw();
    json.writeStartObject();
    if (fibre.isPresent()) {
      json.writeNumberField("fibre", fibre.getAsInt());
    }
    json.writeNumberField("number", graded.number());
    json.writeStringField("kind", flaw.kind().word());
    Optional<String> zone = graded.zone().map(Enum::name);
    if (zone.isPresent()) {
      json.writeStringField("zone", zone.get());
    } else {
      json.writeNullField("zone");
    }
    json.writeNumberField("size_um", flaw.sizeUm());
    json.writeNumberField("size_sd_um", flaw.sizeUncertaintyUm());
    json.writeNumberField("x_um", flaw.xUm());
    json.writeNumberField("y_um", flaw.yUm());
    json.writeNumberField("length_um", flaw.lengthUm());
    json.writeNumberField("width_um", flaw.widthUm());
    json.writeBooleanField("counted", graded.counted());
    json.writeBooleanField("close", graded.close());
    Optional<String> limit = graded.limit().map(l -> l.shown() + "; " + l.provenance().line());
    if (limit.isPresent()) {
      json.writeStringField("limit", limit.get());
    } else {
      json.writeNullField("limit");
    }
    json.writeEndObject();
  }

  /** Ends the list; the writer is flushed and stays open. */
  @Override
  public void close() throws IOException {
    json.writeEndArray();
    json.close();
  }
}
