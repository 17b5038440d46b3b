package ferrule.record.data;

import com.fasterxml.jackson.core.JsonGenerator;
import ferrule.core.array.ArrayLink;
import ferrule.core.array.ArrayPart;
import ferrule.core.array.JobArrays;
import ferrule.core.array.PolarityCheck;
import ferrule.core.array.PositionMap;
import ferrule.core.array.TransmitReceive;
import ferrule.core.job.Job;
import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** The array links of a job as JSON. Keys are a contract: they may be added, never renamed. */
final class ArraysJson {

  private final JsonGenerator json;

  private ArraysJson(JsonGenerator json) {
    this.json = json;
  }

  static void write(JsonGenerator json, Job job) throws IOException {
    JobArrays arrays = new JobArrays(job.parts(), job.positions());
    json.writeArrayFieldStart("arrays");
    for (ArrayLink link : arrays.links()) {
      new ArraysJson(json).link(arrays, link);
    }
    json.writeEndArray();
  }

  private void link(JobArrays arrays, ArrayLink link) throws IOException {
    json.writeStartObject();
    json.writeStringField("link", link.id());
    json.writeArrayFieldStart("parts");
    for (ArrayPart part : link.parts()) {
      json.writeStartObject();
      json.writeNumberField("order", part.order());
      json.writeStringField("part", part.part());
      json.writeStringField("kind", part.kind().word());
      json.writeStringField("map", part.typeShown());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeStringField("method", link.method());
    map("map", link.map());
    json.writeStringField("map_unknown", link.unknown());
    TransmitReceive transmit = TransmitReceive.of(link);
    json.writeStringField("transmit_receive", transmit.result().word());
    json.writeStringField("transmit_receive_why", transmit.why());
    json.writeNumberField("positions_read", arrays.read(link.id()));
    map("measured", arrays.measured(link.id()));
    Optional<PolarityCheck> check = arrays.check(link.id());
    json.writeArrayFieldStart("astray");
    for (int position : check.map(PolarityCheck::astray).orElse(List.of())) {
      json.writeNumber(position);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("would_explain");
    for (String suspect : check.map(PolarityCheck::suspects).orElse(List.of())) {
      json.writeString(suspect);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void map(String key, Optional<PositionMap> map) throws IOException {
    if (map.isEmpty()) {
      json.writeNullField(key);
      return;
    }
    json.writeArrayFieldStart(key);
    for (int at : map.get().arrivals()) {
      json.writeNumber(at);
    }
    json.writeEndArray();
  }
}
