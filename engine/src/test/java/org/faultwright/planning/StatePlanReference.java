package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Event;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Published questions about states of a device, asked as plans. What the publications call a
 * decision is a repair that is free, and a wrong one is a comeback: see {@link PlanReference}.
 */
class StatePlanReference {

  /** Sums of some ten products; the price of a comeback is a million. */
  private static final double ROUNDING = 1e-9;

  /** Seven digits were recomputed. */
  private static final double SEVEN_DIGITS = 1e-7;

  /** Six digits were recomputed. */
  private static final double SIX_DIGITS = 1e-6;

  /**
   * Whether a series system of independent components works, by testing one after another until one
   * fails or all work. The rule, by cost per probability of failing, from memory: R. Butterworth,
   * Operations Research 20, 1972, 335-343; T. Unluyurt, Discrete Applied Mathematics 142, 2004.
   * Numbers: all 24 orders tried.
   *
   * <p>A case of ours is about a function that is lost, and the question here is about a system
   * that may work. So the pack has a function that is lost as long as the question is open: two
   * causes stand for the two answers that are owed; to say "it works" removes one, "it fails" the
   * other; and the function is back where the answer is right.
   */
  @Test
  void seriesSystem_isTestedByCostPerProbabilityOfFailing() {
    double[] pWork = {.9, .6, .8, .95};
    double[] costs = {3, 4, 1, .5};
    PackSketch sketch = new PackSketch("test/series-system");
    PackSketch.Input[] broken = new PackSketch.Input[pWork.length];
    for (int i = 0; i < pWork.length; i++) {
      String id = "broken-" + (i + 1);
      sketch.prior(id, 1 - pWork[i]);
      broken[i] = PackSketch.cause(id, 1);
      sketch.step(
          Bench.costing(
              new StepSketch("test-" + (i + 1)).looksAt(new CauseId(id), 1, 0).build(), costs[i]));
    }
    sketch.prior("owes-works", 1).prior("owes-fails", 1);
    sketch.any("fails", broken);
    sketch.event("works", new Event.Combination.None(), 0, broken);
    Event.Combination all = new Event.Combination.All();
    sketch.event(
        "open-if-it-works",
        all,
        0,
        PackSketch.cause("owes-works", 1),
        PackSketch.event("works", 1));
    sketch.event(
        "open-if-it-fails",
        all,
        0,
        PackSketch.cause("owes-fails", 1),
        PackSketch.event("fails", 1));
    sketch.any(
        "open", PackSketch.event("open-if-it-works", 1), PackSketch.event("open-if-it-fails", 1));
    sketch.complaint("complaint", "open");
    sketch.step(new StepSketch("say-it-works").changes("owes-works", 1, 0));
    sketch.step(new StepSketch("say-it-fails").changes("owes-fails", 1, 0));
    Plan plan = HostCase.plan(sketch.build(), PlanReference.comingBackFor(1e6), PlanLimits.EXACT);

    assertThat(plan.expectedCost()).isEqualTo(5.808, within(ROUNDING));
    List<String> order = new ArrayList<>();
    PlanNode node = plan.root();
    while (node instanceof PlanNode.DoTest test) {
      order.add(test.step().value());
      assertThat(HostCase.step(HostCase.after(test, "positive"))).isEqualTo("say-it-fails");
      node = HostCase.after(test, "negative");
    }
    assertThat(HostCase.step(node)).isEqualTo("say-it-works");
    assertThat(order).startsWith("test-3").endsWith("test-1").hasSize(4);
  }

  /**
   * Base rates, as a plan after a positive test: it is cheapest to say "not a", which is wrong as
   * often as a is there; a comeback costs 1. Values from memory, recomputed: W. Casscells, A.
   * Schoenberger, T. Graboys, NEJM 299, 1978, 999-1001; D. M. Eddy, in D. Kahneman, P. Slovic, A.
   * Tversky (eds.), Judgment under uncertainty, 1982; G. Gigerenzer's form of it; A. Tversky, D.
   * Kahneman, the cab problem.
   */
  @ParameterizedTest(name = "base rate {0}, {1} against {2}")
  @CsvSource({
    "0.001, 1, 0.05, 0.0196271",
    "0.01, 0.8, 0.096, 0.0776398",
    "0.01, 0.9, 0.09, 0.0917431",
    "0.15, 0.8, 0.2, 0.4137931"
  })
  void baseRates_arePresentInThePlanAfterAPositiveTest(
      double base, double catches, double criesWolf, double expected) {
    Pack pack =
        new PackSketch("test/base-rate")
            .prior("a", base)
            .prior("b", 1 - base)
            .oneOf("either", true, "a", "b")
            .any("lost", PackSketch.cause("a", 1), PackSketch.cause("b", 1))
            .complaint("complaint", "lost")
            .step(new StepSketch("say-a").changes("a", 1, 0))
            .step(new StepSketch("say-not-a").changes("b", 1, 0))
            .step(new StepSketch("test").looksAt(new CauseId("a"), catches, criesWolf))
            .build();
    Plan plan =
        HostCase.plan(
            pack,
            PlanReference.comingBackFor(1),
            PlanLimits.EXACT,
            HostCase.seen("test", "positive"));

    assertThat(HostCase.step(plan.root())).isEqualTo("say-not-a");
    assertThat(plan.expectedCost()).isEqualTo(expected, within(SEVEN_DIGITS));
    assertThat(plan.pComeback()).isEqualTo(expected, within(SEVEN_DIGITS));
  }

