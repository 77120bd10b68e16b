package org.faultwright.planning;

import java.util.List;
import java.util.Optional;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.StepId;

/** A place in a plan: what to do there, or how the job has ended. Immutable. */
public sealed interface PlanNode {

  /**
   * What is expected from here on, in the shop's currency, risks and comebacks included; nothing
   * that was spent before.
   */
  double expectedCost();

  /**
   * A test.
   *
   * @param turns the switches to turn first, in order
   * @param spend what it takes, the turns included
   * @param branches what may come out, each with what follows; probabilities sum to 1
   */
  record DoTest(
      StepId step, List<BenchState> turns, Spend spend, double expectedCost, List<Branch> branches)
      implements PlanNode {

    /** Copies the lists. */
    public DoTest {
      turns = List.copyOf(turns);
      branches = List.copyOf(branches);
    }
  }

  /**
   * One way in which a test may come out: how likely it is once the test is done, and what then.
   */
  record Branch(Seen seen, double p, PlanNode then) {}

  /**
   * A repair with its function tests.
   *
   * @param proofs the function tests, in order; empty: the shop's own, without a step
   * @param turns the switches to turn first, in order
   * @param spend what repair and function tests take, all turns included
   * @param pPass P(all function tests pass)
   * @param ifPassed what follows then: closing up
   * @param ifFailed what follows else
   */
  record DoRepair(
      StepId step,
      List<StepId> proofs,
      List<BenchState> turns,
      Spend spend,
      double expectedCost,
      double pPass,
      PlanNode ifPassed,
      PlanNode ifFailed)
      implements PlanNode {

    /** Copies the lists. */
    public DoRepair {
      proofs = List.copyOf(proofs);
      turns = List.copyOf(turns);
    }
  }

  /** How a job ends. */
  enum Ending {
    /** The function is back, as far as tests show; the device is closed and handed over. */
    REPAIRED,
    /** The device goes to other hands. */
    SENT_ON,
    /** The customer gets it back as it is. */
    RETURNED
  }

  /**
   * The end of the job.
   *
   * @param spend closing up, and the fee of sending on or the value that is lost; as risk, what a
   *     comeback costs times its probability
   * @param pComeback P(the function is lost all the same), where it is handed over as repaired
   * @param valueLost of the money spent, what is lost with a device that is returned as it is:
   *     nothing that anybody pays the shop
   */
  record End(Ending ending, Spend spend, double expectedCost, double pComeback, double valueLost)
      implements PlanNode {

    /** An end with which nothing of value is lost. */
    public End(Ending ending, Spend spend, double expectedCost, double pComeback) {
      this(ending, spend, expectedCost, pComeback, 0);
    }
  }

  /**
   * A branch that is not followed further: too unlikely, or too long.
   *
   * @param next the repair to go on with, where no test were done any more; empty: to end the job
   */
  record AndSoOn(double expectedCost, Optional<StepId> next) implements PlanNode {}
}
