package org.faultwright.planning;

import java.util.Arrays;
import org.faultwright.planning.RepairTree.Belief;
import org.faultwright.planning.RepairTree.Ends;
import org.faultwright.planning.RepairTree.Node;

/**
 * ECR0: the least expected cost of a fixed sequence of repairs, each followed by its function test,
 * with leave to end the job after any of them. Depth-first search with branch and bound over a
 * {@link RepairTree}; exact for the states of its table and the repairs that it is given. A visit
 * costs two scalar products with the belief; {@link Bounds} says what need not be visited.
 *
 * <p>The masses of a belief need not sum to 1: what a finding or a failed function test leaves
 * over. All values are sums over the mass, not means.
 */
final class RepairSearch {

  /** Repairs in a sequence, at most. */
  static final int MOST_REPAIRS = 6;

  /** Values that differ by less than this part count as equal; then the pack's order decides. */
  static final double ROUNDING = 1e-12;

  private final RepairTree tree;
  private final RepairTable table;
  private final Costs costs;

  /** The repairs, by their places in the table. */
  private final int[] repairs;

  private final int repeatable;
  private final Bounds bounds;
  private final Belief start = new Belief();
  private final int[][] order = new int[MOST_REPAIRS][];
  private final double[][] promise = new double[MOST_REPAIRS][];

  private Options options;
  private double best;
  private int bestLength;
  private final int[] bestPlan = new int[MOST_REPAIRS];
  private final int[] plan = new int[MOST_REPAIRS];
  private double passedFirst;
  private double costOfFirst;

  /** What is allowed in the situation from which the search starts. */
  interface Options {

    /**
     * Whether a repair may be done.
     *
     * @param repair by its place in the table
     * @param done the repairs done before, as a set of bits
     * @param bench the bench, ready for the repair
     */
    boolean isOpen(int repair, int done, int bench);

    /**
     * The function tests after a repair, by their places in the case model; at least one, and each
     * can be reached.
     *
     * @param done the repairs done, the last one included
     * @param bench the bench after the repair
     */
    int[] proofs(int repair, int done, int bench);

    /**
     * For each repair what {@link #proofs} may answer, or parts of it such that every answer has
     * one of them as a part.
     */
    int[][][] possibleProofs();
  }

  /**
   * The cheapest sequence found.
   *
   * @param cost expected cost times the mass of the belief; infinite where there is none
   * @param plan the repairs in order, by their places in the table; empty: the job ends at once
   */
  record Found(double cost, int[] plan) {}

  /** A search that may use some repairs, given by their places in the table. */
  RepairSearch(RepairTree tree, Costs costs, int[] repairs) {
    this.tree = tree;
    this.table = tree.table;
    this.costs = costs;
    this.repairs = repairs;
    int again = 0;
    for (int r = 0; r < repairs.length; r++) {
      again |= table.model.device.steps.get(step(r)).repeatable() ? 1 << r : 0;
    }
    repeatable = again;
    bounds = new Bounds(tree, costs, repairs, repeatable, false);
    for (int d = 0; d < MOST_REPAIRS; d++) {
      order[d] = new int[repairs.length];
      promise[d] = new double[repairs.length];
    }
  }

  /** How many repairs it may use. */
  int size() {
    return repairs.length;
  }

  /** The step that is a repair. */
  int step(int repair) {
    return table.repairs[repairs[repair]];
  }

  /** The belief to start from; the caller fills it. */
  Belief start() {
    start.clear();
    return start;
  }

  /** The cheapest sequence for the belief in {@link #start}. */
  Found cheapest(int bench, Options allowed) {
    begin(allowed, bench);
    visit(tree.root(), 0, bench, 0, start.total, 0);
    return new Found(best, Arrays.copyOf(bestPlan, bestLength));
  }

  /** The cheapest sequence that begins with a repair, for the belief in {@link #start}. */
  Found cheapestFrom(int repair, int bench, Options allowed) {
    begin(allowed, bench);
    passedFirst = 0;
    tryRepair(tree.root(), 0, repair, bench, 0, start.total, 0);
    return new Found(best, Arrays.copyOf(bestPlan, bestLength));
  }