  /**
   * How much of what may be wrong is detected, and how much of that is isolated, by some of the
   * tests of {@link PlanReference} alone: fractions by rate (definitions from memory: MIL-STD-2165;
   * IEEE Std 1522-2004; numbers by enumeration). State s0 is sound, the others are faults with
   * their probabilities as rates.
   *
   * <p>A plan knows costs, not fractions: what it cannot part it hands over as the likeliest of the
   * group, and the rest comes back. So P(comeback) is 1 less the likeliest of each group, which no
   * figure of the standards is; these come out of the places where the plan ends: a fault is
   * undetected where s0 is still possible, and a group is what is still possible there.
   */
  @ParameterizedTest(name = "tests {0}")
  @CsvSource({
    "1 2 3 4 5, 1, 1, 1, 1",
    "1 2 3 4, 1, 1, 1, 1",
    "1 2, .933333, .392857, 1, 1.607143",
    "2 3, .666667, .7, 1, 1.3",
    "4, .8, 0, 0, 3",
    "5, .366667, 0, 1, 2"
  })
  void planPartsAsMuchAsTheTestsCan(
      String tests, double detected, double one, double two, double size) {
    int[] which = List.of(tests.split(" ")).stream().mapToInt(Integer::parseInt).toArray();
    String[] signatures = new String[PlanReference.P.length];
    for (int s = 0; s < signatures.length; s++) {
      StringBuilder row = new StringBuilder();
      for (int t : which) {
        row.append(PlanReference.SIGNATURES[s].charAt(t - 1));
      }
      signatures[s] = row.toString();
    }
    double[] costs = new double[which.length];
    java.util.Arrays.fill(costs, 1);
    Pack pack = PlanReference.matrix(PlanReference.P, signatures, costs);
    Ends ends = new Ends();
    Plan plan;
    try (Diagnosis diagnosis = HostCase.open(pack, PlanReference.comingBackFor(1e6))) {
      plan = diagnosis.plan(PlanLimits.EXACT).found().orElseThrow();
      ends.follow(plan.root(), 1, diagnosis);
    }

    double rates = 1 - PlanReference.P[0];
    assertThat(1 - ends.undetected / rates).isEqualTo(detected, within(SIX_DIGITS));
    double all = rates - ends.undetected;
    assertThat(ends.isolated(1) / all).isEqualTo(one, within(SIX_DIGITS));
    assertThat(ends.isolated(2) / all).isEqualTo(two, within(SIX_DIGITS));
    assertThat(ends.sizes / all).isEqualTo(size, within(SIX_DIGITS));
    assertThat(plan.pComeback()).isEqualTo(1 - ends.likeliest, within(ROUNDING));
  }

  /** What is possible at the ends of a plan, as the diagnosis says it. */
  private static final class Ends {
    double undetected;
    double sizes;
    double likeliest;
    private final double[] bySize = new double[PlanReference.P.length + 1];

    double isolated(int most) {
      double sum = 0;
      for (int n = 1; n <= most; n++) {
        sum += bySize[n];
      }
      return sum;
    }

    void follow(PlanNode node, double p, Diagnosis before) {
      if (node instanceof PlanNode.DoTest test) {
        for (PlanNode.Branch b : test.branches()) {
          OutcomeId seen = ((Seen.Shown) b.seen()).outcome();
          try (Diagnosis after = before.fork()) {
            after.tell(new Fact.OutcomeSeen(test.step(), seen));
            follow(b.then(), p * b.p(), after);
          }
        }
        return;
      }
      Posterior posterior = before.answer().posterior().orElseThrow();
      Set<String> group = new LinkedHashSet<>();
      for (Posterior.Ranked r : posterior.ranking()) {
        if (r.p() > ROUNDING) {
          group.add(r.cause().value());
        }
      }
      likeliest += p * posterior.leader().p();
      if (group.contains("s0")) {
        undetected += p * (1 - posterior.p(new CauseId("s0")));
      } else {
        bySize[group.size()] += p;
        sizes += p * group.size();
      }
    }
  }
}
