package org.faultwright.planning;

/** What is cheapest to do next, by expected cost. */
public sealed interface NextStep {

  /** Find out more. */
  record DoTest(Worth test) implements NextStep {}

  /** Repair, then test the function. */
  record DoRepair(RepairWay repair) implements NextStep {}

  /** End the job without a repair. */
  record Leave(Exit exit) implements NextStep {}

  /**
   * No function is known to be lost: close up and hand over.
   *
   * @param cost closing up, and a comeback where a function is lost after all
   */
  record HandOver(double cost) implements NextStep {}
}
