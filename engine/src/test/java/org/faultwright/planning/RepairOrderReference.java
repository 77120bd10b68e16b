package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Order of repairs for one fault, sure repairs and independent costs.
 *
 * <p>Theorem from memory: J. B. Kadane, H. A. Simon, Optimal strategies for a class of constrained
 * sequential problems, 1977; J. Kalagnanam, M. Henrion, A comparison of decision analysis and
 * expert rules for sequential diagnosis, UAI 1988; D. Heckerman, J. Breese, K. Rommelse,
 * Decision-theoretic troubleshooting, CACM 38(3), 1995, 49-57. Numbers: closed form and enumeration
 * of all orders.
 */
class RepairOrderReference {

  /** Sums of at most ten products of numbers with three digits. */
  private static final double ROUNDING = 1e-12;

  private static final double[] P = {.5, .3, .15, .05};
  private static final double[] C = {10, 2, 1, 4};

  @Test
  void order_isByProbabilityPerCost_andThePacksOrderDecidesTheTie() {
    Weighing weighing = SingleFault.of(P, C).look(Bench.PLAIN);

    assertThat(weighing.expectedCost()).isEqualTo(8.4, within(ROUNDING));
    assertThat(SingleFault.order(weighing)).containsExactly(2, 3, 1, 4);
  }

  @Test
  void order_followsThePack_whenTheTiedRepairsChangePlaces() {
    Weighing weighing =
        SingleFault.of(new double[] {.5, .15, .3, .05}, new double[] {10, 1, 2, 4})
            .look(Bench.PLAIN);

    assertThat(weighing.expectedCost()).isEqualTo(8.4, within(ROUNDING));
    assertThat(SingleFault.order(weighing)).containsExactly(2, 3, 1, 4);
  }

  @Test
  void firstRepair_isWeighedWithTheBestOrderAfterIt() {
    Weighing weighing = SingleFault.of(P, C).look(Bench.PLAIN);

    // 1-2-3-4: 10 + .5*2 + .2*1 + .05*4; 4-2-3-1: 4 + .95*2 + .65*1 + .5*10
    assertThat(costFrom(weighing, "repair-1")).isEqualTo(11.4, within(ROUNDING));
    assertThat(costFrom(weighing, "repair-2")).isEqualTo(8.4, within(ROUNDING));
    assertThat(costFrom(weighing, "repair-3")).isEqualTo(8.4, within(ROUNDING));
    assertThat(costFrom(weighing, "repair-4")).isEqualTo(11.55, within(ROUNDING));
  }

  @ParameterizedTest(name = "sending on costs {0}")
  @CsvSource({"20, 9.2, 2 3 1", "1, 1, ''", "4, 4, ''", "6, 6, ''", "8, 7.1, 2 3"})
  void sendingOn_endsTheSequence_whereItIsCheaper(double fee, double expected, String order) {
    double[] p = {.5, .3, .15};
    double[] c = {10, 2, 1};
    Weighing weighing = SingleFault.of(p, c).look(Bench.sendingOnFor(fee));

    assertThat(weighing.expectedCost()).isEqualTo(expected, within(ROUNDING));
    List<Integer> wanted =
        order.isEmpty()
            ? List.of()
            : List.of(order.split(" ")).stream().map(Integer::valueOf).toList();
    assertThat(SingleFault.order(weighing)).isEqualTo(wanted);
    assertThat(weighing.next() instanceof NextStep.Leave).isEqualTo(wanted.isEmpty());
  }

  private static double costFrom(Weighing weighing, String repair) {
    return weighing.repairs().stream()
        .filter(w -> w.repair().value().equals(repair))
        .findFirst()
        .orElseThrow()
        .expectedCost();
  }
}
