package org.faultwright.pack.check;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.faultwright.measurement.PairModel;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.problem.Problem;

/** Two points that cannot be compared by their readings. */
final class ComparedPoints implements PackCheck {

  @Override
  public String id() {
    return "compared-points";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Map<PointId, StepId> before = new HashMap<>();
    for (Step step : pack.steps().values()) {
      step.compares()
          .flatMap(c -> wrong(pack, c, step, before))
          .ifPresent(
              wrong ->
                  found.accept(
                      Problem.error(
                          id(),
                          at.of("steps/" + step.id() + "/compare/" + wrong.key()),
                          wrong.words().formatted(step.id()),
                          wrong.wayOut())));
    }
  }

  private record Wrong(String key, String words, String wayOut) {}

  private static Optional<Wrong> wrong(
      Pack pack, Comparison c, Step step, Map<PointId, StepId> before) {
    if (c.point().equals(c.with())) {
      return wrong("with", "step '%s' compares a point with itself", "name the other point");
    }
    for (PointId point : List.of(c.point(), c.with())) {
      StepId other = before.putIfAbsent(point, step.id());
      if (other != null) {
        return wrong(
            "point",
            "point '" + point + "' is compared in step '" + other + "' and in step '%s'",
            "compare a point with one other point only");
      }
    }
    Optional<Point> first = pack.point(c.point());
    Optional<Point> second = pack.point(c.with());
    if (first.isEmpty() || second.isEmpty()) {
      return Optional.empty(); // told where the names are read
    }
    if (!(first.get().reference() instanceof Reference.Around a)
        || !(second.get().reference() instanceof Reference.Around b)
        || a.dimension() != b.dimension()) {
      return wrong(
          "point",
          "step '%s' compares points whose references are not values of one kind",
          "give both a reference with a tolerance, such as 0.45 V and 8 %");
    }
    OptionalDouble differsBy = c.halfWidth(a);
    if (differsBy.isEmpty()) {
      return wrong(
          "differs-by",
          "step '%s' says by which part the points may differ, but the reference is 0",
          "write it as a value, such as 0.02 V");
    }
    if (!PairModel.makesSense(a, b, differsBy.getAsDouble())) {
      return wrong(
          "differs-by",
          "the points of step '%s' may differ by no less than readings that have nothing to do"
              + " with each other, or by less than their tolerances do",
          "write by how much good devices differ, less than 1.4 times the tolerance; give both"
              + " points the same tolerance");
    }
    return Optional.empty();
  }

  private static Optional<Wrong> wrong(String key, String words, String wayOut) {
    return Optional.of(new Wrong(key, words, wayOut));
  }
}
