package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Locale;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.explanation.ReadingWords;
import org.faultwright.measurement.Conformance;

/** How a reading keeps to its reference, as an object {@code conformance}. */
public final class ReadingFields {

  private final JsonGenerator json;

  /** Writes into an object that is open. */
  public ReadingFields(JsonGenerator json) {
    this.json = json;
  }

  /** Writes the key. */
  public void write(JudgedReading reading) throws IOException {
    Conformance c = reading.conformance();
    json.writeObjectFieldStart("conformance");
    json.writeStringField("words", ReadingWords.of(c));
    json.writeStringField("verdict", c.verdict().name().toLowerCase(Locale.ROOT).replace('_', '-'));
    json.writeNumberField("probability", c.pConforms());
    json.writeBooleanField("inside", c.inside());
    json.writeBooleanField("accepted", c.accepted());
    json.writeBooleanField("nearLimit", c.nearLimit());
    if (c.measured()) {
      json.writeNumberField("standardUncertainty", reading.uncertainty().combined());
      json.writeNumberField("ofMeter", reading.uncertainty().systematic());
      json.writeNumberField("byChance", reading.uncertainty().random());
      json.writeBooleanField("readingAgainHelps", reading.readingAgainHelps());
    }
    json.writeEndObject();
  }
}
