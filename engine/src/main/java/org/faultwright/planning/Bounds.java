package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.planning.RepairSearch.Options;
import org.faultwright.planning.RepairTable.Trouble;
import org.faultwright.planning.RepairTree.Belief;

/**
 * What a search for repairs can never go below.
 *
 * <p>Each state is taken to have one trouble only: of those that each by itself make the function
 * tests go on failing, the one that is dearest to get rid of. Let {@code rem(D)} be the mass that
 * still fails, at least, when the repairs D have been done in any order: a product over D for each
 * trouble. Then the cost from there on is at least
 *
 * <pre>f(D) = min{ exit * rem(D), min over r not in D of price(r) * rem(D) + f(D + r) }</pre>
 *
 * <p>which is worked out for all subsets when a search begins. The prices are the least ones,
 * wherever the bench may be. For single faults with sure repairs, prices that do not depend on the
 * order and no end of the job this is exact, and its order is by mass per price (the p/C rule).
 *
 * @see "J. B. Kadane, H. A. Simon, Optimal strategies for a class of constrained sequential
 *     problems, Annals of Statistics 5, 1977, 237-255"
 */
final class Bounds {

  private static final int UNKNOWN = -2;

  /**
   * Whether tests may come between repairs: then the bench may have been brought anywhere, and a
   * function test that passes by mistake ends the job at the price of a comeback.
   */
  private final boolean anywhere;

  /** What it costs, at least, to end the job without a repair, apart from closing. */
  private final double end;

  /** The class of states of which nothing is known: function tests may pass after any repair. */
  private static final int ANY = -1;

  private final RepairTree tree;
  private final Costs costs;

  /** The repairs, by step number. */
  private final int[] steps;

  private final int repeatable;
  private final int all;
  private final Map<Long, Double> leastWays = new HashMap<>();
  private int[][][] preparedFor = {};

  /** For each repair the least that it costs with its function tests, wherever the bench is. */
  private final double[] leastCost;

  /** The part of it that the function tests cost. */
  private final double[] leastTests;

  /** For each repair the least way to it from where function tests are made. */
  private final double[] wayBack;

  /** For each repair the least that closing costs after its function tests. */
  private final double[] leastClose;

  /** The least of these. */
  private double closing;

  // Classes of states: those with the same trouble.

  private int[] classOf = {};
  private final Map<Trouble, Integer> known = new LinkedHashMap<>();
  private final List<Lasting> lasting = new ArrayList<>();

  /**
   * How a trouble goes on.
   *
   * @param failing for each set of repairs done P(function tests have gone on failing), at least
   * @param cheated for each set, and each repair after it, P(function tests fail till then, and
   *     pass after the repair though a function is lost), at least
   */
  private record Lasting(double[] failing, double[] cheated) {}

  private double[] mass = new double[16];

  /** For each state of the bench what each class costs where it is known. */
  private final Map<Integer, double[]> knownAt = new HashMap<>();

  // The present belief.

  private final double[] rem;
  private final double[] cheated;
  private final double[] least;
  private final double[] price;

  // Where the function tests after each repair are settled, so is the bench: see prepareBenches.

  /** For each state of the bench its place among those met; -1: none. */
  private int[] placeOfBench = {};

  private int benches;

  /** For each place and repair the bench after it, by its place; -1: it cannot be got ready. */
  private int[][] benchAfter = {};

  /** For each place and repair what it costs with its tests, and how much dearer closing gets. */
  private double[][] priceAt = {};

  private double[] closeAt = {};

  /** As {@link #least}, for each place of the bench: {@code set * benches + place}. */
  private double[] leastAt = {};

