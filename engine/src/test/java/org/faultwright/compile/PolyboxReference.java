package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.faultwright.casefile.Fact;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.junit.jupiter.api.Test;

/**
 * Three multipliers and two adders: X = A C, Y = B D, Z = C E, F = X + Y, G = Y + Z with A = 3, B =
 * 2, C = 2, D = 3, E = 3; F should be 12 and is 10, G is 12 as it should be. J. de Kleer, B. C.
 * Williams, "Diagnosing multiple faults", Artificial Intelligence 32(1), 1987, 97-130; figure and
 * outputs from memory, recomputed. Probabilities: prior 0.01 each; by enumeration.
 *
 * <p>A broken part may put out anything (a weak fault model), so what is measured is a table of the
 * five parts: P(this value | which are broken).
 */
class PolyboxReference {

  private static final List<String> PARTS = List.of("a1", "a2", "m1", "m2", "m3");
  private static final OutcomeId SEEN = new OutcomeId("as-seen");
  private static final OutcomeId NOT_SEEN = new OutcomeId("otherwise");

  /** P(an unpredicted value is the one that is seen): one of ten digits. */
  private static final double P_ANY = 0.1;

  private static final double PRINTED = 1e-6;

  /** Which parts are broken. */
  private record Broken(boolean a1, boolean a2, boolean m1, boolean m2, boolean m3) {
    static Broken of(List<Boolean> row) {
      return new Broken(row.get(0), row.get(1), row.get(2), row.get(3), row.get(4));
    }

    boolean predictsF() {
      return !a1 && !m1 && !m2;
    }

    /** From the inputs, or backwards from F = 10. */
    boolean predictsG() {
      return !a2 && !m3 && (!m2 || (!a1 && !m1));
    }

    /** F = 10 is not what sound parts give; G = 12 is not what they give once Y = 4 is known. */
    boolean isConsistent() {
      return !predictsF() && !(m2 && predictsG());
    }

    /** The value of X, Y or Z, where the inputs, F and G tell it. */
    OptionalInt value(char what) {
      Integer x = m1 ? null : 6;
      Integer y = m2 ? null : 6;
      Integer z = m3 ? null : 6;
      for (int pass = 0; pass < 3; pass++) {
        x = x == null && !a1 && y != null ? Integer.valueOf(10 - y) : x;
        z = z == null && !a2 && y != null ? Integer.valueOf(12 - y) : z;
        y = y == null && !a1 && x != null ? Integer.valueOf(10 - x) : y;
        y = y == null && !a2 && z != null ? Integer.valueOf(12 - z) : y;
      }
      Integer value = what == 'x' ? x : what == 'y' ? y : z;
      return value == null ? OptionalInt.empty() : OptionalInt.of(value);
    }
  }

  /** P(F = 10 and G = 12 | broken): only what cannot be is ruled out. */
  private static double filter(Broken broken) {
    return broken.isConsistent() ? 1 : 0;
  }

  /** P(F = 10 and G = 12 | broken): a value that nothing predicts is one of ten. */
  private static double weighed(Broken broken) {
    return filter(broken) * (broken.predictsF() ? 1 : P_ANY) * (broken.predictsG() ? 1 : P_ANY);
  }

  private static PackSketch parts() {
    PackSketch sketch = new PackSketch("textbook/polybox");
    PARTS.forEach(part -> sketch.prior(part, 0.01));
    return sketch;
  }

  private static StepSketch seen(String step, ToDoubleFunction<Broken> pSeen) {
    return table(
        step,
        List.of(SEEN, NOT_SEEN),
        b -> new double[] {pSeen.applyAsDouble(b), 1 - pSeen.applyAsDouble(b)});
  }

  /** Reads one of ten digits between the parts. */
  private static StepSketch probe(char what) {
    List<OutcomeId> digits = new ArrayList<>();
    for (int v = 0; v < 10; v++) {
      digits.add(new OutcomeId("is-" + v));
    }
    return table(
        "probe-" + what,
        digits,
        b -> {
          double[] p = new double[10];
          if (b.value(what).isPresent()) {
            p[Math.floorMod(b.value(what).getAsInt(), 10)] = 1;
          } else {
            Arrays.fill(p, P_ANY);
          }
          return p;
        });
  }

  private interface Row {
    double[] of(Broken broken);
  }

  private static StepSketch table(String step, List<OutcomeId> outcomes, Row row) {
    List<NodeId> given = new ArrayList<>();
    PARTS.forEach(part -> given.add(new CauseId(part)));
    Map<List<Boolean>, List<Chance>> rows = new LinkedHashMap<>();
    for (int r = 0; r < 32; r++) {
      List<Boolean> when = new ArrayList<>();
      for (int i = 0; i < 5; i++) {
        when.add((r >> i & 1) == 1);
      }
      rows.put(when, Arrays.stream(row.of(Broken.of(when))).mapToObj(PackSketch::chance).toList());
    }
    return new StepSketch(step).shows(new Observation.OfTable(given, outcomes, rows));
  }

