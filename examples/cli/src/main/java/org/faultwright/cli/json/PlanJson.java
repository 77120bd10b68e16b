package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.cli.text.RaisedHolds;
import org.faultwright.cli.text.StepCautions;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.SeenWords;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Hold;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanComparison;
import org.faultwright.planning.PlanNode;
import org.faultwright.planning.RepairOrNot;
import org.faultwright.planning.Spend;

/** Writes plans as JSON, format {@value #FORMAT}. */
public final class PlanJson {

  /** The format's number; it grows when a key changes its meaning or goes away. */
  public static final int FORMAT = 1;

  private static final double HALF = 0.5;
  private static final double NINE_IN_TEN = 0.9;

  private final Pack pack;

  /** Writes plans about devices of this pack. */
  public PlanJson(Pack pack) {
    this.pack = pack;
  }

  /** Writes one plan. */
  public void write(PrintWriter out, Plan plan) {
    write(out, plan, Optional.empty(), Optional.empty());
  }

  /** Writes one plan, with what stands beside it. */
  public void write(
      PrintWriter out,
      Plan plan,
      Optional<RepairOrNot> repairOrNot,
      Optional<PlanComparison> compared) {
    AnswerJson.print(
        out,
        json -> {
          json.writeNumberField("format", FORMAT);
          json.writeStringField("pack", pack.id().toString());
          json.writeNumberField("expectedCost", plan.expectedCost());
          json.writeNumberField("atLeast", plan.atLeast());
          json.writeBooleanField("optimal", plan.isOptimal());
          json.writeNumberField("stepsAhead", plan.stepsAhead());
          json.writeNumberField("leftOut", plan.pLeftOut());
          json.writeNumberField("expectedSteps", plan.expectedSteps());
          writeSpend(json, "expected", plan.expected());
          writeRange(json, "hands", plan.hands(HALF), plan.hands(NINE_IN_TEN));
          writeRange(json, "price", plan.price(HALF), plan.price(NINE_IN_TEN));
          json.writeObjectFieldStart("endings");
          for (var e : plan.endings().entrySet()) {
            json.writeNumberField(word(e.getKey()), e.getValue());
          }
          json.writeNumberField("notFollowed", plan.pOpen());
          json.writeEndObject();
          json.writeNumberField("comeback", plan.pComeback());
          json.writeArrayFieldStart("asIfAgreed");
          for (ConsentId consent : plan.asIfAgreed()) {
            json.writeString(consent.value());
          }
          json.writeEndArray();
          if (repairOrNot.isPresent()) {
            PlanAsides.write(json, repairOrNot.get());
          }
          if (compared.isPresent()) {
            PlanAsides.write(json, compared.get());
          }
          json.writeObjectFieldStart("first");
          writeNode(json, plan.root());
          json.writeEndObject();
        });
  }

  static String word(PlanNode.Ending ending) {
    return switch (ending) {
      case REPAIRED -> "repaired";
      case SENT_ON -> "sentOn";
      case RETURNED -> "returned";
    };
  }

  private static void writeRange(
      JsonGenerator json, String name, OptionalDouble half, OptionalDouble most)
      throws IOException {
    json.writeObjectFieldStart(name);
    if (half.isPresent()) {
      json.writeNumberField("halfOfCases", half.getAsDouble());
    }
    if (most.isPresent()) {
      json.writeNumberField("nineInTen", most.getAsDouble());
    }
    json.writeEndObject();
  }

  static void writeSpend(JsonGenerator json, String name, Spend spend) throws IOException {
    json.writeObjectFieldStart(name);
    json.writeNumberField("hands", spend.hands());
    json.writeNumberField("waiting", spend.waiting());
    json.writeNumberField("money", spend.money());
    json.writeNumberField("risk", spend.risk());
    json.writeEndObject();
  }

  private void writeNode(JsonGenerator json, PlanNode node) throws IOException {
    json.writeNumberField("cost", node.expectedCost());
    if (node instanceof PlanNode.DoTest test) {
      json.writeStringField("do", "test");
      json.writeStringField("step", test.step().value());
      writeTurns(json, test.turns());
      writeCautions(json, StepCautions.of(pack, test.step(), test.turns(), List.of()));
      writeSpend(json, "takes", test.spend());
      json.writeArrayFieldStart("branches");
      for (PlanNode.Branch b : test.branches()) {
        json.writeStartObject();
        json.writeStringField("seen", SeenWords.of(pack, test.step(), b.seen()));
        json.writeNumberField("p", b.p());
        writeHolds(json, RaisedHolds.by(pack, test.step(), b.seen()));
        json.writeObjectFieldStart("then");
        writeNode(json, b.then());
        json.writeEndObject();
        json.writeEndObject();
      }
      json.writeEndArray();
    } else if (node instanceof PlanNode.DoRepair repair) {
      json.writeStringField("do", "repair");
      json.writeStringField("step", repair.step().value());
      json.writeArrayFieldStart("functionTests");
      for (StepId proof : repair.proofs()) {
        json.writeString(proof.value());
      }
      json.writeEndArray();
      writeTurns(json, repair.turns());
      writeCautions(json, StepCautions.of(pack, repair.step(), repair.turns(), repair.proofs()));
      writeSpend(json, "takes", repair.spend());
      json.writeNumberField("passes", repair.pPass());
      json.writeObjectFieldStart("ifPassed");
      writeNode(json, repair.ifPassed());
      json.writeEndObject();
      json.writeObjectFieldStart("ifFailed");
      writeNode(json, repair.ifFailed());
      json.writeEndObject();
    } else if (node instanceof PlanNode.End end) {
      writeEnding(json, end);
    } else if (node instanceof PlanNode.AndSoOn more) {
      json.writeStringField("do", "and so on");
      if (more.next().isPresent()) {
        json.writeStringField("step", more.next().get().value());
      }
    }
  }

  private void writeCautions(JsonGenerator json, List<CautionId> cautions) throws IOException {
    json.writeArrayFieldStart("cautions");
    for (CautionId caution : cautions) {
      json.writeStartObject();
      json.writeStringField("caution", caution.value());
      json.writeStringField("words", pack.cautions().get(caution).text());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void writeHolds(JsonGenerator json, List<Hold> holds) throws IOException {
    json.writeArrayFieldStart("holds");
    for (Hold hold : holds) {
      json.writeStartObject();
      json.writeStringField("hold", hold.id().value());
      json.writeStringField("words", hold.says());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /** The end of a job that ends at once. */
  static void writeEnd(JsonGenerator json, PlanNode.End end) throws IOException {
    json.writeNumberField("cost", end.expectedCost());
    writeEnding(json, end);
  }

  private static void writeEnding(JsonGenerator json, PlanNode.End end) throws IOException {
    json.writeStringField("do", "end");
    json.writeStringField("ending", word(end.ending()));
    writeSpend(json, "takes", end.spend());
    json.writeNumberField("comeback", end.pComeback());
  }

  private void writeTurns(JsonGenerator json, List<BenchState> turns) throws IOException {
    json.writeArrayFieldStart("turns");
    for (BenchState turn : turns) {
      json.writeString(FactWords.of(pack, turn));
    }
    json.writeEndArray();
  }
}
