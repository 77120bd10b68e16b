package org.faultwright.pack;

import java.util.List;

/**
 * A condition tree. It is evaluated in three values: what nobody has said yet is unknown, and an
 * unknown condition is not met, nor is its negation (Kleene's strong logic).
 */
public sealed interface Condition {

  /** Always met. */
  record Always() implements Condition {}

  /** All of the parts. */
  record All(List<Condition> parts) implements Condition {
    /** Copies the list. */
    public All {
      parts = List.copyOf(parts);
    }
  }

  /** At least one of the parts. */
  record Any(List<Condition> parts) implements Condition {
    /** Copies the list. */
    public Any {
      parts = List.copyOf(parts);
    }
  }

  /** The opposite of the part. */
  record Not(Condition part) implements Condition {}

  /**
   * Met unless the part is known to be met: what nobody has said does not stand in the way. Guards
   * are composed with it; packs cannot write it.
   */
  record Unless(Condition part) implements Condition {}

  /** A symptom has a value. */
  record SymptomIs(SymptomId symptom, SymptomValue value) implements Condition {}

  /** The latest standing outcome of a step since the device was last changed where it matters. */
  record OutcomeIs(StepId step, OutcomeId outcome) implements Condition {}

  /** The latest standing reading at a point is classified as a state. */
  record ReadingIs(PointId point, StateId state) implements Condition {}

  /** The customer said, or we saw, that it happened. */
  record HistoryIs(HistoryId history, boolean happened) implements Condition {}

  /** A switch of the bench is in a position. */
  record BenchIs(BenchState state) implements Condition {}

  /** A step has been carried out. */
  record Done(StepId step) implements Condition {}

  /**
   * The complaint's function test, or the report where no test has been made yet, says that the
   * function is lost.
   */
  record Reproduced(ComplaintId complaint) implements Condition {}

  /** The function of the complaint is not known to be lost: not reported lost, or proved since. */
  record Works(ComplaintId complaint) implements Condition {}

  /** The customer wants this. */
  record GoalIs(Goal goal) implements Condition {}

  /** The customer has agreed to this. */
  record Consented(ConsentId consent) implements Condition {}

  /** The device has this board. */
  record BoardIs(BoardId board) implements Condition {}
}
