package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import org.faultwright.pack.PartId;
import org.faultwright.planning.PlanComparison;
import org.faultwright.planning.PlanComparison.Row;
import org.faultwright.planning.PlanComparison.Way;
import org.faultwright.planning.Quote;
import org.faultwright.planning.RepairOrNot;
import org.faultwright.planning.RepairOrNot.Turning;
import org.faultwright.planning.Simulated;

/** Writes what stands beside a plan: whether a repair is worth it, and rules of thumb. */
final class PlanAsides {

  private PlanAsides() {}

  static void write(JsonGenerator json, RepairOrNot asked) throws IOException {
    json.writeObjectFieldStart("repairOrNot");
    json.writeStringField("verdict", word(asked.verdict()));
    json.writeObjectFieldStart("turning");
    if (asked.turning() instanceof Turning.From from) {
      json.writeStringField("worth", "from");
      json.writeNumberField("deviceValue", from.deviceValue());
      json.writeBooleanField("exact", from.isExact());
    } else if (asked.turning() instanceof Turning.Never never) {
      json.writeStringField("worth", "never");
      json.writeNumberField("sendOnFrom", never.sendOnFrom());
      json.writeBooleanField("exact", never.isExact());
    } else {
      json.writeStringField("worth", "always");
    }
    json.writeEndObject();
    if (asked.deviceValue().isPresent()) {
      json.writeNumberField("deviceValue", asked.deviceValue().getAsDouble());
    }
    json.writeNumberField("expectedCost", asked.expectedCost());
    if (asked.returnedAtOnce().isPresent()) {
      json.writeNumberField("returnedAtOnce", asked.returnedAtOnce().getAsDouble());
    }
    write(json, asked.quote());
    json.writeEndObject();
  }

  private static String word(RepairOrNot.Verdict verdict) {
    return switch (verdict) {
      case REPAIR -> "repair";
      case SEND_ON -> "sendOn";
      case RETURN -> "return";
      case NOT_STATED -> "notStated";
    };
  }

  private static void write(JsonGenerator json, Quote quote) throws IOException {
    json.writeObjectFieldStart("quote");
    json.writeNumberField("halfOfCases", quote.half());
    json.writeNumberField("nineInTen", quote.nineInTen());
    json.writeNumberField("expected", quote.expected());
    json.writeNumberField("repaired", quote.pRepaired());
    if (quote.ceiling().isPresent()) {
      json.writeNumberField("ceiling", quote.ceiling().getAsDouble());
      json.writeNumberField("aboveCeiling", quote.pAboveCeiling());
    }
    json.writeArrayFieldStart("assumedParts");
    for (PartId part : quote.assumedParts()) {
      json.writeString(part.value());
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  static void write(JsonGenerator json, PlanComparison compared) throws IOException {
    json.writeArrayFieldStart("compared");
    for (Row row : compared.rows()) {
      json.writeStartObject();
      json.writeStringField("way", word(row.way()));
      json.writeNumberField("expectedCost", row.expectedCost());
      var times = compared.timesAsMuch(row.way());
      if (times.isPresent()) {
        json.writeNumberField("timesAsMuch", times.getAsDouble());
      }
      json.writeNumberField("minutesMore", compared.minutesMore(row.way()));
      PlanJson.writeSpend(json, "expected", row.course().expected());
      json.writeNumberField("expectedSteps", row.course().expectedSteps());
      json.writeObjectFieldStart("endings");
      for (var e : row.course().endings().entrySet()) {
        json.writeNumberField(PlanJson.word(e.getKey()), e.getValue());
      }
      json.writeEndObject();
      json.writeNumberField("comeback", row.course().pComeback());
      json.writeNumberField("beyond", row.pBeyond());
      json.writeNumberField("less", row.less());
      json.writeNumberField("more", row.more());
      if (row.simulated().isPresent()) {
        write(json, row.simulated().get());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static String word(Way way) {
    return switch (way) {
      case PLAN -> "plan";
      case MOST_INFORMATION -> "mostInformation";
      case PROBABILITY_PER_COST -> "probabilityPerCost";
      case LIKELIEST_FIRST -> "likeliestFirst";
    };
  }

  private static void write(JsonGenerator json, Simulated s) throws IOException {
    json.writeObjectFieldStart("simulated");
    json.writeNumberField("devices", s.devices());
    json.writeNumberField("cost", s.cost());
    json.writeNumberField("costError", s.costError());
    json.writeNumberField("hands", s.hands());
    json.writeNumberField("handsError", s.handsError());
    json.writeObjectFieldStart("endings");
    for (var e : s.endings().entrySet()) {
      json.writeNumberField(PlanJson.word(e.getKey()), e.getValue());
    }
    json.writeEndObject();
    json.writeNumberField("comebacks", s.comebacks());
    json.writeEndObject();
  }
}
