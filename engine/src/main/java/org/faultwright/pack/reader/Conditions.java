package org.faultwright.pack.reader;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Choice;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.format.Words;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/** The condition trees of format 1. */
final class Conditions {

  private static final Form<YamlScalar> WORD =
      Forms.scalar("a word", new Shape.Pattern(Ids.SPELLING, false), (s, scope) -> Optional.of(s));

  private static final Key<SymptomId> SYMPTOM =
      Key.required("symptom", Ids.ref(Kind.SYMPTOM, SymptomId::new), "the symptom");
  private static final Key<SymptomValue> SYMPTOM_IS =
      Key.required(
          "is",
          Forms.word(
              Map.entry("present", SymptomValue.PRESENT),
              Map.entry("absent", SymptomValue.ABSENT),
              Map.entry("sometimes", SymptomValue.SOMETIMES)),
          "present, absent or sometimes");
  private static final Key<StepId> OUTCOME =
      Key.required("outcome", Ids.ref(Kind.STEP, StepId::new), "the step");
  private static final Key<YamlScalar> OUTCOME_IS =
      Key.required("is", WORD, "the outcome, by its name");
  private static final Key<PointId> READING =
      Key.required("reading", Ids.ref(Kind.POINT, PointId::new), "the point");
  private static final Key<YamlScalar> READING_IS =
      Key.required("is", WORD, "the state, by its name");
  private static final Key<HistoryId> HISTORY =
      Key.required("history", Ids.ref(Kind.HISTORY, HistoryId::new), "the history");
  private static final Key<Boolean> HISTORY_IS =
      Key.required("is", Forms.YES_NO, "whether it happened");
  private static final Key<BenchState> BENCH =
      Key.required("bench", BenchStates.FORM, "the bench state");
  private static final Key<StepId> DONE =
      Key.required("done", Ids.ref(Kind.STEP, StepId::new), "the step");
  private static final Key<ComplaintId> REPRODUCED =
      Key.required("reproduced", Ids.ref(Kind.COMPLAINT, ComplaintId::new), "the complaint");
  private static final Key<ComplaintId> WORKS =
      Key.required("works", Ids.ref(Kind.COMPLAINT, ComplaintId::new), "the complaint");
  private static final Key<Goal> GOAL = Key.required("goal", Words.GOAL, "what the customer wants");
  private static final Key<ConsentId> CONSENT =
      Key.required("consent", Ids.ref(Kind.CONSENT, ConsentId::new), "what was agreed to");
  private static final Key<BoardId> BOARD =
      Key.required("board", Ids.ref(Kind.BOARD, BoardId::new), "the board");

  /** A condition, found by the time it is asked for, as its own blocks contain it. */
  private static final Form<Condition> ITSELF =
      new Form<>() {
        @Override
        public Optional<Condition> read(YamlNode node, Scope scope) {
          return FORM.read(node, scope);
        }

        @Override
        public Shape shape() {
          return FORM.shape();
        }
      };

  private static final Key<List<Condition>> ALL =
      Key.required("all", Forms.some(Forms.list(ITSELF)), "conditions that must all be met");
  private static final Key<List<Condition>> ANY =
      Key.required("any", Forms.some(Forms.list(ITSELF)), "conditions of which one must be met");
  private static final Key<Condition> NOT =
      Key.required("not", ITSELF, "the condition that must be known not to be met");

  /** A condition. */
  static final Form<Condition> FORM =
      Choice.<Condition>of("condition")
          .or(
              Block.of("symptom-is", SYMPTOM, SYMPTOM_IS),
              f -> of(f, () -> new Condition.SymptomIs(f.need(SYMPTOM), f.need(SYMPTOM_IS))))
          .or(Block.of("outcome-is", OUTCOME, OUTCOME_IS), Conditions::outcome)
          .or(Block.of("reading-is", READING, READING_IS), Conditions::reading)
          .or(
              Block.of("history-is", HISTORY, HISTORY_IS),
              f -> of(f, () -> new Condition.HistoryIs(f.need(HISTORY), f.need(HISTORY_IS))))
          .or(Block.of("bench-is", BENCH), f -> of(f, () -> new Condition.BenchIs(f.need(BENCH))))
          .or(Block.of("step-done", DONE), f -> of(f, () -> new Condition.Done(f.need(DONE))))
          .or(
              Block.of("reproduced", REPRODUCED),
              f -> of(f, () -> new Condition.Reproduced(f.need(REPRODUCED))))
          .or(Block.of("works", WORKS), f -> of(f, () -> new Condition.Works(f.need(WORKS))))
          .or(Block.of("goal-is", GOAL), f -> of(f, () -> new Condition.GoalIs(f.need(GOAL))))
          .or(
              Block.of("consented", CONSENT),
              f -> of(f, () -> new Condition.Consented(f.need(CONSENT))))
          .or(Block.of("board-is", BOARD), f -> of(f, () -> new Condition.BoardIs(f.need(BOARD))))
          .or(Block.of("all-of", ALL), f -> of(f, () -> new Condition.All(f.need(ALL))))
          .or(Block.of("any-of", ANY), f -> of(f, () -> new Condition.Any(f.need(ANY))))
          .or(Block.of("not", NOT), f -> of(f, () -> new Condition.Not(f.need(NOT))));

  private Conditions() {}

  private static Optional<Condition> of(Fields f, Supplier<Condition> condition) {
    return f.complete() ? Optional.of(condition.get()) : Optional.empty();
  }

  private static Optional<Condition> outcome(Fields f) {
    if (!f.complete()) {
      return Optional.empty();
    }
    StepId step = f.need(OUTCOME);
    return Results.outcome(step.value(), f.need(OUTCOME_IS), f.scope())
        .map(o -> new Condition.OutcomeIs(step, new OutcomeId(o)));
  }

  private static Optional<Condition> reading(Fields f) {
    if (!f.complete()) {
      return Optional.empty();
    }
    PointId point = f.need(READING);
    return Results.state(point.value(), f.need(READING_IS), f.scope())
        .map(s -> new Condition.ReadingIs(point, new StateId(s)));
  }
}
