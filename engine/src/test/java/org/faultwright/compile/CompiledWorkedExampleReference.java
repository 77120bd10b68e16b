package org.faultwright.compile;

import java.util.List;
import java.util.Map;
import org.faultwright.casefile.Told;
import org.faultwright.oracle.Answers;
import org.faultwright.oracle.WorkedExampleReference;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;

class CompiledWorkedExampleReference extends WorkedExampleReference {
  @Override
  protected Answers answers(Pack pack, List<Told> facts) {
    return CompiledAnswers.of(pack, facts);
  }

  @Override
  protected Map<CauseId, Double> priors(Pack pack) {
    return ((CompiledPack) CompiledPack.compile(pack)).priors();
  }
}
