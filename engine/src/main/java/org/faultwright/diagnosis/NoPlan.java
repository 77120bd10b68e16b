package org.faultwright.diagnosis;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.HoldId;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanNode;
import org.faultwright.rules.Blocked;

/**
 * Why there is no step to plan. Where the job can be ended as things stand, {@link #end} says how
 * and at what cost; all money is in the shop's currency. Immutable.
 */
public sealed interface NoPlan extends PlanResult {

  /**
   * The plan that is nothing but the end of the job; empty where nothing ranks, or nothing is known
   * to be wrong. {@link Diagnosis#repairOrNot} takes it as it takes any plan.
   */
  default Optional<Plan> ending() {
    return Optional.empty();
  }

  /** How the job would end now; empty as {@link #ending}. */
  default Optional<PlanNode.End> end() {
    return ending().map(plan -> (PlanNode.End) plan.root());
  }

  /**
   * The facts cannot all be true: withdraw one of those that clash.
   *
   * @param clash a smallest set of facts that cannot hold together
   */
  record FactsImpossible(Set<FactId> clash) implements NoPlan {

    /** Copies the set, keeping its order. */
    public FactsImpossible {
      clash = Ordered.copy(clash);
    }
  }

  /**
   * The case has grown too wide for exact answers.
   *
   * @param predicted the number of table entries that an exact answer would take
   * @param budget the number that is allowed
   */
  record TooWide(double predicted, double budget) implements NoPlan {}

  /** No complaint has been told, and no function test has failed: tell one. */
  record NothingReported() implements NoPlan {}

  /**
   * No function is lost any more: close up and hand over.
   *
   * @param handOver with how likely the device comes back all the same
   */
  record FunctionBack(Plan handOver) implements NoPlan {
    @Override
    public Optional<Plan> ending() {
      return Optional.of(handOver);
    }
  }

  /** The pack has no repair, open or not, that removes any cause that may be there. */
  record NoRepair(Plan leave) implements NoPlan {
    @Override
    public Optional<Plan> ending() {
      return Optional.of(leave);
    }
  }

  /**
   * There are repairs that may help, and none that may be done, nor a test that would open one.
   *
   * @param obstacles what stands in the way: first what would open most steps by itself
   */
  record NothingOpen(List<Obstacle> obstacles, Plan leave) implements NoPlan {

    /** Copies the list. */
    public NothingOpen {
      obstacles = List.copyOf(obstacles);
    }

    @Override
    public Optional<Plan> ending() {
      return Optional.of(leave);
    }
  }

  /**
   * Each repair that may help and is open costs more than the customer will pay, and no agreement
   * to pay more has been given.
   *
   * @param ceiling the most that the customer will pay, as settled at intake
   * @param cheapest the repair that the lowest ceiling opens
   * @param cost what that repair costs, its function tests included: a ceiling that opens it
   * @param refused whether the customer has been asked to pay more and has refused
   */
  record AboveCeiling(double ceiling, StepId cheapest, double cost, boolean refused, Plan leave)
      implements NoPlan {
    @Override
    public Optional<Plan> ending() {
      return Optional.of(leave);
    }
  }

  /**
   * Steps are open, and to end the job is expected to cost less than to go on.
   *
   * @param cheapest the repair with which going on is cheapest
   * @param costOfGoingOn what the rest of the job is expected to cost with it
   * @param obstacles what the customer has not been asked for, where going on would pay if all of
   *     it were agreed to; else empty
   */
  record NotWorthIt(StepId cheapest, double costOfGoingOn, List<Obstacle> obstacles, Plan leave)
      implements NoPlan {

    /** Copies the list. */
    public NotWorthIt {
      obstacles = List.copyOf(obstacles);
    }

    @Override
    public Optional<Plan> ending() {
      return Optional.of(leave);
    }
  }

  /**
   * One thing that stands in the way of steps.
   *
   * @param blocked what it is, and what would remove it
   * @param hold the hold that forbids, where one does
   * @param turn the switch that cannot be brought into the position that the steps need, where that
   *     is what is forbidden
   * @param steps the steps in whose way it stands, in the order of the pack
   * @param opens those of them in whose way nothing else stands
   */
  record Obstacle(
      Blocked blocked,
      Optional<HoldId> hold,
      Optional<BenchState> turn,
      List<StepId> steps,
      List<StepId> opens) {

    /** Copies the lists. */
    public Obstacle {
      steps = List.copyOf(steps);
      opens = List.copyOf(opens);
    }
  }
}
