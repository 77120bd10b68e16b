package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.faultwright.measurement.Reference;
import org.faultwright.measurement.knowngood.Normality;
import org.faultwright.measurement.knowngood.PinReference;
import org.faultwright.measurement.knowngood.ReferencePolicy;

/** Writes references from known-good boards as JSON, format {@value #FORMAT}. */
public final class ReferenceJson {

  /** The format's number; it grows when a key changes its meaning or goes away. */
  public static final int FORMAT = 1;

  private final JsonGenerator json;

  private ReferenceJson(JsonGenerator json) {
    this.json = json;
  }

  /** Writes all of it. */
  public static void write(
      PrintWriter out, List<PinReference> pins, List<String> boards, ReferencePolicy policy) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.useDefaultPrettyPrinter();
      new ReferenceJson(json).write(pins, boards, policy);
    } catch (IOException e) { // a StringWriter has no reason to
      throw new UncheckedIOException(e);
    }
    out.println(text);
  }

  private void write(List<PinReference> pins, List<String> boards, ReferencePolicy policy)
      throws IOException {
    json.writeStartObject();
    json.writeNumberField("format", FORMAT);
    json.writeArrayFieldStart("boards");
    for (String board : boards) {
      json.writeString(board);
    }
    json.writeEndArray();
    json.writeNumberField("coverage", policy.pCoverage());
    json.writeNumberField("confidence", policy.pConfidence());
    json.writeNumberField("significance", policy.pSignificance());
    json.writeArrayFieldStart("pins");
    for (PinReference pin : pins) {
      json.writeStartObject();
      write(pin);
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void write(PinReference pin) throws IOException {
    json.writeStringField("point", pin.of().id());
    if (pin.of().pin().isPresent()) {
      json.writeStringField("pin", pin.of().pin().get());
    }
    if (pin.of().net().isPresent()) {
      json.writeStringField("net", pin.of().net().get());
    }
    json.writeStringField("quantity", pin.of().dimension().word());
    json.writeStringField("unit", pin.of().dimension().unit());
    json.writeStringField("limit", words(pin.of().side()));
    json.writeNumberField("step", pin.of().step());
    json.writeNumberField("read", pin.of().readings().size());
    json.writeNumberField("used", pin.used());
    json.writeNumberField("overRange", pin.overRange());
    number("mean", pin.mean());
    number("deviation", pin.deviation());
    json.writeArrayFieldStart("outliers");
    for (PinReference.Outlier outlier : pin.outliers()) {
      json.writeStartObject();
      json.writeStringField("board", outlier.reading().board());
      json.writeStringField("value", outlier.reading().value().toString());
      json.writeBooleanField("dropped", outlier.dropped());
      json.writeEndObject();
    }
    json.writeEndArray();
    if (pin.normality() instanceof Normality.Tested tested) {
      json.writeObjectFieldStart("normality");
      json.writeNumberField("statistic", tested.statistic());
      json.writeNumberField("p", tested.p());
      json.writeEndObject();
    }
    write(pin.result());
  }

  private void write(PinReference.Result result) throws IOException {
    if (result instanceof PinReference.Missing missing) {
      json.writeStringField("by", "none");
      json.writeStringField("why", words(missing.reason()));
      return;
    }
    PinReference.Established established = (PinReference.Established) result;
    if (result instanceof PinReference.AsNormal normal) {
      json.writeStringField("by", "normal");
      json.writeNumberField("factor", normal.factor());
    } else if (result instanceof PinReference.DistributionFreely free) {
      json.writeStringField("by", "sorted");
      json.writeNumberField("rank", free.rank());
      json.writeNumberField("holds", free.pCoverage());
      json.writeNumberField("boardsNeeded", free.boardsNeeded());
    } else {
      json.writeStringField(
          "by", result instanceof PinReference.ByPractice ? "practice" : "over-range");
    }
    json.writeStringField("basis", established.isCounted() ? "counted" : "common-practice");
    if (established.reference() instanceof Reference.Around around) {
      json.writeNumberField("nominal", around.nominal());
      json.writeNumberField("tolerance", around.tolerance());
    } else if (established.reference() instanceof Reference.Within within) {
      number("low", within.low());
      number("high", within.high());
    }
  }

  private static String words(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private void number(String name, OptionalDouble value) throws IOException {
    if (value.isPresent()) {
      json.writeNumberField(name, value.getAsDouble());
    }
  }
}
