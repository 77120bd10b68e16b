package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.Weight;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Pack;

/** The keys of the explanation of one cause. */
final class WhyFields {

  private final JsonGenerator json;
  private final Pack pack;

  WhyFields(JsonGenerator json, Pack pack) {
    this.json = json;
    this.pack = pack;
  }

  void write(WhyCause why) throws IOException {
    json.writeStartObject();
    json.writeStringField("cause", why.cause().value());
    json.writeStringField("title", pack.causes().get(why.cause()).title());
    json.writeNumberField("probabilityByComplaints", why.pAtFirst());
    json.writeNumberField("probability", why.pNow());
    json.writeArrayFieldStart("facts");
    for (WhyCause.FactWeight f : why.facts()) {
      json.writeStartObject();
      json.writeNumberField("fact", f.told().id().number());
      json.writeStringField("words", FactWords.of(pack, f.told().fact()));
      json.writeStringField("says", says(f.weight()));
      if (f.weight() instanceof Weight.Finite finite) {
        json.writeNumberField("decibans", finite.decibans());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("restsOn");
    for (Basis basis : why.restsOn()) {
      writeBasis(basis);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("wouldChange");
    for (WhyCause.WouldChange c : why.wouldChange()) {
      json.writeStartObject();
      json.writeStringField("step", c.step().value());
      json.writeStringField("outcome", c.outcome().value());
      json.writeNumberField("probabilityOfOutcome", c.pOutcome());
      json.writeNumberField("probabilityThen", c.pThen());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static String says(Weight weight) {
    if (weight instanceof Weight.Proves) {
      return "proves";
    } else if (weight instanceof Weight.RulesOut) {
      return "rules-out";
    }
    return weight.order() > 0 ? "for" : weight.order() < 0 ? "against" : "nothing";
  }

  private void writeBasis(Basis basis) throws IOException {
    json.writeStartObject();
    if (basis instanceof Basis.Sourced s) {
      json.writeStringField("kind", "source");
      json.writeStringField("source", s.source().value());
      json.writeStringField("title", pack.sources().get(s.source()).title());
    } else if (basis instanceof Basis.Counted c) {
      json.writeStringField("kind", "counted");
      json.writeNumberField("seen", c.seen());
      json.writeNumberField("of", c.of());
      json.writeStringField("among", c.among());
    } else if (basis instanceof Basis.CommonPractice) {
      json.writeStringField("kind", "common-practice");
    } else if (basis instanceof Basis.Invented) {
      json.writeStringField("kind", "invented");
    } else {
      json.writeStringField("kind", "definition");
    }
    json.writeEndObject();
  }
}
