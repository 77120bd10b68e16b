package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.oracle.TooManyWorldsException;
import org.faultwright.pack.CauseId;

/** The likely worlds have the joint probabilities of sets of causes. Oracle: enumeration. */
class LikelyWorldsProperty {

  /** Each set is a sum of some hundred evaluations of the circuit. */
  private static final double ROUNDING = 1e-9;

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.situations(PackFeature.all());
  }

  @Property(tries = 200)
  void setsOfCausesAreAsLikelyAsEnumerated_andWhatIsLeftOutIsKnown(
      @ForAll("situations") Situation s) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(s.pack());
    Assume.that(compiled.belief(s.facts()) instanceof Belief);
    Belief belief = (Belief) compiled.belief(s.facts());
    isAsEnumerated(belief.worlds(1e-7, 2000), s);
    isAsEnumerated(belief.worldsAhead(1e-7, 2000), s);
  }

  private static void isAsEnumerated(LikelyWorlds likely, Situation s) {
    Map<Set<CauseId>, Double> listed = sets(likely);
    try {
      Map<Set<CauseId>, Double> enumerated = s.enumerator(20_000).sets();
      double missing = 1;
      for (Map.Entry<Set<CauseId>, Double> e : listed.entrySet()) {
        double p = enumerated.getOrDefault(e.getKey(), 0.0);
        assertThat(e.getValue()).as("%s", e.getKey()).isLessThanOrEqualTo(p + ROUNDING);
        missing -= e.getValue();
      }
      assertThat(missing).isCloseTo(likely.pLeftOut(), within(ROUNDING));
      enumerated.forEach(
          (set, p) ->
              assertThat(listed.getOrDefault(set, 0.0))
                  .as("%s", set)
                  .isCloseTo(p, within(likely.pLeftOut() + ROUNDING)));
    } catch (TooManyWorldsException e) {
      Assume.that(false);
    }
  }

  @Property(tries = 100)
  void enoughIsListed_whenNothingLimitsTheList(@ForAll("situations") Situation s) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(s.pack());
    Assume.that(compiled.belief(s.facts()) instanceof Belief);
    LikelyWorlds likely = ((Belief) compiled.belief(s.facts())).worlds(1e-3, 100_000);
    assertThat(likely.pLeftOut()).isLessThanOrEqualTo(1e-3);
  }

  private static Map<Set<CauseId>, Double> sets(LikelyWorlds likely) {
    Map<Set<CauseId>, Double> sets = new LinkedHashMap<>();
    for (int w = 0; w < likely.size(); w++) {
      Set<CauseId> present = new LinkedHashSet<>();
      for (int c = 0; c < likely.coordinates().size(); c++) {
        if (likely.bits()[w][c] == 1
            && likely.coordinates().get(c) instanceof Coordinate.Present cause) {
          present.add(cause.cause());
        }
      }
      sets.merge(present, likely.p()[w], Double::sum);
    }
    return sets;
  }
}
