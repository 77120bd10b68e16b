package org.faultwright.pack;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What a device in order is expected to show. */
class ObservationTest {

  private static final OutcomeId DARK = new OutcomeId("dark");
  private static final OutcomeId LIT = new OutcomeId("lit");

  private static Chance p(double p) {
    return Chance.byDefinition(p);
  }

  @Test
  void inOrder_isTheNegative_whereNodesAreLookedAt() {
    CauseId cause = new CauseId("c");
    assertThat(new Observation.OfNode(cause, p(0.9), p(0.1), DARK, LIT).inOrder()).isEqualTo(LIT);
    assertThat(new Observation.OfNodes(Map.of(cause, p(0.9)), p(0.1), DARK, LIT).inOrder())
        .isEqualTo(LIT);
  }

  @Test
  void inOrder_isTheLikeliestOfTheNormalRow_whereStatesAreLookedAt() {
    Observation states =
        new Observation.OfStates(
            List.of(),
            List.of(DARK, LIT),
            Map.of(StateId.NORMAL, Map.of(DARK, p(0.2), LIT, p(0.8))));
    assertThat(states.inOrder()).isEqualTo(LIT);
  }

  @Test
  void inOrder_isTheLikeliestWhereNothingActs_inATable() {
    Observation table =
        new Observation.OfTable(
            List.of(new CauseId("c")),
            List.of(DARK, LIT),
            Map.of(
                List.of(true), List.of(p(0.9), p(0.1)), List.of(false), List.of(p(0.3), p(0.7))));
    assertThat(table.inOrder()).isEqualTo(LIT);
  }
}
