package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.compile.Explanations.Explanation;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The best next probe on the multipliers and adders of {@link NextProbeReference}, as a host asks
 * for it: the outputs are told, and the plan says which value to probe first.
 *
 * <p>How it is written as a pack: the outputs are one step with two outcomes, that of the example
 * and any other, with a row for each set of broken components; a probe is a step with a row for
 * each set, as its value is spread once the outputs are known. Two readings of "inconsistent sets
 * are ruled out": 1, each consistent set is as likely as its prior; 2, each value that a set leaves
 * open has the likelihood 1/10.
 *
 * <p>The publication takes the probe after which the entropy of the sets of broken components is
 * least. Ours takes what saves most on the way to the end of the job, in money: with the same price
 * for each probe and for each replacement the choice is the same. Both numbers are checked: the
 * entropies, from the engine's own probabilities, against enumeration with values uniform over ten
 * (there the publication's table was not seen); and the plan's cost against hand arithmetic.
 */
class ProbePlanReference {

  /**
   * The entropies were worked out with all values for what a set leaves open; here they lie from 1
   * to 10, which leaves some triple faults a little less room.
   */
  private static final double TRIPLE_FAULTS = 1e-3;

  /** One case in a hundred has two broken components; each spoils a few replacements. */
  private static final double DOUBLE_FAULTS = 0.1;

  private static final double PROBE = 0.05;

  private static final List<String> PROBES = List.of("probe-z", "probe-y", "probe-x");

  private static Pack pack(boolean onlyConsistency) {
    List<String> components = NextProbeReference.COMPONENTS;
    PackSketch sketch = new PackSketch("test/next-probe-of-a-host");
    components.forEach(c -> sketch.prior(c, 0.01));
    sketch.any(
        "wrong",
        components.stream().map(c -> PackSketch.cause(c, 1)).toArray(PackSketch.Input[]::new));
    sketch.complaint("complaint", "wrong");
    for (String c : components) {
      sketch.step(Bench.costing(new StepSketch("replace-" + c).changes(c, 1, 0).build(), 1));
    }
    PROBES.forEach(
        id ->
            sketch.step(
                Bench.costing(NextProbeReference.probe(id, id.charAt(6) - 'x').build(), PROBE)));
    return sketch.step(outputs(onlyConsistency)).build();
  }

  private static StepSketch outputs(boolean onlyConsistency) {
    List<NodeId> given = new ArrayList<>();
    NextProbeReference.COMPONENTS.forEach(c -> given.add(new CauseId(c)));
    Map<List<Boolean>, List<Chance>> rows = new LinkedHashMap<>();
    for (int broken = 0; broken < 32; broken++) {
      List<Boolean> when = new ArrayList<>();
      for (int c = 0; c < 5; c++) {
        when.add((broken >> c & 1) == 1);
      }
      double p = NextProbeReference.pOutputs(broken);
      double seen = onlyConsistency && p > 0 ? 1 : p;
      rows.put(when, List.of(PackSketch.chance(seen), PackSketch.chance(1 - seen)));
    }
    return new StepSketch("outputs")
        .shows(
            new Observation.OfTable(
                given, List.of(new OutcomeId("f10-g12"), new OutcomeId("other")), rows));
  }

  @ParameterizedTest(name = "only consistency counts: {0}")
  @CsvSource({
    "true, .478026, .228847, .886148, .909879",
    "false, .495470, .040093, .745301, .748900"
  })
  void x_isProbedFirst_andLeavesLeastOpen(
      boolean onlyConsistency, double single, double x, double y, double z) {
    try (Diagnosis diagnosis = HostCase.open(pack(onlyConsistency), Bench.PLAIN)) {
      diagnosis.tell(HostCase.seen("outputs", "f10-g12"));
      List<Explanation> sets = diagnosis.scrutiny(2).sets().sets();
      assertThat(sets.get(0).p()).isEqualTo(single, within(TRIPLE_FAULTS));
      assertThat(sets.get(1).p()).isEqualTo(single, within(TRIPLE_FAULTS));

      assertThat(entropyAfter("probe-x", diagnosis)).isEqualTo(x, within(TRIPLE_FAULTS));
      assertThat(entropyAfter("probe-y", diagnosis)).isEqualTo(y, within(TRIPLE_FAULTS));
      assertThat(entropyAfter("probe-z", diagnosis)).isEqualTo(z, within(TRIPLE_FAULTS));

      PlanLimits two = new PlanLimits(Duration.ofMinutes(2), 2, 1e-6, 3);
      Plan plan = diagnosis.plan(two).found().orElseThrow();
      assertThat(HostCase.step(plan.root())).isEqualTo("probe-x");
      assertThat(HostCase.step(HostCase.after(plan.root(), "value-4"))).isEqualTo("replace-m1");
      assertThat(HostCase.step(HostCase.after(plan.root(), "value-6"))).isEqualTo("replace-a1");
      // the probe, and then one replacement; without it one and a half
      assertThat(plan.expectedCost()).isEqualTo(1 + PROBE, within(DOUBLE_FAULTS));
    }
  }

  /** The expected entropy of the sets of broken components after a probe, in nats. */
  private static double entropyAfter(String probe, Diagnosis before) {
    double logP = before.answer().posterior().orElseThrow().logPEvidence();
    double expected = 0;
    double whole = 0;
    for (int v = 1; v <= 10; v++) {
      try (Diagnosis after = before.fork()) {
        after.tell(HostCase.seen(probe, "value-" + v));
        java.util.Optional<Posterior> posterior = after.answer().posterior();
        if (posterior.isEmpty()) {
          continue;
        }
        double p = Math.exp(posterior.get().logPEvidence() - logP);
        whole += p;
        for (Explanation set : after.scrutiny(32).sets().sets()) {
          expected -= set.p() > 0 ? p * set.p() * Math.log(set.p()) : 0;
        }
      }
    }
    assertThat(whole).isEqualTo(1, within(1e-9));
    return expected;
  }
}
