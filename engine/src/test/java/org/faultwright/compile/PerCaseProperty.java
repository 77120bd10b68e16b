package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.PackSketch.cause;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Fact;
import org.faultwright.inference.Marginals;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Pack;

/** A network compiled for the case at hand believes what the whole network believes. */
class PerCaseProperty {

  private static final Offset<Double> ROUNDING = within(1e-10);

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.situations(PackFeature.all());
  }

  @Property(tries = 150)
  void bothRoutesBelieveTheSame_whateverThePackAndTheCase(@ForAll("situations") Situation s) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(s.pack());
    BeliefResult whole = compiled.belief(s.facts());
    BeliefResult perCase =
        compiled.believePerCase(s.facts(), Set.of(), (network, evaluation) -> {});
    if (!(whole instanceof Belief expected)) {
      assertThat(perCase).isEqualTo(whole);
      return;
    }
    Belief belief = (Belief) perCase;
    assertThat(belief.route()).isEqualTo(Marginals.Route.PER_CASE);
    assertThat(belief.logPEvidence()).isCloseTo(expected.logPEvidence(), within(1e-9));
    for (Map.Entry<CauseId, Double> e : expected.causes().entrySet()) {
      assertThat(belief.p(e.getKey())).as("%s", e.getKey()).isCloseTo(e.getValue(), ROUNDING);
    }
    for (Explanations.Explanation set : expected.explanations(3).sets()) {
      assertThat(belief.explanations(3).sets().stream().mapToDouble(x -> Math.abs(x.p() - set.p())))
          .anyMatch(apart -> apart < 1e-9);
    }
  }

  /** Twenty findings, each a noisy any of nine of eighteen causes: too wide together. */
  private static Pack wide() {
    PackSketch sketch = new PackSketch("test/wide");
    for (int c = 0; c < 18; c++) {
      sketch.prior("c" + c, 0.01 + 0.002 * c);
    }
    for (int f = 0; f < 20; f++) {
      PackSketch.Input[] inputs = new PackSketch.Input[9];
      for (int i = 0; i < inputs.length; i++) {
        inputs[i] = cause("c" + (f + i * i + i * (f % 3)) % 18, 0.3 + 0.05 * i);
      }
      List<PackSketch.Input> once = new ArrayList<>();
      for (PackSketch.Input i : inputs) {
        if (once.stream().noneMatch(o -> o.node().equals(i.node()))) {
          once.add(i);
        }
      }
      sketch.any("e" + f, once.toArray(PackSketch.Input[]::new));
      sketch.step(new StepSketch("t" + f).looksAt(new EventId("e" + f), 1, 0));
    }
    return sketch.any("top", cause("c0", 1), cause("c1", 1)).complaint("lost", "top").build();
  }

  @Example
  void caseIsAnsweredByWhatItsFactsLeave_whenTheNetworkOfAllItObservesIsTooWide() {
    CompiledPack tight = (CompiledPack) CompiledPack.compile(wide(), 3_000);
    CompiledPack roomy = (CompiledPack) CompiledPack.compile(wide(), 1e8);
    List<Fact> facts = new ArrayList<>();
    for (int f = 0; f < 12; f++) {
      facts.add(Facts.outcome("t" + f, f < 2 ? "positive" : "negative"));
    }
    Belief belief = (Belief) tight.belief(Facts.told(facts));
    Belief expected = (Belief) roomy.belief(Facts.told(facts));
    assertThat(belief.route()).isEqualTo(Marginals.Route.PER_CASE);
    assertThat(expected.route()).isEqualTo(Marginals.Route.WHOLE);
    expected
        .causes()
        .forEach((c, p) -> assertThat(belief.p(c)).as("%s", c).isCloseTo(p, within(1e-12)));
    assertThat(belief.logPEvidence()).isCloseTo(expected.logPEvidence(), within(1e-9));
  }

  @Example
  void estimateIsWithinItsError_andTheSameWithTheSameSeed() {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(wide(), 1e8);
    List<Fact> facts = new ArrayList<>();
    for (int f = 0; f < 6; f++) {
      facts.add(Facts.outcome("t" + f, f < 2 ? "positive" : "negative"));
    }
    Belief exact = (Belief) compiled.belief(Facts.told(facts));
    Estimate estimate = compiled.estimate(Facts.told(facts), 100_000, 3).orElseThrow();
    assertThat(estimate.effectiveDraws()).isGreaterThan(300);
    assertThat(estimate.causes()).hasSize(18);
    estimate
        .causes()
        .forEach(
            (c, e) ->
                // five standard errors, and what no draw has seen: e^-7
                assertThat(e.p())
                    .as("%s", c)
                    .isCloseTo(
                        exact.p(c), within(5 * e.standardError() + 7 / estimate.effectiveDraws())));
    assertThat(compiled.estimate(Facts.told(facts), 100_000, 3)).contains(estimate);
  }
}
