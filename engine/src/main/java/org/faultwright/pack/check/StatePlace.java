package org.faultwright.pack.check;

import org.faultwright.pack.Point;
import org.faultwright.pack.Step;

/**
 * Where a state of a point is written: the four common ones stand under the point itself, others
 * under its {@code states}.
 */
final class StatePlace {

  private StatePlace() {}

  static String path(Step step, Point point, Point.ReadingState state, Positions at) {
    String of = "steps/" + step.id() + "/points/" + point.id();
    String own = of + "/states/" + state.id();
    return at.exactly(own).isPresent() ? own : of + "/" + state.id();
  }
}
