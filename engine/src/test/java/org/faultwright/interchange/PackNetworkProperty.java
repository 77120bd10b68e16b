package org.faultwright.interchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.assertj.core.data.Offset;
import org.faultwright.compile.Belief;
import org.faultwright.compile.BeliefResult;
import org.faultwright.compile.CompiledPack;
import org.faultwright.inference.Inquiry;
import org.faultwright.inference.Marginals;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;

/**
 * A pack written as a network for other programs, read again and asked the same question, says what
 * the pack itself believes.
 */
class PackNetworkProperty {

  /** Rows are normalised once more on the way; else the same sums in another order. */
  private static final Offset<Double> EXACT = within(1e-9);

  @Provide
  Arbitrary<Situation> situations() {
    Set<PackFeature> features = new java.util.LinkedHashSet<>(PackFeature.withoutAttempts());
    // a repeat that may be no copy weighs an outcome by what came before: not exchanged
    features.remove(PackFeature.UNSURE_COPIES);
    return RandomCases.situations(features);
  }

  @Property(tries = 100)
  void writtenNetwork_believesWhatThePackBelieves(@ForAll("situations") Situation s) {
    CompiledPack pack = (CompiledPack) CompiledPack.compile(s.pack());
    BeliefResult belief = pack.belief(s.facts());
    Optional<PackNetwork> network = PackNetwork.of(pack, s.plainFacts());
    Assume.that(network.isPresent());
    PackNetwork exported = network.get();
    Reading<BayesNetwork> reading =
        Bif.read(ExchangeText.of("p.bif", Bif.write(exported.network())));
    assertThat(reading.report()).isEmpty();
    BayesNetwork read = ((Reading.Readable<BayesNetwork>) reading).value();
    Map<Integer, double[]> told = new LinkedHashMap<>();
    exported.told().forEach(v -> told.put(v, new double[] {0, 1}));
    Marginals answer = Inquiry.of(told, Set.copyOf(exported.causes().values())).of(read.tables());
    if (belief instanceof Belief of) {
      assertThat(answer).isInstanceOf(Marginals.Exact.class);
      exported
          .causes()
          .forEach(
              (cause, v) ->
                  assertThat(((Marginals.Exact) answer).p().get(v)[1])
                      .as("%s", cause)
                      .isCloseTo(of.p(cause), EXACT));
    }
  }
}