  /**
   * What a sequence takes that has been found for the belief in {@link #start}, expected and times
   * the mass; the end of the job included.
   */
  Spend spend(int[] sequence, int bench, Options allowed) {
    Node node = tree.root();
    Spend sum = Spend.NOTHING;
    double mass = start.total;
    int at = bench;
    int done = 0;
    for (int repair : sequence) {
      int step = step(repair);
      Spend each = costs.spendOfWay(at, step).plus(costs.spendOfStep(step));
      at = costs.benchFor(at, step);
      done |= 1 << repair;
      int[] proofs = allowed.proofs(repair, done, at);
      for (int p : proofs) {
        int test = table.model.proofs.get(p).step();
        if (test < 0) {
          each = each.plus(costs.spendOfProof());
        } else {
          each = each.plus(costs.spendOfWay(at, test)).plus(costs.spendOfStep(test));
          at = costs.benchFor(at, test);
        }
      }
      sum = sum.plus(each.times(mass));
      node = tree.after(node, repairs[repair], proofs);
      Ends ends = tree.ends(node, start);
      sum = sum.plus(costs.spendOfClosing(at).times(Math.max(0, mass - ends.failed())));
      sum = sum.plus(new Spend(0, 0, 0, ends.lost() * costs.comeback));
      mass = ends.failed();
    }
    return sum.plus(costs.spendOfExit(at).times(mass));
  }

  /** The mass that passed all function tests after the first repair that was tried last. */
  double passedFirst() {
    return passedFirst;
  }

  /** What the first repair that was tried last costs by itself, with its function tests. */
  double costOfFirst() {
    return costOfFirst;
  }

  /**
   * The least that the belief in {@link #start} could cost if its states were known, with the bench
   * as given.
   */
  double leastWhereKnown(int bench, Options allowed) {
    bounds.prepare(allowed);
    return bounds.whereKnown(start, bench);
  }

  private void begin(Options allowed, int bench) {
    options = allowed;
    bounds.prepare(allowed, bench);
    bounds.turnTo(start);
    best = Double.POSITIVE_INFINITY;
    bestLength = 0;
  }

  private boolean isBetter(double cost) {
    return cost < best - ROUNDING * Math.abs(best) || Double.isInfinite(best);
  }

  /** Looks beyond a sequence after which some mass is left. */
  private void visit(Node node, int depth, int bench, int done, double mass, double spent) {
    double end = spent + mass * (costs.exitFee() + costs.close(bench));
    if (isBetter(end)) {
      best = end;
      bestLength = depth;
      System.arraycopy(plan, 0, bestPlan, 0, depth);
    }
    if (depth == MOST_REPAIRS || mass <= 0) {
      return;
    }
    int n = sortByPromise(depth, bench, done, mass);
    for (int i = 0; i < n && isBetter(spent + promise[depth][i]); i++) {
      tryRepair(node, depth, order[depth][i], bench, done, mass, spent);
    }
  }

  /** The repairs that may follow, those first that could turn out cheapest; else pack order. */
  private int sortByPromise(int depth, int bench, int done, double mass) {
    int n = 0;
    int[] sorted = order[depth];
    double[] least = promise[depth];
    for (int r = 0; r < repairs.length; r++) {
      if ((done & ~repeatable & 1 << r) != 0) {
        continue;
      }
      double bound = bounds.from(r, done, bench, mass);
      if (Double.isInfinite(bound)) {
        continue;
      }
      int i = n++;
      while (i > 0 && bound < least[i - 1] - ROUNDING * Math.abs(least[i - 1])) {
        least[i] = least[i - 1];
        sorted[i] = sorted[--i];
      }
      least[i] = bound;
      sorted[i] = r;
    }
    return n;
  }

  private void tryRepair(
      Node before, int depth, int repair, int bench, int done, double mass, double spent) {
    int step = step(repair);
    int ready = costs.benchFor(bench, step);
    if (ready < 0 || !options.isOpen(repair, done, ready)) {
      return;
    }
    int nowDone = done | 1 << repair;
    double cost = costs.ofStep(step) + costs.ofWay(bench, step);
    int after = ready;
    int[] proofs = options.proofs(repair, nowDone, ready);
    for (int p : proofs) {
      int test = table.model.proofs.get(p).step();
      if (test < 0) {
        cost += costs.proofCost;
      } else {
        cost += costs.ofStep(test) + costs.ofWay(after, test);
        after = costs.benchFor(after, test);
      }
    }
    if (depth == 0) {
      costOfFirst = cost;
    }
    double paid = spent + mass * cost;
    if (!isBetter(paid + bounds.afterTests(repair, done, after, mass))) {
      return;
    }
    plan[depth] = repair;
    Node node = tree.after(before, repairs[repair], proofs);
    Ends ends = tree.ends(node, start);
    double failed = ends.failed();
    double passed = Math.max(0, mass - failed);
    if (depth == 0) {
      passedFirst = passed;
    }
    paid += passed * costs.close(after) + ends.lost() * costs.comeback;
    if (isBetter(paid + bounds.fromHere(nowDone, after, failed))) {
      visit(node, depth + 1, after, nowDone, failed, paid);
    }
  }
}
