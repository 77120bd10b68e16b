package org.faultwright.rules.facts;

import org.faultwright.pack.BenchState;
import org.faultwright.pack.StepId;

/** What can be allowed or not. */
public sealed interface Subject {

  /** Doing a step. */
  record OfStep(StepId step) implements Subject {}

  /** Turning a switch into a position. */
  record OfTurn(BenchState target) implements Subject {}

  /** A switch in a position. */
  record OfPosition(BenchState state) implements Subject {}

  /** Closing the device. */
  record OfClosing() implements Subject {}

  /** Turning a switch into a position. */
  static Subject turn(BenchState target) {
    return new OfTurn(target);
  }

  /** A switch in a position. */
  static Subject position(BenchState state) {
    return new OfPosition(state);
  }

  /** Closing the device. */
  static Subject closing() {
    return new OfClosing();
  }
}
