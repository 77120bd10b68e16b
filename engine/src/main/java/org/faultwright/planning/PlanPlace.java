package org.faultwright.planning;

import org.faultwright.planning.PlanScene.Step;

/**
 * A place of a plan that is being searched: a belief in a scene, what it costs at most by a policy
 * that is known, and at least by any. Both only ever come closer. Not thread-safe.
 */
final class PlanPlace {

  /** Costs that differ by less than this part are equal. */
  static final double ROUNDING = 1e-10;

  /** What is believed here; null where the job is over. */
  final PlanBelief belief;

  /** What is known and done here; null where the job is over. */
  final PlanScene scene;

  /** Steps from where the plan begins. */
  final int depth;

  /** The cost by the policy that is known. */
  double cost;

  /** What no policy is below. */
  double atLeast;

  /** What the known policy does first. */
  Choice choice;

  /** Whether the tests have been weighed here. */
  boolean isWeighed;

  /** Whether ECR0 is known. */
  boolean hasSequence;

  /** What it costs to end the job here. */
  double end = Double.POSITIVE_INFINITY;

  /** Whether what follows has been counted in the floors. */
  boolean isOpen;

  /** What may be done, as in the scene; null: not looked at yet, or no longer of interest. */
  Step[] steps;

  /** For each step what no policy is below that does it first. */
  double[] floors;

  /** For each step where it leads; null: not worked out. */
  Option[] options;

  /** The last trial that came here. */
  long lastTrial;

  /** The last search in which nothing was left to look at here. */
  int finishedIn;

  /** What a policy does first. */
  sealed interface Choice {}

  /** To hand the device over as it is, with a function lost in use as likely as given. */
  record HandOver(PlanScene before, int bench, double pLost) implements Choice {}

  /** To end the job without a repair. */
  record Leave() implements Choice {}

  /** To do a step, and go on by the policy known of each place that it leads to. */
  record Take(Option option) implements Choice {}

  /** A sequence of repairs that is kept to as long as function tests fail. */
  record Sequence(int[] steps) implements Choice {

    int first() {
      return steps[0];
    }
  }

  /** A step that may be done, with where it leads once that has been worked out. */
  static final class Option {
    final Step step;
    double cost = Double.POSITIVE_INFINITY;
    double atLeast;

    /** For each finding; null: impossible. */
    final PlanPlace[] then;

    /** P(finding), for each. */
    final double[] p;

    Option(Step step, double atLeast, PlanPlace[] then, double[] p) {
      this.step = step;
      this.atLeast = atLeast;
      this.then = then;
      this.p = p;
    }

    /** Brings the costs up to date with those of the places that it leads to. */
    void update() {
      double most = step.cost();
      double least = step.cost();
      for (int y = 0; y < then.length; y++) {
        if (then[y] != null) {
          most += p[y] * then[y].cost;
          least += p[y] * then[y].part() * then[y].atLeast;
        }
      }
      cost = most;
      atLeast = Math.max(atLeast, Math.min(most, least));
    }
  }

  PlanPlace(PlanBelief belief, PlanScene scene, int depth) {
    this.belief = belief;
    this.scene = scene;
    this.depth = depth;
  }

  /** The part of what led here that is looked at. */
  double part() {
    return belief == null ? 1 : 1 - belief.leftOut;
  }

  double gap() {
    return Math.max(0, cost - atLeast);
  }

  /** Whether no policy is cheaper, but for rounding. */
  boolean isExact() {
    return !isLess(atLeast, cost);
  }

  static boolean isLess(double a, double b) {
    return a < b - ROUNDING * Math.max(1, Math.abs(b));
  }

  /** Takes a policy if it is cheaper than the one that is known. */
  void offer(double itsCost, Choice itsChoice) {
    if (isLess(itsCost, cost)) {
      cost = itsCost;
      choice = itsChoice;
    }
  }

  /** Brings both costs up to date with those of the places after this one. */
  void update() {
    double least = end;
    for (int o = 0; o < options.length; o++) {
      Option option = options[o];
      if (option != null) {
        option.update();
        floors[o] = option.atLeast;
        offer(option.cost, option);
      }
      least = Math.min(least, floors[o]);
    }
    if (choice instanceof Take take) {
      cost = Math.min(cost, take.option.cost);
    }
    atLeast = Math.max(atLeast, Math.min(cost, least));
  }

  private void offer(double itsCost, Option option) {
    if (isLess(itsCost, cost)) {
      cost = itsCost;
      choice = new Take(option);
    }
  }

  /** Forgets what may be done but is not chosen: no longer of interest where this is exact. */
  void forgetOptions() {
    isOpen = false;
    steps = null;
    floors = null;
    options = null;
  }
}
