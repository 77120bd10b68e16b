package org.faultwright.oracle;

import java.util.List;
import org.faultwright.casefile.Told;
import org.faultwright.pack.Pack;

class EnumeratedSemanticsContract extends SemanticsContract {
  @Override
  protected Answers answers(Pack pack, List<Told> facts) {
    return WorldEnumerator.of(pack, facts);
  }
}
