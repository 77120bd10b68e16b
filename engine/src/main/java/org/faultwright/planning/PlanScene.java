package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.Situation;
import org.faultwright.planning.Assessment.Repairing;
import org.faultwright.planning.Assessment.Testing;

/**
 * What is known, done and set up at a place of a plan, apart from how likely each world is: what
 * may be done there and what the job costs to end. What may be done is worked out when it is first
 * asked for. Not thread-safe.
 */
final class PlanScene {

  final Situation now;
  final CaseModel model;
  final Costs costs;

  /** Whether no function is known to be lost, so that the device is handed over. */
  final boolean nothingLost;

  final int bench;

  private final PlanScenes scenes;
  private List<Step> steps;

  /** One thing that may be done: a test, or else a repair with its function tests. */
  record Step(Optional<Testing> test, Optional<Repairing> repair, PlanWorlds.Move move) {

    double cost() {
      return test.isPresent() ? test.get().cost() : repair.orElseThrow().cost();
    }

    int step() {
      return test.isPresent() ? test.get().step() : repair.orElseThrow().step();
    }

    int bench() {
      return test.isPresent() ? test.get().bench() : repair.orElseThrow().bench();
    }
  }

  PlanScene(PlanScenes scenes, Situation now, Planner.Setting setting) {
    this.scenes = scenes;
    this.now = now;
    this.model = setting.model();
    this.costs = setting.costs();
    this.nothingLost = setting.nothingLost();
    this.bench = costs.ways.state(now.on());
  }

  /** The model of the device once all function tests have passed. */
  CaseModel proved() {
    return nothingLost || model.lost.size() == now.lost().size() ? model : scenes.proved(this);
  }

  double exit() {
    return costs.exit(bench).cost();
  }

  /** What may be done, in the pack's order. */
  List<Step> steps() {
    if (steps == null) {
      Assessment open = scenes.assessment(this, new CaseModel.Showing[0], new double[0]);
      List<Step> found = new ArrayList<>();
      for (Testing t : open.openTests()) {
        found.add(
            new Step(Optional.of(t), Optional.empty(), scenes.worlds.test(t.step(), t.sight())));
      }
      for (int r : scenes.inPlan) {
        open.repairing(r)
            .ifPresent(
                x ->
                    found.add(
                        new Step(
                            Optional.empty(),
                            Optional.of(x),
                            scenes.worlds.repair(model, x.step(), x.proofs()))));
      }
      found.sort((a, b) -> Integer.compare(a.step(), b.step()));
      steps = List.copyOf(found);
    }
    return steps;
  }
}
