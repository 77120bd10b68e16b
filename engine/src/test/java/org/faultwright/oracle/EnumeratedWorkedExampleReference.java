package org.faultwright.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.Told;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.junit.jupiter.api.Test;

class EnumeratedWorkedExampleReference extends WorkedExampleReference {
  @Override
  protected WorldEnumerator answers(Pack pack, List<Told> facts) {
    return WorldEnumerator.of(pack, facts);
  }

  @Override
  protected Map<CauseId, Double> priors(Pack pack) {
    return ShareSolver.solve(pack).orElseThrow();
  }

  /** A alone: a (1-b) (1-u). B alone: (1-a) b w (1-u). All three: a b u. None: impossible. */
  @Test
  void setsOfCausesHaveTheirJointProbability_whenReported() {
    Pack pack = withPriors(lamp()).build();
    Map<Set<CauseId>, Double> sets = answers(pack, Facts.told(REPORTED)).sets();
    assertThat(sets.get(Set.of(FLEX))).isEqualTo(0.1 * 0.8 * 0.95 / 0.2818, within(1e-14));
    assertThat(sets.get(Set.of(DRIVER))).isEqualTo(0.9 * 0.16 * 0.95 / 0.2818, within(1e-14));
    assertThat(sets.get(Set.of(FLEX, DRIVER, UNLISTED))).isEqualTo(0.001 / 0.2818, within(1e-14));
    assertThat(sets).hasSize(7).doesNotContainKey(Set.of());
  }
}
