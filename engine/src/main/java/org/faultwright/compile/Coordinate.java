package org.faultwright.compile;

import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;

/**
 * One yes-or-no of a world: together they say all of the device that does not change by looking at
 * it.
 *
 * @see LikelyWorlds
 */
public sealed interface Coordinate {

  /** Whether a cause is present in the current epoch, hidden or not. */
  record Present(CauseId cause) implements Coordinate {}

  /**
   * Whether a present cause does not act in the current epoch, because the last attempt has hidden
   * it.
   */
  record Hidden(CauseId cause) implements Coordinate {}

  /**
   * A strength bit, drawn once per case: whether an input reaches its owner. Strengths of exactly 0
   * or 1 are no coordinates.
   *
   * @param input the cause or event that acts; for {@link Owner.OfFollower} the cause that is
   *     followed
   */
  record Strength(Owner owner, NodeId input) implements Coordinate {}

  /**
   * An otherwise-bit, drawn once per case: whether the event holds without its inputs. An {@code
   * otherwise} of exactly 0 is no coordinate.
   */
  record Otherwise(EventId event) implements Coordinate {}

  /** What has inputs with strengths. */
  sealed interface Owner {

    /** An event. */
    record OfEvent(EventId event) implements Owner {}

    /** A state that a step shows, triggered by causes and events. */
    record OfStepState(StepId step, StateId state) implements Owner {}

    /** A state off normal of a point where readings are taken. */
    record OfPointState(PointId point, StateId state) implements Owner {}

    /** A state that a symptom shows. */
    record OfSymptomState(SymptomId symptom, StateId state) implements Owner {}

    /** A cause that follows others. */
    record OfFollower(CauseId cause) implements Owner {}
  }
}
