package org.faultwright.inference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

class InquiryTest {

  private static final double[] PRESENT = {0, 1};

  /** Thirty causes, each of which brings about each of thirty findings: as wide as can be. */
  private static Model tangle(int findings) {
    Model model = new Model();
    int[] causes = new int[30];
    for (int i = 0; i < causes.length; i++) {
      causes[i] = model.variable("cause " + i, 2);
      model.factor(new int[] {causes[i]}, new int[] {model.constant(0.9), model.constant(0.1)});
    }
    double[] pActs = new double[causes.length];
    for (int f = 0; f < findings; f++) {
      for (int i = 0; i < pActs.length; i++) {
        pActs[i] = (1 + (i * 7 + f * 11) % 13) / 20.0;
      }
      model.noisyAny("finding " + f, causes, pActs, 0.01);
    }
    return model;
  }

  /** All findings positive. */
  private static Map<Integer, double[]> evidence(Model model, int findings) {
    Map<Integer, double[]> evidence = new java.util.LinkedHashMap<>();
    for (int v = 0; v < model.variables(); v++) {
      for (int f = 0; f < findings; f++) {
        if (model.name(v).equals("finding " + f)) {
          evidence.put(v, PRESENT);
        }
      }
    }
    assertThat(evidence).hasSize(findings);
    return evidence;
  }

  @Test
  void answerIsWithheldWithBothSizes_whenBothRoutesAreOverBudget() {
    Model model = tangle(30);
    Marginals answer = Inquiry.of(evidence(model, 30), Set.of(0)).within(1e6).of(model);
    Marginals.OverBudget over = (Marginals.OverBudget) answer;
    assertThat(over.budget()).isEqualTo(1e6);
    assertThat(over.whole()).isGreaterThan(1e6);
    assertThat(over.perCase()).isGreaterThan(1e6);
  }

  @Test
  void answerIsExactByTheCase_whenTheWholeIsOverBudgetAndTheFindingsAreFew() {
    Model model = tangle(30);
    Marginals answer = Inquiry.of(evidence(model, 2), Set.of(0)).of(model);
    assertThat(((Marginals.Exact) answer).route()).isEqualTo(Marginals.Route.PER_CASE);
  }

  @Test
  void answerIsEstimatedWithinItsError_whenDrawingIsAllowed() {
    Model model = tangle(30);
    Map<Integer, double[]> evidence = evidence(model, 2);
    Inquiry inquiry = Inquiry.of(evidence, Set.of(0, 5, 9));
    Marginals.Exact exact = (Marginals.Exact) inquiry.of(model);
    Marginals.Estimated estimated =
        (Marginals.Estimated) inquiry.within(10).orDrawing(20_000, 7).of(model);
    assertThat(estimated.draws()).isEqualTo(20_000);
    assertThat(estimated.effectiveDraws()).isBetween(100.0, 20_000.0);
    for (int v : inquiry.asked()) {
      double error = estimated.standardErrors().get(v)[1];
      assertThat(error).isBetween(1e-5, 0.02);
      // four standard errors: one run in some ten thousand
      assertThat(estimated.p().get(v)[1]).isCloseTo(exact.p().get(v)[1], within(4 * error));
    }
    Marginals again = inquiry.within(10).orDrawing(20_000, 7).of(model);
    assertThat(((Marginals.Estimated) again).p().get(5)).isEqualTo(estimated.p().get(5));
  }

  @Test
  void rowsAreNormalised_whenAPublishedTableIsRounded() {
    DiscreteNetwork.Node rounded =
        new DiscreteNetwork.Node("a", 3, new int[0], new double[] {.3333333, .3333333, .3333333});
    assertThat(rounded.rows())
        .containsExactly(new double[] {1 / 3.0, 1 / 3.0, 1 / 3.0}, within(1e-15));
  }

  @Test
  void tableIsRefused_whenARowDoesNotSumToOne() {
    assertThatThrownBy(
            () -> new DiscreteNetwork.Node("a", 2, new int[] {0}, new double[] {.5, .5, .5, .4}))
        .hasMessage("row 2 of a must sum to 1 within 1.0E-6: 0.9");
  }

  @Test
  void networkIsRefused_whenItsArrowsFormACycle() {
    double[] rows = {.5, .5, .5, .5};
    assertThatThrownBy(
            () ->
                new DiscreteNetwork(
                    List.of(
                        new DiscreteNetwork.Node("a", 2, new int[] {1}, rows),
                        new DiscreteNetwork.Node("b", 2, new int[] {0}, rows))))
        .hasMessage("arrows of a network must not form a cycle");
  }

  @Test
  void networkIsRefused_whenATableHasNotAsManyNumbersAsItsParentsAskFor() {
    assertThatThrownBy(
            () ->
                new DiscreteNetwork(
                    List.of(
                        new DiscreteNetwork.Node("a", 2, new int[0], new double[] {.5, .5}),
                        new DiscreteNetwork.Node("b", 2, new int[] {0}, new double[] {.5, .5}))))
        .hasMessage("table of b must have 4 numbers: 2");
  }

  @Test
  void likelihoodIsRefused_whenItHasNotAsManyNumbersAsTheVariableHasStates() {
    Model model = tangle(1);
    assertThatThrownBy(() -> Inquiry.of(Map.of(0, new double[] {1}), Set.of()).of(model))
        .hasMessage("likelihood of cause 0 must have 2 numbers: 1");
  }
}
