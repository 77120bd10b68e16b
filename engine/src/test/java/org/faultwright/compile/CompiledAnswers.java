package org.faultwright.compile;

import java.util.List;
import java.util.Map;
import org.faultwright.casefile.Told;
import org.faultwright.oracle.Answers;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;

/** The answers of a compiled pack. */
record CompiledAnswers(BeliefResult result) implements Answers {

  static CompiledAnswers of(Pack pack, List<Told> facts) {
    return new CompiledAnswers(((CompiledPack) CompiledPack.compile(pack)).belief(facts));
  }

  private Belief belief() {
    return (Belief) result;
  }

  @Override
  public double pEvidence() {
    return isImpossible() ? 0 : Math.exp(belief().logPEvidence());
  }

  @Override
  public boolean isImpossible() {
    return result instanceof BeliefResult.ImpossibleEvidence;
  }

  @Override
  public double p(CauseId cause) {
    return belief().p(cause);
  }

  @Override
  public double p(EventId event) {
    return belief().p(event);
  }

  @Override
  public Map<OutcomeId, Double> outcomes(StepId step) {
    return belief().outcomes(step);
  }
}