  private static Map<Set<String>, Double> sets(Pack pack, Fact... facts) {
    return sets((Belief) ((CompiledPack) CompiledPack.compile(pack)).belief(Facts.told(facts)));
  }

  private static Map<Set<String>, Double> sets(Belief belief) {
    LikelyWorlds worlds = belief.worlds(1e-12, 32);
    Map<Set<String>, Double> sets = new LinkedHashMap<>();
    for (int w = 0; w < worlds.size(); w++) {
      Set<String> broken = new LinkedHashSet<>();
      for (int c = 0; c < worlds.coordinates().size(); c++) {
        if (worlds.coordinates().get(c) instanceof Coordinate.Present present
            && worlds.bits()[w][c] == 1) {
          broken.add(present.cause().value());
        }
      }
      sets.merge(broken, worlds.p()[w], Double::sum);
    }
    return sets;
  }

  private static Set<Set<String>> minimal(Set<Set<String>> sets) {
    Set<Set<String>> minimal = new LinkedHashSet<>(sets);
    minimal.removeIf(s -> sets.stream().anyMatch(o -> !o.equals(s) && s.containsAll(o)));
    return minimal;
  }

  private static double nats(Map<?, Double> p) {
    return p.values().stream().filter(x -> x > 0).mapToDouble(x -> -x * Math.log(x)).sum();
  }

  private static final Fact OUTPUTS = Facts.outcome("outputs", "as-seen");

  @Test
  void candidatesAreThePublishedOnes_whenBothOutputsAreMeasured() {
    Pack pack = parts().step(seen("outputs", PolyboxReference::filter)).build();
    Map<Set<String>, Double> sets = sets(pack, OUTPUTS);
    assertThat(sets).hasSize(27);
    assertThat(minimal(sets.keySet()))
        .containsExactlyInAnyOrder(
            Set.of("a1"), Set.of("m1"), Set.of("a2", "m2"), Set.of("m2", "m3"));
  }

  @Test
  void candidatesAreThePublishedOnes_whenOneOutputIsMeasured() {
    Pack pack = parts().step(seen("outputs", b -> b.predictsF() ? 0 : 1)).build();
    assertThat(minimal(sets(pack, OUTPUTS).keySet()))
        .containsExactlyInAnyOrder(Set.of("a1"), Set.of("m1"), Set.of("m2"));
  }

  @Test
  void posteriorsEqualTheSum_whenValuesOnlyRuleOut() {
    Pack pack = parts().step(seen("outputs", PolyboxReference::filter)).build();
    Belief belief =
        (Belief) ((CompiledPack) CompiledPack.compile(pack)).belief(Facts.told(OUTPUTS));
    Map<Set<String>, Double> sets = sets(belief);
    assertThat(sets.get(Set.of("a1"))).isEqualTo(0.478026, within(PRINTED));
    assertThat(sets.get(Set.of("m1"))).isEqualTo(0.478026, within(PRINTED));
    assertThat(sets.get(Set.of("a2", "m2"))).isEqualTo(0.004829, within(PRINTED));
    assertThat(belief.p(new CauseId("a1"))).isEqualTo(0.497635, within(PRINTED));
    assertThat(belief.p(new CauseId("m1"))).isEqualTo(0.497635, within(PRINTED));
    assertThat(belief.p(new CauseId("m2"))).isEqualTo(0.019609, within(PRINTED));
    assertThat(belief.p(new CauseId("a2"))).isEqualTo(0.014780, within(PRINTED));
    assertThat(belief.p(new CauseId("m3"))).isEqualTo(0.014780, within(PRINTED));
  }

  /**
   * Each part sound, too low or too high (one of them): a broken part is as likely as before, so
   * the published posteriors must come out for "a part is broken", and half of each for a state.
   */
  @Test
  void posteriorsEqualTheSum_whenEachPartHasStatesOfHealth() {
    PackSketch sketch = new PackSketch("textbook/polybox");
    List<NodeId> broken = new ArrayList<>();
    for (String part : PARTS) {
      sketch.prior(part + "-low", 0.005).prior(part + "-high", 0.005);
      sketch.oneOf("health-" + part, false, part + "-low", part + "-high");
      sketch.any(
          part + "-broken",
          PackSketch.cause(part + "-low", 1),
          PackSketch.cause(part + "-high", 1));
      broken.add(new EventId(part + "-broken"));
    }
    Map<List<Boolean>, List<Chance>> rows = new LinkedHashMap<>();
    for (int r = 0; r < 32; r++) {
      List<Boolean> when = new ArrayList<>();
      for (int i = 0; i < 5; i++) {
        when.add((r >> i & 1) == 1);
      }
      double p = filter(Broken.of(when));
      rows.put(when, List.of(PackSketch.chance(p), PackSketch.chance(1 - p)));
    }
    Pack pack =
        sketch
            .step(
                new StepSketch("outputs")
                    .shows(new Observation.OfTable(broken, List.of(SEEN, NOT_SEEN), rows)))
            .build();
    Belief belief =
        (Belief) ((CompiledPack) CompiledPack.compile(pack)).belief(Facts.told(OUTPUTS));
    assertThat(belief.p(new EventId("a1-broken"))).isEqualTo(0.497635, within(PRINTED));
    assertThat(belief.p(new EventId("m1-broken"))).isEqualTo(0.497635, within(PRINTED));
    assertThat(belief.p(new EventId("m2-broken"))).isEqualTo(0.019609, within(PRINTED));
    assertThat(belief.p(new EventId("a2-broken"))).isEqualTo(0.014780, within(PRINTED));
    assertThat(belief.p(new EventId("m3-broken"))).isEqualTo(0.014780, within(PRINTED));
    assertThat(belief.p(new CauseId("m1-low"))).isEqualTo(0.497635 / 2, within(PRINTED));
    assertThat(belief.p(new CauseId("m1-high"))).isEqualTo(0.497635 / 2, within(PRINTED));
  }

