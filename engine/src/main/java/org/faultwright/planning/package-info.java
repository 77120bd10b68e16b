/**
 * What a step is worth, the order of repairs, and whole plans.
 *
 * <p>Entry types: {@code Planner}, which gives a {@code Weighing}, and {@code ShopReader}, which
 * reads what time and trouble cost a shop. May use {@code compile} and {@code casefile}. It has no
 * permission logic of its own: it evaluates the guards that the rules composed.
 *
 * <p>How it works, bottom up: {@code FaultLogic} and {@code Look} tell what acts in one world;
 * {@code Facet} and {@code Sight} what a step shows there; {@code Effects} what an attempt leaves
 * behind. {@code CaseModel} keeps what bears on the functions that are lost, {@code RepairTable}
 * the few states that repairs and function tests tell apart, {@code RepairTree} what sequences of
 * repairs lead to. {@code RepairSearch} finds the cheapest sequence (ECR0), {@code Bounds} says
 * what it need not look at, {@code TestWeighing} what tests add to it. {@code OpenSteps} lists what
 * may be done, {@code WorldMasses} what is believed, {@code Assessment} is one look at a case.
 * {@code BenchWays} and {@code Costs} price it all, {@code Futures} asks the guards.
 *
 * <p>A plan: {@code PlanSearch} looks ahead from {@code PlanPlace} to {@code PlanPlace}, each a
 * {@code PlanBelief} in a {@code PlanScene}; {@code PlanWorlds} carries beliefs through steps, and
 * {@code OnWorlds} keeps numbers of worlds by {@code WorldSet}. {@code PlanFloor} says what a job
 * costs at least where the world is known, {@code PlanDoubt} what it costs at least that it is not;
 * {@code PlanWriting} writes the plan down.
 *
 * <p>Beside the plan: a {@code Policy} says what to do at a {@code Place}; {@code PolicyTree} works
 * out all that comes of it, {@code Simulation} tries it on devices drawn at random, {@code
 * Comparing} sets policies side by side, {@code TurningPoint} finds where a repair begins to pay.
 */
package org.faultwright.planning;
