package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;

/** Holds each fact of a case against all others. */
final class Agreement {

  private final CompiledPack compiled;
  private final List<Told> facts;

  Agreement(CompiledPack compiled, List<Told> facts) {
    this.compiled = compiled;
    this.facts = facts;
  }

  Conflict conflict(double logPAll) {
    List<Conflict.Expected> expected = new ArrayList<>();
    double measure = -logPAll;
    for (Told t : facts) {
      if (t.fact() instanceof Fact.StepDone) {
        continue;
      }
      double alone = believe(t, true).logPEvidence();
      Belief rest = believe(t, false);
      measure += alone;
      expected.add(
          new Conflict.Expected(t, alone, logPAll - rest.logPEvidence(), predicted(rest, t)));
    }
    return new Conflict(expected.size() < 2 ? 0 : measure, expected);
  }

  /** What is believed given one fact alone, or all but that one; attempts always among them. */
  private Belief believe(Told one, boolean alone) {
    List<Told> some =
        facts.stream()
            .filter(t -> t.fact() instanceof Fact.StepDone || t.equals(one) == alone)
            .toList();
    if (compiled.beliefOfSome(some, facts, Set.of()) instanceof Belief belief) {
      return belief;
    }
    throw new IllegalStateException("facts that are possible together must be possible apart");
  }

  /** Of a fact before an attempt nothing: the device has changed since. */
  private Map<String, Double> predicted(Belief rest, Told t) {
    Map<String, Double> predicted = new LinkedHashMap<>();
    if (facts.subList(facts.indexOf(t), facts.size()).stream()
        .anyMatch(later -> later.fact() instanceof Fact.StepDone)) {
      return predicted;
    }
    if (t.fact() instanceof Fact.OutcomeSeen o) {
      rest.outcomes(o.step()).forEach((outcome, p) -> predicted.put(outcome.value(), p));
    } else if (t.fact() instanceof Fact.ReadingTaken r) {
      rest.states(r.point()).forEach((state, p) -> predicted.put(state.value(), p));
    }
    return predicted;
  }
}