  @Test
  void posteriorsEqualTheSum_whenUnpredictedValuesAreOneOfTen() {
    Pack pack = parts().step(seen("outputs", PolyboxReference::weighed)).build();
    Map<Set<String>, Double> sets = sets(pack, OUTPUTS);
    assertThat(sets.get(Set.of("a1"))).isEqualTo(0.495470, within(PRINTED));
    assertThat(sets.get(Set.of("m1"))).isEqualTo(0.495470, within(PRINTED));
    assertThat(sets.get(Set.of("a1", "m1"))).isEqualTo(0.005005, within(PRINTED));
    assertThat(sets.get(Set.of("m2", "m3"))).isEqualTo(0.000500, within(PRINTED));
  }

  @Test
  void nextProbeIsX_whenUncertaintyIsToBecomeLeast() {
    Map<Character, Double> filtered = expectedNats(PolyboxReference::filter);
    assertThat(filtered.get('x')).isEqualTo(0.228847, within(PRINTED));
    assertThat(filtered.get('y')).isEqualTo(0.886148, within(PRINTED));
    assertThat(filtered.get('z')).isEqualTo(0.909879, within(PRINTED));
    Map<Character, Double> weighed = expectedNats(PolyboxReference::weighed);
    assertThat(weighed.get('x')).isEqualTo(0.040093, within(PRINTED));
    assertThat(weighed.get('y')).isEqualTo(0.745301, within(PRINTED));
    assertThat(weighed.get('z')).isEqualTo(0.748900, within(PRINTED));
    assertThat(Collections.min(filtered.entrySet(), Map.Entry.comparingByValue()).getKey())
        .isEqualTo('x');
    Pack pack = parts().step(seen("outputs", PolyboxReference::filter)).build();
    assertThat(nats(sets(pack, OUTPUTS))).isEqualTo(0.942296, within(PRINTED));
  }

  private static Map<Character, Double> expectedNats(ToDoubleFunction<Broken> outputs) {
    Map<Character, Double> expected = new LinkedHashMap<>();
    for (char what : new char[] {'x', 'y', 'z'}) {
      StepSketch probe = probe(what);
      Pack pack = parts().step(seen("outputs", outputs)).step(probe).build();
      CompiledPack compiled = (CompiledPack) CompiledPack.compile(pack);
      Belief before = (Belief) compiled.belief(Facts.told(OUTPUTS));
      double sum = 0;
      for (Map.Entry<OutcomeId, Double> o : before.outcomes(probe.build().id()).entrySet()) {
        Fact fact = new Fact.OutcomeSeen(probe.build().id(), o.getKey());
        if (o.getValue() > 0) {
          Belief after = (Belief) compiled.belief(Facts.told(OUTPUTS, fact));
          sum += o.getValue() * nats(sets(after));
        }
      }
      expected.put(what, sum);
    }
    return expected;
  }

  @Test
  void candidatesNarrow_whenXIsMeasured() {
    Map<Set<String>, Double> four = afterX(4);
    assertThat(minimal(four.keySet())).containsExactly(Set.of("m1"));
    assertThat(four.get(Set.of("m1"))).isEqualTo(0.960596, within(PRINTED));
    Map<Set<String>, Double> six = afterX(6);
    assertThat(minimal(six.keySet()))
        .containsExactlyInAnyOrder(Set.of("a1"), Set.of("a2", "m2"), Set.of("m2", "m3"));
    assertThat(six.get(Set.of("a1"))).isEqualTo(0.942037, within(PRINTED));
  }

  /** The value of X rules out, and does no more. */
  private static Map<Set<String>, Double> afterX(int value) {
    Pack pack =
        parts()
            .step(seen("outputs", PolyboxReference::filter))
            .step(seen("x", b -> b.value('x').orElse(value) == value ? 1 : 0))
            .build();
    return sets(pack, OUTPUTS, Facts.outcome("x", "as-seen"));
  }
}
