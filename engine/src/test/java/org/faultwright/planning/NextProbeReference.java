package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.junit.jupiter.api.Test;

/**
 * The best next probe on three multipliers and two adders: X = A C, Y = B D, Z = C E, F = X + Y (by
 * a1), G = Y + Z (by a2), with X = Y = Z = 6 predicted, F = 10 and G = 12 seen.
 *
 * <p>Circuit and outputs from memory (J. de Kleer, B. C. Williams, Diagnosing multiple faults,
 * Artificial Intelligence 32(1), 1987, 97-130). Posterior and rows by enumeration: prior .01 for
 * each component; what a broken component gives is any of ten values, equally likely. Replacing a
 * component costs 1, and a function test tells whether that was it.
 */
class NextProbeReference {

  static final List<String> COMPONENTS = List.of("m1", "m2", "m3", "a1", "a2");

  /**
   * The values compared with give every unpredicted reading 1/10; values from 1 to 10 leave some
   * triple faults a little less room.
   */
  private static final double TRIPLE_FAULTS = 2e-6;

  /** P(F = 10, G = 12 | set), in all and by the value of X, Y, Z. */
  private static final class Likelihood {
    double all;
    final double[][] byValue = new double[3][11];

    Likelihood(int broken) {
      int ways = 0;
      for (int x = 1; x <= 10; x++) {
        for (int y = 1; y <= 10; y++) {
          for (int z = 1; z <= 10; z++) {
            if (fits(broken, 0, x) && fits(broken, 1, y) && fits(broken, 2, z)) {
              double f = is(broken, 3) ? 0.1 : x + y == 10 ? 1 : 0;
              double g = is(broken, 4) ? 0.1 : y + z == 12 ? 1 : 0;
              all += f * g;
              byValue[0][x] += f * g;
              byValue[1][y] += f * g;
              byValue[2][z] += f * g;
              ways++;
            }
          }
        }
      }
      all /= ways;
      for (double[] values : byValue) {
        for (int v = 1; v <= 10; v++) {
          values[v] /= ways;
        }
      }
    }

    private static boolean fits(int broken, int multiplier, int value) {
      return is(broken, multiplier) || value == 6;
    }

    double pValue(int probe, int value) {
      return all == 0 ? 0.1 : byValue[probe][value] / all;
    }
  }

  private static boolean is(int broken, int component) {
    return (broken >> component & 1) == 1;
  }

  private static Pack pack() {
    PackSketch sketch = new PackSketch("test/multipliers-and-adders");
    COMPONENTS.forEach(c -> sketch.prior(c, 0.01));
    sketch.any(
        "wrong",
        COMPONENTS.stream().map(c -> PackSketch.cause(c, 1)).toArray(PackSketch.Input[]::new));
    sketch.complaint("wrong-sum", "wrong");
    for (String c : COMPONENTS) {
      sketch.step(Bench.costing(new StepSketch("replace-" + c).changes(c, 1, 0).build(), 1));
    }
    sketch.step(probe("probe-x", 0)).step(probe("probe-y", 1)).step(probe("probe-z", 2));
    return sketch.build();
  }

  static StepSketch probe(String id, int probe) {
    List<NodeId> given = new ArrayList<>();
    COMPONENTS.forEach(c -> given.add(new CauseId(c)));
    List<OutcomeId> values = new ArrayList<>();
    for (int v = 1; v <= 10; v++) {
      values.add(new OutcomeId("value-" + v));
    }
    Map<List<Boolean>, List<Chance>> rows = new LinkedHashMap<>();
    for (int broken = 0; broken < 32; broken++) {
      Likelihood likelihood = new Likelihood(broken);
      List<Boolean> when = new ArrayList<>();
      List<Chance> row = new ArrayList<>();
      for (int c = 0; c < 5; c++) {
        when.add(is(broken, c));
      }
      for (int v = 1; v <= 10; v++) {
        row.add(PackSketch.chance(Math.min(1, likelihood.pValue(probe, v))));
      }
      rows.put(when, row);
    }
    return new StepSketch(id).shows(new Observation.OfTable(given, values, rows));
  }

  /** P(F = 10, G = 12 | set), values that a set leaves open being any of ten. */
  static double pOutputs(int broken) {
    return new Likelihood(broken).all;
  }

  private static LikelyWorlds posterior() {
    List<Set<String>> sets = new ArrayList<>();
    List<Double> masses = new ArrayList<>();
    for (int broken = 0; broken < 32; broken++) {
      double p = new Likelihood(broken).all;
      Set<String> set = new LinkedHashSet<>();
      for (int c = 0; c < 5; c++) {
        p *= is(broken, c) ? 0.01 : 0.99;
        if (is(broken, c)) {
          set.add(COMPONENTS.get(c));
        }
      }
      if (p > 0) {
        sets.add(set);
        masses.add(p);
      }
    }
    return Bench.worlds(COMPONENTS, sets, masses);
  }

  @Test
  void x_isTheBestProbe_andSparesOneReplacementInTwo() {
    LikelyWorlds worlds = posterior();
    // {m1} and {a1}, .495470 each; {a1, m1}, .005005
    assertThat(worlds.p()[0]).isEqualTo(0.495470, within(TRIPLE_FAULTS));
    assertThat(worlds.p()[1]).isEqualTo(0.495470, within(TRIPLE_FAULTS));
    assertThat(worlds.p()[2]).isEqualTo(0.005005, within(TRIPLE_FAULTS));

    Pack pack = pack();
    Weighing weighing = Bench.look(pack, Bench.PLAIN, worlds, Bench.reported(pack, "wrong-sum"));

    double x = Bench.worthOf(weighing, "probe-x").worth();
    double y = Bench.worthOf(weighing, "probe-y").worth();
    double z = Bench.worthOf(weighing, "probe-z").worth();
    assertThat(RepairSearchProperty.step(weighing)).isEqualTo("probe-x");
    assertThat(x).isGreaterThan(10 * y).isGreaterThan(10 * z);
    // But for the one case in a hundred with two broken components, X tells m1 from a1.
    assertThat(x).isEqualTo(0.5, within(0.01));
  }
}
