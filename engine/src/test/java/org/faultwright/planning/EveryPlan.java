package org.faultwright.planning;

/**
 * V* of a place of a plan by trying every step wherever it may be done: nothing is bounded, kept or
 * looked up. What may be done and where it leads is taken from the scenes of the plan.
 */
final class EveryPlan {

  /** More places than this are too many. */
  private static final int MOST_PLACES = 20_000;

  private final PlanScenes scenes;
  private int visited;

  EveryPlan(PlanScenes scenes) {
    this.scenes = scenes;
  }

  /** The least cost at a place, and the step that comes first; NaN: too much to try. */
  double cost(PlanScene scene, PlanBelief belief) {
    visited = 0;
    return visit(scene, belief);
  }

  /** The least cost at a place where a step is done first; NaN: too much to try. */
  double cost(PlanScene scene, PlanBelief belief, PlanScene.Step first) {
    visited = 0;
    return from(scene, belief, first);
  }

  private double visit(PlanScene scene, PlanBelief belief) {
    if (visited++ > MOST_PLACES) {
      return Double.NaN;
    }
    double best = scene.exit();
    for (PlanScene.Step step : scene.steps()) {
      best = Math.min(best, from(scene, belief, step)); // NaN stays
    }
    return best;
  }

  private double from(PlanScene scene, PlanBelief belief, PlanScene.Step step) {
    PlanBelief[] after = step.move().after(belief);
    double sum = step.cost();
    for (int y = 0; y < after.length; y++) {
      if (after[y].mass <= 0) {
        continue;
      }
      double then;
      if (step.repair().isPresent() && y == PlanWorlds.PASSED) {
        then = handOver(scene, step.bench(), scene.proved(), after[y]);
      } else {
        PlanScene next = scenes.after(scene, step, y);
        then =
            next.nothingLost
                ? handOver(next, next.bench, next.model, after[y])
                : visit(next, after[y]);
      }
      sum += after[y].mass * then;
    }
    return sum;
  }

  private double handOver(PlanScene scene, int bench, CaseModel model, PlanBelief belief) {
    return scene.costs.close(bench) + scenes.lost(model, belief) * scene.costs.comeback;
  }
}
