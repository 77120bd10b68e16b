package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.planning.RepairSearch.Level;
import org.faultwright.planning.RepairSearch.Options;
import org.faultwright.planning.RepairTable.Spread;

/** What a search for repairs can never go below, and the order in which to try. */
final class Bounds {

  private final RepairTable table;
  private final Costs costs;
  private final int repairs;
  private final int repeatable;
  private final Map<Long, Double> leastWays = new HashMap<>();
  private int[][][] preparedFor = {};

  /** For each repair the least that it costs with its function tests, wherever the bench is. */
  private final double[] leastCost;

  /** For each repair the least way to it from where function tests are made. */
  private final double[] leastWayBack;

  /** For each repair the least that closing costs after its function tests. */
  private final double[] leastClose;

  // Scratch.
  private final double[] waiting;
  private final double[] price;
  private final double[] ratio;

  Bounds(RepairTable table, Costs costs, int repeatable) {
    this.table = table;
    this.costs = costs;
    this.repeatable = repeatable;
    repairs = table.repairs.length;
    leastCost = new double[repairs];
    leastWayBack = new double[repairs];
    leastClose = new double[repairs];
    waiting = new double[repairs];
    price = new double[repairs];
    ratio = new double[repairs];
  }

  /** Works out the least costs where they are not those of the options before. */
  void prepare(Options options) {
    int[][][] possible = options.possibleProofs();
    if (possible == preparedFor || Arrays.deepEquals(possible, preparedFor)) {
      return;
    }
    preparedFor = possible;
    Set<Integer> testedAt = new LinkedHashSet<>();
    for (int r = 0; r < repairs; r++) {
      double cost = Double.POSITIVE_INFINITY;
      double close = Double.POSITIVE_INFINITY;
      for (int[] proofs : possible[r]) {
        double ofProofs = 0;
        int at = table.repairs[r];
        for (int p : proofs) {
          int test = table.model.proofs.get(p).step();
          if (test < 0) {
            ofProofs += costs.proofCost;
          } else {
            ofProofs += costs.ofStep(test) + leastWay(at, test);
            at = test;
          }
        }
        testedAt.add(at);
        cost = Math.min(cost, ofProofs);
        close = Math.min(close, costs.leastClose(at));
      }
      leastCost[r] = costs.ofStep(table.repairs[r]) + (Double.isInfinite(cost) ? 0 : cost);
      leastClose[r] = Double.isInfinite(close) ? 0 : close;
    }
    List<Integer> from = new ArrayList<>(testedAt);
    for (int r = 0; r < repairs; r++) {
      double least = Double.POSITIVE_INFINITY;
      for (int at : from) {
        least = Math.min(least, leastWay(at, table.repairs[r]));
      }
      leastWayBack[r] = least;
    }
  }

  /** The least way between the benches of two steps. */
  private double leastWay(int from, int to) {
    return leastWays.computeIfAbsent(
        (long) from << 32 | to, k -> costs.ways.leastCost(costs.goal(from), costs.goal(to)));
  }

  private void findPrices(int bench) {
    for (int r = 0; r < repairs; r++) {
      price[r] = leastCost[r] + Math.min(costs.ofWay(bench, table.repairs[r]), leastWayBack[r]);
    }
  }

  /**
   * A lower bound of what a belief costs from here on, and the order in which to try the repairs.
   *
   * @param done the repairs done, as a set of bits
   * @param left how many repairs may follow
   */
  double below(Level level, int bench, int done, int left) {
    findPrices(bench);
    int gone = done & ~repeatable;
    int open = 0;
    double close = Double.POSITIVE_INFINITY;
    double cheapest = Double.POSITIVE_INFINITY;
    for (int r = 0; r < repairs; r++) {
      waiting[r] = 0;
      if ((gone >> r & 1) == 0 && price[r] < Double.POSITIVE_INFINITY) {
        level.order[open++] = r;
        close = Math.min(close, leastClose[r]);
        cheapest = Math.min(cheapest, price[r]);
      }
    }
    level.orderCount = open;
    double end = level.total * (costs.exitFee() + costs.close(bench));
    if (open == 0) {
      return end;
    }
    int stages = Math.min(repeatable == 0 ? open : left, left);
    double hopeless = 0;
    double all = 0;
    for (int i = 0; i < level.count; i++) {
      int state = level.states[i];
      int needed = table.needed[state];
      if (needed == 0) {
        continue;
      }
      double mass = level.mass[i];
      double pFails = table.pFailsUntilThen[state];
      for (int k = 1; k < stages && pFails < 1; k++) {
        mass *= pFails;
      }
      mass *= pFails;
      all += mass;
      int dearest = needed == RepairTable.HOPELESS || (needed & gone) != 0 ? -1 : dearest(needed);
      if (dearest < 0) {
        hopeless += mass;
      } else {
        double pWaitsOn = pStillNeeded(state, dearest);
        waiting[dearest] += mass * (1 - pWaitsOn);
      }
    }
    sort(level);
    double least = level.total * close + (level.total - all) * cheapest;
    double some = Math.min(cheapest * all + costs.exitFee() * all, subset(level, 0, all, false));
    return Math.min(end, least + some);
  }

