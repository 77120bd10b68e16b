package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a test is worth, against closed forms and worked examples. */
class TestWorthReference {

  private static final double ROUNDING = 1e-12;

  /** Seven digits were recomputed. */
  private static final double SEVEN_DIGITS = 1e-7;

  /**
   * Two causes, exactly one of them present, each with a free and sure repair. The function test
   * passes whatever is wrong, so that a wrong repair is found out by a comeback: the price of a
   * wrong decision.
   */
  private static Weighing decide(
      double pA, double wrong, double catches, double criesWolf, double testMinutes) {
    Pack pack =
        new PackSketch("test/two-causes")
            .prior("a", pA)
            .prior("b", 1 - pA)
            .oneOf("either", true, "a", "b")
            .any("lost", PackSketch.cause("a", 1), PackSketch.cause("b", 1))
            .complaint("complaint", "lost")
            .step(new StepSketch("repair-a").changes("a", 1, 0))
            .step(new StepSketch("repair-b").changes("b", 1, 0))
            .step(new StepSketch("hand-over").proves("complaint", "lost", 0, 0))
            .step(
                Bench.costing(
                    new StepSketch("test").looksAt(new CauseId("a"), catches, criesWolf).build(),
                    testMinutes))
            .build();
    Shop shop = Bench.with(Bench.PROHIBITIVE, wrong, Bench.PLAIN.proof());
    Map<String, Double> p = new LinkedHashMap<>();
    p.put("a", pA);
    p.put("b", 1 - pA);
    return Bench.look(pack, shop, Bench.single(p), Bench.reported(pack, "complaint"));
  }

  /**
   * Closed form: without the test the wrong repair costs 0.3 * 50 = 15; with it 0.1 * 50 = 5 is
   * left; perfect information would be worth 15.
   */
  @Test
  void imperfectTest_isWorthWhatItSaves_lessItsCost() {
    Weighing weighing = decide(0.3, 50, 0.9, 0.1, 5);
    Worth worth = Bench.worthOf(weighing, "test");

    assertThat(weighing.costWithoutTests()).isEqualTo(15, within(ROUNDING));
    assertThat(worth.worth()).isEqualTo(5, within(ROUNDING));
    assertThat(weighing.expectedCost()).isEqualTo(10, within(ROUNDING));
    assertThat(weighing.next()).isEqualTo(new NextStep.DoTest(worth));
    assertThat(Bench.worthOf(decide(0.3, 50, 0.9, 0.1, 0), "test").worth())
        .isEqualTo(10, within(ROUNDING));
    assertThat(Bench.worthOf(decide(0.3, 50, 1, 0, 0), "test").worth())
        .isEqualTo(15, within(ROUNDING));
  }

  @Test
  void test_isNotDone_whenPerfectInformationWouldNotPayForIt() {
    Weighing weighing = decide(0.3, 50, 0.9, 0.1, 16);
    Worth worth = Bench.worthOf(weighing, "test");

    assertThat(worth.atMost()).isTrue();
    assertThat(worth.worth()).isLessThanOrEqualTo(0);
    assertThat(weighing.next()).isInstanceOf(NextStep.DoRepair.class);
    assertThat(RepairSearchProperty.step(weighing)).isEqualTo("repair-b");
  }

  @Test
  void test_isNotDone_whenItTellsNothing() {
    Worth worth = Bench.worthOf(decide(0.3, 50, 0.4, 0.4, 3), "test");

    assertThat(worth.worth()).isEqualTo(-3);
    assertThat(worth.atMost()).isFalse();
  }

  /**
   * After a positive test, deciding for "not a" costs the probability of a times the price of a
   * wrong decision; the price is 1, so the cost is the base-rate problem's answer. Values from
   * memory, recomputed: W. Casscells, A. Schoenberger, T. Graboys, NEJM 299, 1978, 999-1001; D. M.
   * Eddy, in D. Kahneman, P. Slovic, A. Tversky (eds.), Judgment under uncertainty, 1982; G.
   * Gigerenzer's form of it; A. Tversky, D. Kahneman, the cab problem.
   */
  @ParameterizedTest(name = "base rate {0}, {1} against {2}")
  @CsvSource({
    "0.001, 1, 0.05, 0.0196271",
    "0.01, 0.8, 0.096, 0.0776398",
    "0.01, 0.9, 0.09, 0.0917431",
    "0.15, 0.8, 0.2, 0.4137931"
  })
  void baseRates_arePresentInWhatAPositiveTestLeadsTo(
      double base, double catches, double criesWolf, double expected) {
    Worth.Branch positive =
        Bench.worthOf(decide(base, 1, catches, criesWolf, 0), "test").branches().get(0);

    assertThat(positive.seen()).isEqualTo(new Seen.Shown(OutcomeId.POSITIVE));
    assertThat(positive.p()).isEqualTo(base * catches + (1 - base) * criesWolf, within(ROUNDING));
    assertThat(positive.expectedCost()).isEqualTo(expected, within(SEVEN_DIGITS));
  }

  /**
   * Closed form: one fault or none, a repair for 10 and a function test for 1, 30 for a comeback.
   * Without it 11. Where it passes the device goes out, and half of the 30 is the most that this
   * may cost; from one half on the function is not relied on and the repair goes on.
   */
  @ParameterizedTest(name = "lost with {0}, caught with {1}")
  @CsvSource({
    "0.4, 0.75, 3.7", // 11 - 1 - 0.1 * 30 - 0.3 * 11
    "0.4, 0, -2", // 11 - 1 - 0.4 * 30
    "0.6, 0, -1", // 11 - 1 - 11
    "0.6, 0.75, 0.55" // 11 - 1 - 0.15 * 30 - 0.45 * 11
  })
  void functionTestThatPasses_endsTheJob_whereTheFunctionIsReliedOn(
      double pLost, double catches, double expected) {
    Pack pack =
        new PackSketch("test/fault-or-none")
            .prior("a", pLost)
            .any("lost", PackSketch.cause("a", 1))
            .complaint("complaint", "lost")
            .step(Bench.costing(new StepSketch("repair-a").changes("a", 1, 0).build(), 10))
            .step(
                Bench.costing(
                    new StepSketch("works").proves("complaint", "lost", catches, 0).build(), 1))
            .build();
    Shop shop = Bench.with(40, 30, Bench.PLAIN.proof());
    LikelyWorlds worlds =
        Bench.worlds(List.of("a"), List.of(Set.of("a"), Set.of()), List.of(pLost, 1 - pLost));
    Worth works =
        Bench.worthOf(Bench.look(pack, shop, worlds, Bench.reported(pack, "complaint")), "works");

    assertThat(works.worth()).isEqualTo(expected, within(ROUNDING));
  }
}
