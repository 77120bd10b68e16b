package org.faultwright.compile;

import java.util.List;
import org.faultwright.casefile.Told;
import org.faultwright.oracle.Answers;
import org.faultwright.oracle.SemanticsContract;
import org.faultwright.pack.Pack;

class CompiledSemanticsContract extends SemanticsContract {
  @Override
  protected Answers answers(Pack pack, List<Told> facts) {
    return CompiledAnswers.of(pack, facts);
  }
}
