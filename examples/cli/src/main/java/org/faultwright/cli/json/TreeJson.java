package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.faulttree.CircuitResult;
import org.faultwright.faulttree.CutSetResult;
import org.faultwright.faulttree.CutSets;
import org.faultwright.faulttree.EventName;
import org.faultwright.faulttree.FaultTree;
import org.faultwright.faulttree.Importance;
import org.faultwright.faulttree.PackTree.LeftOut;
import org.faultwright.faulttree.PrimeImplicants;
import org.faultwright.faulttree.TreeFigures;

/** Writes figures of a fault tree as JSON, format {@value #FORMAT}. */
public final class TreeJson {

  /** The format's number; it grows when a key changes its meaning or goes away. */
  public static final int FORMAT = 1;

  private final FaultTree tree;
  private final TreeFigures figures;

  /** Figures of a tree. */
  public TreeJson(FaultTree tree, TreeFigures figures) {
    this.tree = tree;
    this.figures = figures;
  }

  /**
   * Writes all of it.
   *
   * @param leavesOut of a pack: what figures of independent events leave out
   */
  public void write(PrintWriter out, String title, String from, Optional<Set<LeftOut>> leavesOut) {
    AnswerJson.print(
        out,
        json -> {
          json.writeNumberField("format", FORMAT);
          json.writeStringField("tree", tree.name());
          json.writeStringField("from", from);
          json.writeStringField("top", figures.top().value());
          if (!title.isEmpty()) {
            json.writeStringField("title", title);
          }
          json.writeBooleanField("coherent", figures.isCoherent());
          if (leavesOut.isPresent()) {
            json.writeArrayFieldStart("leavesOut");
            for (LeftOut left : leavesOut.get()) {
              json.writeString(left.name().toLowerCase(Locale.ROOT));
            }
            json.writeEndArray();
          }
          json.writeObjectFieldStart("independent");
          json.writeNumberField("probability", figures.pTop());
          json.writeNumberField("complement", figures.pNotTop());
          json.writeNumberField("diagramNodes", figures.diagramNodes());
          json.writeEndObject();
          circuit(json);
          cutSets(json);
          if (figures.primeImplicants().isPresent()) {
            implicants(json, figures.primeImplicants().get());
          }
          importances(json);
        });
  }

  private void circuit(JsonGenerator json) throws IOException {
    json.writeObjectFieldStart("circuit");
    if (figures.circuit() instanceof CircuitResult.Exact exact) {
      json.writeNumberField("probability", exact.pTop());
      json.writeNumberField("complement", exact.pNotTop());
      json.writeNumberField("operations", exact.operations());
      json.writeObjectFieldStart("givenTop");
      for (Map.Entry<EventName, Double> e : exact.pGivenTop().entrySet()) {
        json.writeNumberField(e.getKey().value(), e.getValue());
      }
      json.writeEndObject();
    } else {
      CircuitResult.TooWide wide = (CircuitResult.TooWide) figures.circuit();
      json.writeNumberField("predictedEntries", wide.predicted());
      json.writeNumberField("allowedEntries", wide.budget());
    }
    json.writeEndObject();
  }

  private void cutSets(JsonGenerator json) throws IOException {
    json.writeObjectFieldStart("cutSets");
    if (figures.cutSets() instanceof CutSets sets) {
      count(json, "count", sets.count());
      json.writeObjectFieldStart("byOrder");
      for (Map.Entry<Integer, Double> e : sets.byOrder().entrySet()) {
        count(json, String.valueOf(e.getKey()), e.getValue());
      }
      json.writeEndObject();
      json.writeNumberField("rareEventSum", sets.pSum());
      if (sets.minCutUpperBound().isPresent()) {
        json.writeNumberField("minCutUpperBound", sets.minCutUpperBound().getAsDouble());
      }
      json.writeArrayFieldStart("listed");
      for (CutSets.CutSet set : sets.listed()) {
        json.writeStartObject();
        names(json, "events", set.events());
        json.writeNumberField("probability", set.p());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeObjectFieldStart("leftOut");
      part(json, "byOrder", sets.leftOut().byOrder());
      part(json, "byProbability", sets.leftOut().byProbability());
      part(json, "byNumber", sets.leftOut().byNumber());
      json.writeEndObject();
      count(json, "impossible", sets.impossible());
    } else {
      json.writeNumberField(
          "allowedNodes", ((CutSetResult.OverBudget) figures.cutSets()).allowedNodes());
    }
    json.writeEndObject();
  }

  /** A whole number as far as it is exact. */
  private static void count(JsonGenerator json, String name, double count) throws IOException {
    if (count < 1L << 53) {
      json.writeNumberField(name, (long) count);
    } else {
      json.writeNumberField(name, count);
    }
  }

  private static void part(JsonGenerator json, String name, CutSets.LeftOut.Part part)
      throws IOException {
    json.writeObjectFieldStart(name);
    count(json, "count", part.count());
    json.writeNumberField("probabilitySum", part.pSum());
    json.writeEndObject();
  }

  private static void implicants(JsonGenerator json, PrimeImplicants all) throws IOException {
    json.writeObjectFieldStart("primeImplicants");
    count(json, "count", all.count());
    json.writeArrayFieldStart("listed");
    for (PrimeImplicants.Implicant i : all.listed()) {
      json.writeStartObject();
      names(json, "happen", i.happen());
      names(json, "absent", i.absent());
      json.writeNumberField("probability", i.p());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void importances(JsonGenerator json) throws IOException {
    json.writeArrayFieldStart("importances");
    for (Importance i : figures.importances()) {
      json.writeStartObject();
      json.writeStringField("event", i.event().value());
      String label = tree.nodes().get(i.event()).label();
      if (!label.isEmpty()) {
        json.writeStringField("label", label);
      }
      json.writeNumberField("probability", i.p());
      json.writeStringField("bearing", i.bearing().name().toLowerCase(Locale.ROOT));
      json.writeNumberField("birnbaum", i.birnbaum());
      if (i.relative().isPresent()) {
        relative(json, i.relative().get());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void relative(JsonGenerator json, Importance.Relative r) throws IOException {
    json.writeNumberField("criticality", r.criticality());
    json.writeNumberField("diagnostic", r.diagnostic());
    if (r.cutSets().isPresent()) {
      json.writeNumberField("fussellVesely", r.cutSets().getAsDouble());
    }
    json.writeNumberField("riskAchievementWorth", r.achievementWorth());
    if (r.reductionWorth() == Double.POSITIVE_INFINITY) {
      // JSON has no number for it
      json.writeStringField("riskReductionWorth", "infinite");
    } else {
      json.writeNumberField("riskReductionWorth", r.reductionWorth());
    }
  }

  private static void names(JsonGenerator json, String key, List<EventName> events)
      throws IOException {
    json.writeArrayFieldStart(key);
    for (EventName e : events) {
      json.writeString(e.value());
    }
    json.writeEndArray();
  }
}
