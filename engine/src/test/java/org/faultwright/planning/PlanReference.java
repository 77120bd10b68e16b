package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.diagnosis.NoPlan;
import org.faultwright.diagnosis.PlanResult;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Pack;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Published and closed optima, through the call that hosts and packs use.
 *
 * <p>How a diagnosis without repairs is written as a pack: each state is a cause that loses the
 * function, of which exactly one is present, as likely as published; each has a repair that is free
 * and sure; the shop's function test is free and never catches anything, so that the device is
 * handed over after the first repair; and a comeback has a prohibitive price. So the optimum finds
 * the state for certain, at the least expected cost of tests, and adds nothing. The publications
 * count tests; {@link Plan#expectedSteps} counts the free repair as well, one more for each case.
 */
class PlanReference {

  /** Sums of some ten products; the price of a comeback is a million. */
  private static final double ROUNDING = 1e-9;

  /** Values from memory, recomputed. */
  static final double[] P = {.70, .01, .02, .10, .05, .12};

  static final String[] SIGNATURES = {"00000", "01001", "00110", "10011", "11000", "11110"};

  static Pack matrix(double[] p, String[] signatures, double[] costs) {
    PackSketch sketch = new PackSketch("test/matrix");
    String[] states = new String[p.length];
    PackSketch.Input[] lost = new PackSketch.Input[p.length];
    for (int s = 0; s < p.length; s++) {
      states[s] = "s" + s;
      sketch.prior(states[s], p[s]);
      lost[s] = PackSketch.cause(states[s], 1);
      sketch.step(new StepSketch("repair-" + s).changes(states[s], 1, 0));
    }
    sketch.oneOf("state", true, states);
    sketch.any("lost", lost);
    sketch.complaint("complaint", "lost");
    for (int t = 0; t < costs.length; t++) {
      List<PackSketch.Input> seen = new ArrayList<>();
      for (int s = 0; s < p.length; s++) {
        if (signatures[s].charAt(t) == '1') {
          seen.add(PackSketch.cause(states[s], 1));
        }
      }
      sketch.any("seen-" + (t + 1), seen.toArray(PackSketch.Input[]::new));
      sketch.step(
          Bench.costing(
              new StepSketch("t" + (t + 1)).looksAt(new EventId("seen-" + (t + 1)), 1, 0).build(),
              costs[t]));
    }
    return sketch.build();
  }

  private static Plan plan(Pack pack, Shop shop) {
    return HostCase.plan(pack, shop, PlanLimits.EXACT);
  }

  static Shop comingBackFor(double price) {
    return Bench.with(10 * price, price, new Shop.Proof(0, 0, 0));
  }

  /**
   * Test sequencing with six states and five tests: K. R. Pattipati, M. G. Alexandridis, IEEE
   * Transactions on Systems, Man, and Cybernetics 20(4), 1990, 872-887. The first row is the
   * published optimum (value from memory, recomputed); the others by dynamic programming over all
   * subsets.
   */
  @ParameterizedTest
  @CsvSource({
    "1 1 1 1 1, 2.18, t2",
    "1 2 3 4 5, 5.58, ''",
    "5 4 3 2 1, 5.90, ''",
    "2 1 1 1 2, 2.24, ''"
  })
  void sixStatesAndFiveTests_haveThePublishedOptimum(String prices, double optimum, String first) {
    double[] costs = List.of(prices.split(" ")).stream().mapToDouble(Double::valueOf).toArray();
    Plan plan = plan(matrix(P, SIGNATURES, costs), comingBackFor(1e6));

    assertThat(plan.expectedCost()).isEqualTo(optimum, within(ROUNDING));
    assertThat(plan.isOptimal()).isTrue();
    if (!first.isEmpty()) {
      PlanNode.DoTest root = (PlanNode.DoTest) plan.root();
      assertThat(root.step().value()).isEqualTo(first);
      assertThat(((PlanNode.DoTest) root.branches().get(1).then()).step().value()).isEqualTo("t4");
      assertThat(((PlanNode.DoTest) root.branches().get(0).then()).step().value()).isEqualTo("t3");
    }
  }

  /**
   * With a test for every way to part the states the optimum is the average length of the best
   * binary code: D. A. Huffman, Proceedings of the IRE 40(9), 1952, 1098-1101. Values by Huffman's
   * algorithm.
   */
  @ParameterizedTest
  @CsvSource({".4 .2 .2 .1 .1, 2.2", ".10 .15 .30 .16 .29, 2.25", ".5 .25 .25, 1.5"})
  void everyPossibleTest_givesTheBestBinaryCode(String masses, double average) {
    double[] p = List.of(masses.split(" ")).stream().mapToDouble(Double::valueOf).toArray();
    int tests = (1 << p.length - 1) - 1;
    String[] signatures = new String[p.length];
    for (int s = 0; s < p.length; s++) {
      StringBuilder row = new StringBuilder();
      for (int t = 1; t <= tests; t++) {
        row.append(t >> s & 1);
      }
      signatures[s] = row.toString();
    }
    double[] costs = new double[tests];
    java.util.Arrays.fill(costs, 1);
    Plan plan = plan(matrix(p, signatures, costs), comingBackFor(1e6));

    assertThat(plan.expectedCost()).isEqualTo(average, within(ROUNDING));
    assertThat(plan.expectedSteps()).isEqualTo(average + 1, within(ROUNDING));
  }

  /** Value of sample information, closed form: without the test 15, with it 5, and it costs 5. */
  @Test
  void aTestThatIsNineTimesInTenRight_isWorthWhatItSaves() {
    PackSketch sketch = new PackSketch("test/value-of-a-test").prior("s0", .3).prior("s1", .7);
    sketch.oneOf("state", true, "s0", "s1");
    sketch.any("lost", PackSketch.cause("s0", 1), PackSketch.cause("s1", 1));
    sketch.complaint("complaint", "lost");
    sketch.step(new StepSketch("repair-0").changes("s0", 1, 0));
    sketch.step(new StepSketch("repair-1").changes("s1", 1, 0));
    Pack without = sketch.build();
    sketch.step(
        Bench.costing(
            new StepSketch("test").looksAt(new CauseId("s0"), .9, .1).copies(1).build(), 5));
    Pack with = sketch.build();

    assertThat(plan(without, comingBackFor(50)).expectedCost()).isEqualTo(15, within(ROUNDING));
    assertThat(plan(with, comingBackFor(50)).expectedCost()).isEqualTo(10, within(ROUNDING));
  }

  /**
   * Order by probability per cost (sources in {@link RepairOrderReference}): a call to a service
   * that ends it all is sending the device on, and what no action cures is a cause without a
   * repair. Numbers: closed form, all orders tried. At a fee of 6 calling at once and going on are
   * an exact tie, and either will do; where the job ends, the price of going on is said.
   */
  @ParameterizedTest
  @CsvSource({"20, 9.2, 2 3 1", "1, 1, ''", "4, 4, ''", "6, 6, tie", "8, 7.1, 2 3"})
  void repairsWithoutTests_areOrderedByProbabilityPerCost(
      double fee, double expected, String order) {
    SingleFault three = SingleFault.of(new double[] {.5, .3, .15}, new double[] {10, 2, 1});
    PlanResult result = HostCase.result(three.pack(), Bench.sendingOnFor(fee), PlanLimits.EXACT);
    Plan plan = result.found().or(() -> ((NoPlan) result).ending()).orElseThrow();

    assertThat(plan.expectedCost()).isEqualTo(expected, within(ROUNDING));
    assertThat(plan.isOptimal()).isTrue();
    assertThat(repairs(plan))
        .isIn(order.equals("tie") ? List.of("", "2 3", "3 2") : List.of(order));
    if (order.isEmpty()) {
      NoPlan.NotWorthIt not = (NoPlan.NotWorthIt) result;
      // 2 + .7 * 1 + .55 * fee, or 3 with the action that costs 1 alone: .85 * fee + 1
      double goingOn = Math.min(2.7 + .55 * fee, 1 + .85 * fee);
      assertThat(not.costOfGoingOn()).isEqualTo(goingOn, within(ROUNDING));
    }
  }

  /** The same without a call: 8.4, by the first of two orders that are equal. */
  @Test
  void repairsAlone_costWhatTheBestOrderCosts() {
    SingleFault four = SingleFault.of(new double[] {.5, .3, .15, .05}, new double[] {10, 2, 1, 4});
    Plan plan = plan(four.pack(), Bench.PLAIN);

    assertThat(plan.expectedCost()).isEqualTo(8.4, within(ROUNDING));
    assertThat(repairs(plan)).isEqualTo("2 3 1 4");
  }

  private static String repairs(Plan plan) {
    List<String> found = new ArrayList<>();
    PlanNode node = plan.root();
    while (node instanceof PlanNode.DoRepair repair) {
      found.add(repair.step().value().substring("repair-".length()));
      node = repair.pPass() < 1 ? repair.ifFailed() : repair.ifPassed();
    }
    return String.join(" ", found);
  }
}
