package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Situation;
import org.faultwright.planning.Assessment.Ecr0;
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
  private Step[] steps;
  private Assessment repairs;

  /** What the job costs at least on each world, without what doubt costs. */
  OnWorlds floor;

  /** The same whatever state the bench is in, with which doubt may be counted. */
  OnWorlds floorAnywhere;

  /** What doubt costs at least; null: nothing is known of that. */
  PlanDoubt.Table doubt;

  /** One thing that may be done: a test, or else a repair with its function tests. */
  static final class Step {
    private final Optional<Testing> test;
    private final Optional<Repairing> repair;
    private final PlanWorlds.Move move;
    private final PlanScene[] then;
    private final double cost;
    private final int step;
    private final int bench;

    /** What follows costs at least, on each world, without what doubt costs. */
    OnWorlds floor;

    /** The same whatever state the bench is in, with which doubt may be counted. */
    OnWorlds floorAnywhere;

    private Step(Testing test, PlanWorlds.Move move) {
      this(Optional.of(test), Optional.empty(), move, test.cost(), test.step(), test.bench());
    }

    private Step(Repairing repair, PlanWorlds.Move move) {
      this(
          Optional.empty(),
          Optional.of(repair),
          move,
          repair.cost(),
          repair.step(),
          repair.bench());
    }

    private Step(
        Optional<Testing> test,
        Optional<Repairing> repair,
        PlanWorlds.Move move,
        double cost,
        int step,
        int bench) {
      this.test = test;
      this.repair = repair;
      this.move = move;
      this.then = new PlanScene[move.findings];
      this.cost = cost;
      this.step = step;
      this.bench = bench;
    }

    Optional<Testing> test() {
      return test;
    }

    Optional<Repairing> repair() {
      return repair;
    }

    PlanWorlds.Move move() {
      return move;
    }

    double cost() {
      return cost;
    }

    int step() {
      return step;
    }

    int bench() {
      return bench;
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

  /** The scene after a step came out in some way. */
  PlanScene after(Step step, int finding) {
    int like = scenes.allFindingsAreAlike(step) ? 0 : finding;
    if (step.then[like] == null) {
      step.then[like] = scenes.after(this, step, like);
    }
    return step.then[like];
  }

  /** ECR0 of a belief. */
  Ecr0 ecr0(PlanBelief belief) {
    CaseModel.Showing[] showings = scenes.showings(model, belief);
    if (repairs == null) {
      repairs = scenes.assessment(this, new CaseModel.Showing[0], new double[0]);
      repairs.settled(Set.copyOf(scenes.inPlan));
    }
    return repairs.leavesRepairsOut()
        ? scenes.assessment(this, showings, belief.p).settled(Set.copyOf(scenes.inPlan)).ecr0()
        : repairs.ecr0(showings, belief.p);
  }

  /** What may be done, in the pack's order. */
  Step[] steps() {
    if (steps == null) {
      Assessment open = scenes.assessment(this, new CaseModel.Showing[0], new double[0]);
      List<Step> found = new ArrayList<>();
      for (Testing t : open.openTests()) {
        found.add(new Step(t, scenes.worlds.test(t.step(), t.sight())));
      }
      for (int r : scenes.inPlan) {
        open.repairing(r)
            .ifPresent(
                x -> found.add(new Step(x, scenes.worlds.repair(model, x.step(), x.proofs()))));
      }
      found.sort((a, b) -> Integer.compare(a.step(), b.step()));
      steps = found.toArray(Step[]::new);
    }
    return steps;
  }
}
