package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.Facts.outcome;
import static org.faultwright.oracle.Facts.told;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.junit.jupiter.api.Test;

/** Amounts of information, in bits, that follow from beliefs. Closed forms. */
class InformationReference {

  private static double bits(Collection<Double> p) {
    return p.stream().filter(x -> x > 0).mapToDouble(x -> -x * Math.log(x) / Math.log(2)).sum();
  }

  @Test
  void entropyIsOneAndThreeQuarterBits_whenFourCausesHalveEachTime() {
    Pack pack =
        new PackSketch("textbook/four")
            .prior("a", 0.5)
            .prior("b", 0.25)
            .prior("c", 0.125)
            .prior("d", 0.125)
            .oneOf("four", true, "a", "b", "c", "d")
            .build();
    Belief belief = (Belief) ((CompiledPack) CompiledPack.compile(pack)).belief(List.of());
    assertThat(bits(belief.causes().values())).isEqualTo(1.75, within(1e-12));
  }

  /** 1 + 0.1 log2 0.1 + 0.9 log2 0.9. */
  @Test
  void testIsWorthTheCapacityOfItsChannel_whenTheCauseIsAsLikelyAsNot() {
    Pack pack =
        new PackSketch("textbook/channel")
            .prior("it", 0.5)
            .step(new StepSketch("test").looksAt(new CauseId("it"), 0.9, 0.1))
            .build();
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(pack);
    Belief before = (Belief) compiled.belief(List.of());
    double left = 0;
    for (Map.Entry<OutcomeId, Double> o : before.outcomes(new StepId("test")).entrySet()) {
      Belief after = (Belief) compiled.belief(told(outcome("test", o.getKey().value())));
      double p = after.p(new CauseId("it"));
      left += o.getValue() * bits(List.of(p, 1 - p));
    }
    assertThat(1 - left).isEqualTo(0.531004, within(5e-7));
  }
}