  Bounds(RepairTree tree, Costs costs, int[] repairs, int repeatable, boolean anywhere) {
    this.anywhere = anywhere;
    end = anywhere ? Math.min(costs.exitFee(), costs.comeback) : costs.exitFee();
    this.tree = tree;
    this.costs = costs;
    this.repeatable = repeatable;
    steps = Arrays.stream(repairs).map(r -> tree.table.repairs[r]).toArray();
    all = (1 << steps.length) - 1;
    leastCost = new double[steps.length];
    leastTests = new double[steps.length];
    wayBack = new double[steps.length];
    leastClose = new double[steps.length];
    price = new double[steps.length];
    rem = new double[1 << steps.length];
    cheated = new double[steps.length << steps.length];
    least = new double[1 << steps.length];
  }

  /** Works out the least costs where they are not those of the options before. */
  void prepare(Options options, int bench) {
    prepare(options);
    if (anywhere) {
      return;
    }
    if (bench >= placeOfBench.length || placeOfBench[bench] < 0) {
      prepareBenches(bench);
    }
  }

  void prepare(Options options) {
    int[][][] possible = options.possibleProofs();
    if (possible == preparedFor || Arrays.deepEquals(possible, preparedFor)) {
      return;
    }
    preparedFor = possible;
    classOf = new int[0];
    known.clear();
    lasting.clear();
    knownAt.clear();
    placeOfBench = new int[0];
    benches = 0;
    Set<Integer> testedAt = new LinkedHashSet<>();
    for (int r = 0; r < steps.length; r++) {
      double cost = Double.POSITIVE_INFINITY;
      double close = Double.POSITIVE_INFINITY;
      for (int[] proofs : possible[r]) {
        double ofProofs = 0;
        int at = steps[r];
        for (int p : proofs) {
          int test = tree.table.model.proofs.get(p).step();
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
      leastTests[r] = Double.isInfinite(cost) ? 0 : cost;
      leastCost[r] = costs.ofStep(steps[r]) + leastTests[r];
      leastClose[r] = Double.isInfinite(close) ? 0 : close;
    }
    List<Integer> from = new ArrayList<>(testedAt);
    for (int r = 0; r < steps.length; r++) {
      double least = Double.POSITIVE_INFINITY;
      for (int at : from) {
        least = Math.min(least, leastWay(at, steps[r]));
      }
      wayBack[r] = anywhere ? 0 : least;
    }
    closing = leastClose.length == 0 ? 0 : Arrays.stream(leastClose).min().orElseThrow();
  }

  /**
   * Works out the prices of repairs from each state of the bench that they lead to. What closing
   * costs is counted where the bench is, and each repair at what it costs and how much dearer or
   * cheaper closing gets by it: that is never below 0, so that a device on which function tests go
   * on failing costs at least as much as one on which they pass. Only where the function tests
   * after each repair are settled; else benches stays 0.
   */
  private void prepareBenches(int bench) {
    for (int[][] proofs : preparedFor) {
      if (proofs.length != 1) {
        benches = 0;
        return;
      }
    }
    int n = steps.length;
    List<Integer> met = new ArrayList<>();
    for (int b = 0; b < placeOfBench.length; b++) {
      if (placeOfBench[b] >= 0) {
        met.add(b);
      }
    }
    met.sort(java.util.Comparator.comparingInt(b -> placeOfBench[b]));
    placeOf(bench, met);
    benchAfter = Arrays.copyOf(benchAfter, benches);
    priceAt = Arrays.copyOf(priceAt, benches);
    closeAt = Arrays.copyOf(closeAt, benches);
    for (int b = 0; b < met.size(); b++) {
      int at = met.get(b);
      int[] after = new int[n];
      double[] prices = new double[n];
      double close = costs.leastCloseFrom(at);
      if (Double.isInfinite(close)) {
        // closing says nothing of where the bench is
        placeOfBench = new int[0];
        benches = 0;
        return;
      }
      for (int r = 0; r < n; r++) {
        double cost = costs.ofStep(steps[r]) + costs.ofWay(at, steps[r]);
        int then = costs.benchFor(at, steps[r]);
        for (int p : preparedFor[r][0]) {
          int test = tree.table.model.proofs.get(p).step();
          if (test < 0) {
            cost += costs.proofCost;
          } else if (then >= 0) {
            cost += costs.ofStep(test) + costs.ofWay(then, test);
            then = costs.benchFor(then, test);
          }
        }
        after[r] = then < 0 ? -1 : placeOf(then, met);
        prices[r] =
            then < 0
                ? Double.POSITIVE_INFINITY
                : Math.max(0, cost + costs.leastCloseFrom(then) - close);
      }
      if (b >= benchAfter.length) {
        benchAfter = Arrays.copyOf(benchAfter, benches);
        priceAt = Arrays.copyOf(priceAt, benches);
        closeAt = Arrays.copyOf(closeAt, benches);
      }
      benchAfter[b] = after;
      priceAt[b] = prices;
      closeAt[b] = close;
    }
    leastAt = new double[benches << n];
  }

  private int placeOf(int bench, List<Integer> met) {
    if (bench >= placeOfBench.length) {
      int from = placeOfBench.length;
      placeOfBench = Arrays.copyOf(placeOfBench, Math.max(2 * from, bench + 1));
      Arrays.fill(placeOfBench, from, placeOfBench.length, -1);
    }
    if (placeOfBench[bench] < 0) {
      placeOfBench[bench] = benches++;
      met.add(bench);
    }
    return placeOfBench[bench];
  }

  /** The least way between the benches of two steps. */
  private double leastWay(int from, int to) {
    return leastWays.computeIfAbsent(
        (long) from << 32 | to, k -> costs.ways.leastCost(costs.goal(from), costs.goal(to)));
  }

  // Classes.

  private int classOf(int row) {
    if (row >= classOf.length) {
      int from = classOf.length;
      classOf = Arrays.copyOf(classOf, Math.max(tree.rows(), 2 * from));
      Arrays.fill(classOf, from, classOf.length, UNKNOWN);
    }
    if (classOf[row] == UNKNOWN) {
      classOf[row] = worst(tree.table.troubles(tree.stateOf(row)));
    }
    return classOf[row];
  }

  /** The trouble that is dearest to get rid of. */
  private int worst(List<Trouble> troubles) {
    int worst = ANY;
    double dearest = -1;
    for (Trouble trouble : troubles) {
      int c = classOf(trouble);
      turnTo(lasting.get(c));
      if (least[0] > dearest) {
        worst = c;
        dearest = least[0];
      }
    }
    return worst;
  }

  private int classOf(Trouble trouble) {
    Integer found = known.get(trouble);
    if (found == null) {
      found = known.size();
      known.put(trouble, found);
      lasting.add(lasting(trouble));
      knownAt.clear();
    }
    return found;
  }

  private Lasting lasting(Trouble trouble) {
    int n = steps.length;
    double[] failing = new double[all + 1];
    double[] passing = new double[n << n];
    double[] fails = new double[n];
    double[] passes = new double[n];
    double[] unharmed = new double[n];
    double[] noHarm = new double[all + 1];
    boolean isSure = repeatingNeverHelps(trouble);
    boolean oneTest = tree.table.model.lost.size() == 1;
    for (int r = 0; r < n; r++) {
      Effects effects = tree.table.model.device.effects[steps[r]];
      double stays = effects.pStays(trouble.cause());
      if ((repeatable >> r & 1) == 1 && stays < 1) {
        stays = 0;
      }
      double pHides = effects.pHides(trouble.cause());
      fails[r] = isSure ? stays * (1 - pHides) * pFails(trouble, r) : 0;
      unharmed[r] = effects.pNoHarm();
      passes[r] =
          oneTest
              ? stays * (1 - pHides) * least(trouble.pCheats(), r)
                  + stays * pHides * least(trouble.pCheatsHidden(), r)
              : 0;
    }
    for (int set = 0; set <= all; set++) {
      int last = Integer.numberOfTrailingZeros(set);
      failing[set] = set == 0 ? 1 : failing[set & set - 1] * fails[last];
      noHarm[set] = set == 0 ? 1 : noHarm[set & set - 1] * unharmed[last];
      for (int r = 0; r < n; r++) {
        passing[set * n + r] = failing[set] * noHarm[set] * unharmed[r] * passes[r];
      }
    }
    return new Lasting(failing, passing);
  }

  /** P(the function tests of a repair fail | the cause is there and not hidden), at least. */
  private double pFails(Trouble trouble, int r) {
    double least = 1;
    for (int[] proofs : preparedFor[r]) {
      double any = 0;
      for (int p : proofs) {
        any = Math.max(any, trouble.pFails().get(p));
      }
      least = Math.min(least, any);
    }
    return least;
  }

  /** The least over what may be the one function test of a repair. */
  private double least(List<Double> byProof, int r) {
    double least = 1;
    for (int[] proofs : preparedFor[r]) {
      for (int p : proofs) {
        least = Math.min(least, byProof.get(p));
      }
    }
    return least;
  }

  /**
   * Whether trying a repair again that does nothing about a trouble costs more than it can save, by
   * letting function tests pass by mistake. Where that is not sure, nothing is counted after the
   * first repair.
   */
  private boolean repeatingNeverHelps(Trouble trouble) {
    boolean never = true;
    for (int r = 0; r < steps.length; r++) {
      double saves = (1 - pFails(trouble, r)) * end;
      never &= (repeatable >> r & 1) == 0 || saves <= leastCost[r];
    }
    return never;
  }

  // The bound.

  /** Turns to a belief. */
  void turnTo(Belief belief) {
    int n = 0;
    Arrays.fill(mass, 0);
    for (int i = 0; i < belief.count; i++) {
      int c = classOf(belief.rows[i]);
      if (c >= mass.length) {
        mass = Arrays.copyOf(mass, 2 * c);
      }
      if (c >= 0) {
        mass[c] += belief.mass[i];
        n = Math.max(n, c + 1);
      }
    }
    Arrays.fill(rem, 0);
    Arrays.fill(cheated, 0);
    for (int c = 0; c < n; c++) {
      if (mass[c] > 0) {
        addTo(rem, mass[c], lasting.get(c).failing);
        addTo(cheated, mass[c], lasting.get(c).cheated);
      }
    }
    if (benches == 0) {
      findLeast();
    } else {
      findLeastAt();
    }
  }

  private void findLeastAt() {
    int n = steps.length;
    for (int set = all; set >= 0; set--) {
      double failing = rem[set];
      for (int b = 0; b < benches; b++) {
        double best = end * failing;
        double[] prices = priceAt[b];
        int[] after = benchAfter[b];
        for (int r = 0; r < n; r++) {
          if ((set >> r & 1) == 0 && after[r] >= 0) {
            double cost = prices[r] * failing + cheated[set * n + r] * costs.comeback;
            best = Math.min(best, cost + leastAt[(set | 1 << r) * benches + after[r]]);
          }
        }
        leastAt[set * benches + b] = best;
      }
    }
  }

  private static void addTo(double[] sum, double mass, double[] p) {
    for (int i = 0; i < sum.length; i++) {
      sum[i] += mass * p[i];
    }
  }

  private void turnTo(Lasting one) {
    System.arraycopy(one.failing, 0, rem, 0, rem.length);
    System.arraycopy(one.cheated, 0, cheated, 0, cheated.length);
    findLeast();
  }

  private void findLeast() {
    int n = steps.length;
    for (int r = 0; r < n; r++) {
      price[r] = leastCost[r] + wayBack[r];
    }
    for (int set = all; set >= 0; set--) {
      double best = end * rem[set];
      for (int r = 0; r < n; r++) {
        if ((set >> r & 1) == 0 && price[r] < Double.POSITIVE_INFINITY) {
          double cost = price[r] * rem[set] + cheated[set * n + r] * costs.comeback;
          best = Math.min(best, cost + least[set | 1 << r]);
        }
      }
      least[set] = best;
    }
  }

  /**
   * The least cost of carrying out a repair and all that follows.
   *
   * @param done the repairs done before
   * @param before the mass on which it is carried out
   */
  double from(int repair, int done, int bench, double before) {
    if (benches == 0) {
      double cost = costs.ofStep(steps[repair]) + costs.ofWay(bench, steps[repair]);
      return before * (cost + leastTests[repair]) + afterTests(repair, done, before);
    }
    int at = placeOfBench[bench];
    return benchAfter[at][repair] < 0
        ? Double.POSITIVE_INFINITY
        : before * (priceAt[at][repair] + closeAt[at])
            + cheats(repair, done)
            + leastAt[(done | 1 << repair) * benches + benchAfter[at][repair]];
  }

  /** The least cost after a repair and its function tests, which leave the bench as given. */
  double afterTests(int repair, int done, int bench, double before) {
    if (benches == 0) {
      return afterTests(repair, done, before);
    }
    int at = placeOfBench[bench];
    return leastAt[(done | 1 << repair) * benches + at]
        + cheats(repair, done)
        + before * closeAt[at];
  }

  private double afterTests(int repair, int done, double before) {
    return least[done | 1 << repair] + cheats(repair, done) + before * closing;
  }

  private double cheats(int repair, int done) {
    boolean again = (done >> repair & 1) == 1;
    return again ? 0 : cheated[done * steps.length + repair] * costs.comeback;
  }

  /** The least cost where some mass has failed all function tests. */
  double fromHere(int done, int bench, double failed) {
    double cheapest = end;
    double[] prices = benches == 0 ? price : priceAt[placeOfBench[bench]];
    for (int r = 0; r < steps.length; r++) {
      if ((done & ~repeatable & 1 << r) == 0) {
        cheapest = Math.min(cheapest, prices[r]);
      }
    }
    double more = Math.max(0, failed - rem[done]) * cheapest;
    return benches == 0
        ? least[done] + more + failed * closing
        : leastAt[done * benches + placeOfBench[bench]]
            + more
            + failed * closeAt[placeOfBench[bench]];
  }

  /** A lower bound of what a belief costs where each of its states is known. */
  double whereKnown(Belief belief, int bench) {
    double leave = end + costs.close(bench);
    double cheapest = Double.POSITIVE_INFINITY;
    for (int r = 0; r < steps.length; r++) {
      cheapest = Math.min(cheapest, priceFrom(bench, r) + leastClose[r]);
    }
    cheapest = Math.min(leave, cheapest);
    double sum = 0;
    for (int i = 0; i < belief.count; i++) {
      int c = classOf(belief.rows[i]);
      sum += belief.mass[i] * (c < 0 ? cheapest : whereKnown(bench, leave)[c]);
    }
    return sum;
  }

  /**
   * The least that a state could cost if it were known, tests allowed that may lead to handing the
   * device over as it is.
   */
  double whereKnown(int row, int bench) {
    double leave = end + costs.close(bench);
    int c = classOf(row);
    double least = c < 0 ? 0 : whereKnown(bench, leave)[c];
    return Math.min(least, tree.lost(row) * costs.comeback);
  }

  private double priceFrom(int bench, int r) {
    return leastCost[r] + Math.min(costs.ofWay(bench, steps[r]), wayBack[r]);
  }

  private double[] whereKnown(int bench, double leave) {
    double[] found = knownAt.get(bench);
    if (found == null) {
      found = new double[lasting.size()];
      for (int c = 0; c < found.length; c++) {
        turnTo(lasting.get(c));
        double best = Double.POSITIVE_INFINITY;
        for (int r = 0; r < steps.length; r++) {
          best = Math.min(best, priceFrom(bench, r) + afterTests(r, 0, 1));
        }
        found[c] = Math.min(leave, best);
      }
      knownAt.put(bench, found);
    }
    return found;
  }
}
