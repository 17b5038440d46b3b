package ferrule.record.data;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import ferrule.core.sample.AcceptanceSample;
import ferrule.core.sample.Drawn;
import ferrule.core.uncertainty.SampleSize;
import java.io.IOException;
import java.io.Writer;

/**
 * An acceptance sample as JSON, as {@code ferrule sample --json} gives it. Keys are a contract:
 * they may be added, never renamed. Numbers are unrounded.
 */
public final class SampleJson {

  private static final JsonFactory FACTORY =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private SampleJson() {}

  /**
   * Writes a sample on one line. The writer is flushed and stays open.
   *
   * @param shares shares of the lot for which to say how often the sample misses as many
   * @throws IOException if {@code out} fails
   */
  public static void write(Writer out, AcceptanceSample sample, double... shares)
      throws IOException {
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      json.writeStartObject();
      json.writeNumberField("lot", sample.lot());
      json.writeNumberField("unread", sample.unread());
      json.writeNumberField("size", sample.size());
      json.writeNumberField("drawn_by_lot", sample.byLot());
      json.writeNumberField("seed", sample.seed());
      json.writeArrayFieldStart("missed");
      for (double share : shares) {
        int bad = SampleSize.badOf(sample.lot(), share);
        json.writeStartObject();
        json.writeNumberField("bad", bad);
        json.writeNumberField("probability", sample.missed(bad));
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeArrayFieldStart("fibres");
      for (Drawn drawn : sample.drawn()) {
        fibre(json, drawn);
      }
      json.writeEndArray();
      json.writeEndObject();
    }
  }

  private static void fibre(JsonGenerator json, Drawn drawn) throws IOException {
    json.writeStartObject();
    json.writeStringField("fibre", drawn.fibre().fibre().toString());
    json.writeStringField("why", drawn.why().word());
    json.writeStringField("place", drawn.stratum().place());
    json.writeStringField("operator", drawn.stratum().operator());
    json.writeStringField("cord", drawn.stratum().cord());
    json.writeArrayFieldStart("readings");
    for (Drawn.Compared compared : drawn.compared()) {
      json.writeStartObject();
      json.writeStringField("direction", compared.reading().reading().direction().word());
      json.writeNumberField("wavelength_nm", compared.reading().nm());
      json.writeNumberField("loss_db", compared.reading().lossDb());
      json.writeNumberField("tolerance_db", compared.toleranceDb());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }
}
