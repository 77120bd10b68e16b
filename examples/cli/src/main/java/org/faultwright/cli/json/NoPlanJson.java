package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.faultwright.diagnosis.NoPlan;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.planning.PlanNode;

/** Writes why there is no plan as JSON, format {@value PlanJson#FORMAT}. */
public final class NoPlanJson {

  private final Pack pack;

  /** Writes about devices of this pack. */
  public NoPlanJson(Pack pack) {
    this.pack = pack;
  }

  /** Writes the reason and the ways out. */
  public void write(PrintWriter out, NoPlan none) {
    AnswerJson.print(
        out,
        json -> {
          json.writeNumberField("format", PlanJson.FORMAT);
          json.writeStringField("pack", pack.id().toString());
          json.writeStringField("noPlan", word(none));
          Optional<PlanNode.End> end = none.end();
          if (end.isPresent()) {
            json.writeObjectFieldStart("end");
            PlanJson.writeEnd(json, end.get());
            json.writeEndObject();
          }
          writeDetails(json, none);
        });
  }

  private static String word(NoPlan none) {
    if (none instanceof NoPlan.FactsImpossible) {
      return "facts impossible";
    } else if (none instanceof NoPlan.TooWide) {
      return "too wide";
    } else if (none instanceof NoPlan.NothingReported) {
      return "nothing reported";
    } else if (none instanceof NoPlan.FunctionBack) {
      return "function back";
    } else if (none instanceof NoPlan.NoRepair) {
      return "no repair";
    } else if (none instanceof NoPlan.AboveCeiling) {
      return "above ceiling";
    }
    return none instanceof NoPlan.NotWorthIt ? "not worth it" : "nothing open";
  }

  private void writeDetails(JsonGenerator json, NoPlan none) throws IOException {
    if (none instanceof NoPlan.FactsImpossible impossible) {
      strings(json, "clash", impossible.clash().stream().map(Object::toString).toList());
    } else if (none instanceof NoPlan.TooWide wide) {
      json.writeNumberField("predicted", wide.predicted());
      json.writeNumberField("budget", wide.budget());
    } else if (none instanceof NoPlan.AboveCeiling above) {
      json.writeNumberField("ceiling", above.ceiling());
      json.writeNumberField("ceilingThatOpens", above.cost());
      json.writeStringField("opens", above.cheapest().value());
      json.writeBooleanField("refused", above.refused());
    } else if (none instanceof NoPlan.NotWorthIt open) {
      json.writeStringField("cheapest", open.cheapest().value());
      json.writeNumberField("costOfGoingOn", open.costOfGoingOn());
      writeObstacles(json, open.obstacles());
    } else if (none instanceof NoPlan.NothingOpen nothing) {
      writeObstacles(json, nothing.obstacles());
    }
  }

  private void writeObstacles(JsonGenerator json, List<NoPlan.Obstacle> obstacles)
      throws IOException {
    json.writeArrayFieldStart("obstacles");
    for (NoPlan.Obstacle o : obstacles) {
      json.writeStartObject();
      AnswerFields.writeBlocked(json, o.blocked());
      if (o.hold().isPresent()) {
        json.writeStringField("hold", o.hold().get().value());
      }
      if (o.turn().isPresent()) {
        json.writeStringField("turn", FactWords.of(pack, o.turn().get()));
      }
      strings(json, "steps", o.steps().stream().map(StepId::value).toList());
      strings(json, "opens", o.opens().stream().map(StepId::value).toList());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void strings(JsonGenerator json, String name, Collection<String> values)
      throws IOException {
    json.writeArrayFieldStart(name);
    for (String value : values) {
      json.writeString(value);
    }
    json.writeEndArray();
  }
}