  private int dearest(int needed) {
    int found = -1;
    for (int r = 0; r < repairs; r++) {
      if ((needed >> r & 1) == 1
          && price[r] < Double.POSITIVE_INFINITY
          && (found < 0 || price[r] > price[found])) {
        found = r;
      }
    }
    return found;
  }

  /** P(function tests go on failing for want of a cure | the repair has been done). */
  private double pStillNeeded(int state, int repair) {
    if ((repeatable >> repair & 1) == 1) {
      return 0;
    }
    Spread to = table.moves(state, repair);
    if (to == RepairTable.STAYS) {
      return 1;
    }
    double p = 0;
    for (int j = 0; j < to.states().length; j++) {
      int next = to.states()[j];
      boolean waits =
          (table.needed[next] >> repair & 1) == 1
              && table.pFailsUntilThen[next] >= table.pFailsUntilThen[state];
      p += waits ? to.p()[j] : 0;
    }
    return p;
  }

  /** Most mass per cost first; the pack's order among equals. */
  private void sort(Level level) {
    for (int r = 0; r < repairs; r++) {
      ratio[r] = waiting[r] / Math.max(price[r], Double.MIN_NORMAL);
    }
    int[] order = level.order;
    for (int i = 1; i < level.orderCount; i++) {
      int r = order[i];
      int j = i;
      while (j > 0 && ratio[r] > ratio[order[j - 1]] * (1 + RepairSearch.ROUNDING)) {
        order[j] = order[j - 1];
        j--;
      }
      order[j] = r;
    }
  }

  /** The cheapest set of repairs from a place in the order on, for mass that waits for them. */
  private double subset(Level level, int i, double mass, boolean some) {
    if (i == level.orderCount || waiting[level.order[i]] == 0) {
      return some ? costs.exitFee() * mass : Double.POSITIVE_INFINITY;
    }
    int r = level.order[i];
    return Math.min(
        price[r] * mass + subset(level, i + 1, mass - waiting[r], true),
        subset(level, i + 1, mass, some));
  }

  /** A lower bound of what a belief costs where each of its states is known. */
  double whereKnown(Level level, int bench) {
    findPrices(bench);
    double close = Double.POSITIVE_INFINITY;
    double cheapest = Double.POSITIVE_INFINITY;
    for (int r = 0; r < repairs; r++) {
      close = Math.min(close, leastClose[r]);
      cheapest = Math.min(cheapest, price[r]);
    }
    double end = costs.exitFee() + costs.close(bench);
    double sum = 0;
    for (int i = 0; i < level.count; i++) {
      int needed = table.needed[level.states[i]];
      double least = end;
      if (repairs > 0 && needed != RepairTable.HOPELESS) {
        int dearest = dearest(needed);
        double pFails = table.pFailsUntilThen[level.states[i]];
        double repair = dearest < 0 ? cheapest : Math.max(cheapest, pow(pFails) * price[dearest]);
        least = Math.min(end, close + repair);
      } else if (repairs > 0) {
        double pFails = pow(table.pFailsUntilThen[level.states[i]]);
        least = Math.min(end, close + cheapest + pFails * costs.exitFee());
      }
      sum += level.mass[i] * least;
    }
    return sum;
  }

  private double pow(double pFails) {
    double p = pFails;
    for (int k = 1; k < RepairSearch.MOST_REPAIRS && pFails < 1; k++) {
      p *= pFails;
    }
    return p;
  }
}
