package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.planning.PlanComparison.Row;
import org.faultwright.planning.PlanComparison.Way;

/** Works out a plan and rules of thumb from one place. */
final class Comparing {

  private final Place start;
  private final ComparisonLimits limits;

  Comparing(Place start, ComparisonLimits limits) {
    this.start = start;
    this.limits = limits;
  }

  PlanComparison with(Plan plan) {
    List<Row> rows = new ArrayList<>();
    for (Way way : Way.values()) {
      rows.add(row(way, plan));
    }
    return new PlanComparison(rows);
  }

  static Policy policy(Way way, Plan plan) {
    return switch (way) {
      case PLAN -> new Planned(plan.root());
      case MOST_INFORMATION -> new MostInformation();
      case PROBABILITY_PER_COST -> new ProbabilityPerCost();
      case LIKELIEST_FIRST -> new LikeliestFirst();
    };
  }

  private Row row(Way way, Plan plan) {
    PolicyTree tree = PolicyTree.of(start, policy(way, plan), limits.mostPlaces());
    Plan course =
        new Plan(
            tree.root().written(), plan.shop(), plan.atLeast(), plan.stepsAhead(), plan.pLeftOut());
    Optional<Simulated> simulated =
        limits.devices() == 0
            ? Optional.empty()
            : Optional.of(Simulation.of(tree, plan.shop(), limits.devices(), limits.seed()));
    return new Row(way, course, tree.pBeyond(), tree.beyondLess(), tree.beyondMore(), simulated);
  }
}
