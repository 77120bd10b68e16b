package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Map;
import java.util.Optional;
import org.faultwright.compile.Conflict;
import org.faultwright.compile.Explanations;
import org.faultwright.compile.Sensitivity;
import org.faultwright.diagnosis.Scrutiny;
import org.faultwright.explanation.NumberWords;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;

/** The keys of a closer look at a ranking. */
final class ScrutinyFields {

  private final JsonGenerator json;
  private final Pack pack;

  ScrutinyFields(JsonGenerator json, Pack pack) {
    this.json = json;
    this.pack = pack;
  }

  void write(Scrutiny scrutiny) throws IOException {
    json.writeArrayFieldStart("sets");
    for (Explanations.Explanation e : scrutiny.sets().sets()) {
      json.writeStartObject();
      json.writeArrayFieldStart("causes");
      for (CauseId c : e.causes()) {
        json.writeString(c.value());
      }
      json.writeEndArray();
      json.writeNumberField("probability", e.p());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeBooleanField("setsExact", scrutiny.sets().isExact());
    json.writeObjectFieldStart("agreement");
    json.writeNumberField("conflict", scrutiny.agreement().measure());
    json.writeArrayFieldStart("facts");
    for (Conflict.Expected e : scrutiny.agreement().facts()) {
      json.writeStartObject();
      json.writeNumberField("fact", e.told().id().number());
      json.writeNumberField("logAlone", e.logPAlone());
      json.writeNumberField("logGivenOthers", e.logPGivenRest());
      json.writeObjectFieldStart("predictedByOthers");
      for (Map.Entry<String, Double> p : e.predicted().entrySet()) {
        json.writeNumberField(p.getKey(), p.getValue());
      }
      json.writeEndObject();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
    json.writeArrayFieldStart("numbers");
    for (Sensitivity.Influence i : scrutiny.leader().numbers()) {
      json.writeStartObject();
      json.writeStringField("words", NumberWords.of(pack, i.number()));
      json.writeNumberField("value", i.value());
      json.writeNumberField("slope", i.slope());
      turn("below", i.below());
      turn("above", i.above());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void turn(String key, Optional<Sensitivity.Turn> turn) throws IOException {
    if (turn.isPresent()) {
      json.writeObjectFieldStart(key);
      json.writeNumberField("at", turn.get().at());
      json.writeStringField("leads", turn.get().leads().value());
      json.writeEndObject();
    }
  }
}
