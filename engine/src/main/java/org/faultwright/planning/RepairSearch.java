package org.faultwright.planning;

import java.util.Arrays;
import org.faultwright.planning.RepairTable.Spread;

/**
 * ECR0: the least expected cost of a fixed sequence of repairs, each followed by its function test,
 * with leave to end the job after any of them. Depth-first search with branch and bound; exact for
 * the states and repairs of its table.
 *
 * <p>A belief is a list of states with masses that need not sum to 1: what a finding or a failed
 * function test leaves over. All values are sums over the mass, not means.
 *
 * <p><b>Bound.</b> Let M be the mass of states in which function tests go on failing until some
 * needed repair is done. Every repair done before it is paid by all of that mass. If each state
 * waits for one repair only, the cheapest order of a set of repairs is by mass per cost (Smith's
 * rule, which for single faults is the p/C rule); the bound is the cheapest set, in that order, and
 * the end of the job for the rest. What function tests let pass by mistake, and all mass that
 * several repairs might help, count as little as they ever can.
 *
 * @see "J. B. Kadane, H. A. Simon, Optimal strategies for a class of constrained sequential
 *     problems, Annals of Statistics 5, 1977, 237-255"
 */
final class RepairSearch {

  /** Repairs in a sequence, at most. */
  static final int MOST_REPAIRS = 6;

  /** No repair: the job ends. */
  static final int END = -1;

  /** Values that differ by less than this part count as equal; then the pack's order decides. */
  static final double ROUNDING = 1e-12;

  private final RepairTable table;
  private final Costs costs;
  private final int repairs;
  private final int repeatable;
  private final Bounds bounds;

  private final Level[] levels = new Level[MOST_REPAIRS + 1];
  private double[] sums = new double[64];
  private int[] touched = new int[64];
  private Spread[] moves = new Spread[64];

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

  /** A belief of the search at some depth. */
  static final class Level {
    int[] states = new int[32];
    double[] mass = new double[32];
    int count;
    double total;

    /** The repairs that may follow, the most promising first; see {@link Bounds}. */
    final int[] order = new int[MOST_REPAIRS];

    int orderCount;

    void add(int state, double m) {
      if (count == states.length) {
        states = Arrays.copyOf(states, 2 * count);
        mass = Arrays.copyOf(mass, 2 * count);
      }
      states[count] = state;
      mass[count++] = m;
      total += m;
    }

    void clear() {
      count = 0;
      total = 0;
    }
  }

  /**
   * The cheapest sequence found.
   *
   * @param cost expected cost times the mass of the belief; infinite where there is none
   * @param plan the repairs in order, by their places in the table; empty: the job ends at once
   */
  record Found(double cost, int[] plan) {
    int first() {
      return plan.length == 0 ? END : plan[0];
    }
  }

  RepairSearch(RepairTable table, Costs costs) {
    this.table = table;
    this.costs = costs;
    repairs = table.repairs.length;
    int again = 0;
    for (int r = 0; r < repairs; r++) {
      again |= table.model.device.steps.get(table.repairs[r]).repeatable() ? 1 << r : 0;
    }
    repeatable = again;
    bounds = new Bounds(table, costs, repeatable);
    for (int d = 0; d < levels.length; d++) {
      levels[d] = new Level();
    }
  }

  /** The belief to start from; the caller fills it. */
  Level start() {
    levels[0].clear();
    return levels[0];
  }

  /** The cheapest sequence for the belief in {@link #start}. */
  Found cheapest(int bench, Options allowed) {
    begin(bench, allowed);
    visit(0, bench, 0, 0);
    return new Found(best, Arrays.copyOf(bestPlan, bestLength));
  }

  /** The cheapest sequence that begins with a repair, for the belief in {@link #start}. */
  Found cheapestFrom(int repair, int bench, Options allowed) {
    begin(bench, allowed);
    tryRepair(0, repair, bench, 0, 0);
    return new Found(best, Arrays.copyOf(bestPlan, bestLength));
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
    return bounds.whereKnown(levels[0], bench);
  }

  private void begin(int bench, Options allowed) {
    options = allowed;
    bounds.prepare(allowed);
    best = Double.POSITIVE_INFINITY;
    bestLength = 0;
  }

  private boolean isBetter(double cost) {
    return cost < best - ROUNDING * Math.abs(best) || Double.isInfinite(best);
  }

  private void visit(int depth, int bench, int done, double spent) {
    Level level = levels[depth];
    double end = spent + level.total * (costs.exitFee() + costs.close(bench));
    if (isBetter(end)) {
      best = end;
      bestLength = depth;
      System.arraycopy(plan, 0, bestPlan, 0, depth);
    }
    if (depth == MOST_REPAIRS || level.count == 0) {
      return;
    }
    double least = spent + bounds.below(level, bench, done, MOST_REPAIRS - depth);
    for (int i = 0; i < level.orderCount && isBetter(least); i++) {
      tryRepair(depth, level.order[i], bench, done, spent);
    }
  }

  private void tryRepair(int depth, int repair, int bench, int done, double spent) {
    int step = table.repairs[repair];
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
    double least = spent + levels[depth].total * cost;
    if (isBetter(least)) {
      plan[depth] = repair;
      least += carryOut(repair, proofs, levels[depth], levels[depth + 1], costs.close(after));
      if (isBetter(least)) {
        visit(depth + 1, after, nowDone, least);
      }
    }
  }

  /**
   * Carries a repair and its function tests out on a belief.
   *
   * @param failed gets what is left where a test fails
   * @return what the cases cost in which all tests pass: closing up, and comebacks
   */
  private double carryOut(int repair, int[] proofs, Level before, Level failed, double close) {
    if (moves.length < before.count) {
      moves = new Spread[2 * before.count];
    }
    for (int i = 0; i < before.count; i++) {
      moves[i] = table.moves(before.states[i], repair);
    }
    if (sums.length < table.count()) {
      sums = new double[2 * table.count()];
      touched = new int[sums.length];
    }
    int n = 0;
    for (int i = 0; i < before.count; i++) {
      if (moves[i] == RepairTable.STAYS) {
        n = sum(before.states[i], before.mass[i], n);
      } else {
        for (int j = 0; j < moves[i].states().length; j++) {
          n = sum(moves[i].states()[j], before.mass[i] * moves[i].p()[j], n);
        }
      }
    }
    failed.clear();
    double passed = 0;
    double comebacks = 0;
    for (int i = 0; i < n; i++) {
      int state = touched[i];
      double mass = sums[state];
      sums[state] = 0;
      double pPass = 1;
      for (int p : proofs) {
        pPass *= 1 - table.pFail(state, p);
      }
      passed += mass * pPass;
      comebacks += mass * pPass * table.lost[state];
      if (mass * (1 - pPass) > 0) {
        failed.add(state, mass * (1 - pPass));
      }
    }
    if (before == levels[0]) {
      passedFirst = passed;
    }
    return passed * close + comebacks * costs.comeback;
  }

  private int sum(int state, double mass, int n) {
    if (mass == 0) {
      return n;
    }
    if (sums[state] == 0) {
      touched[n++] = state;
    }
    sums[state] += mass;
    return n;
  }
}
