package org.faultwright.rules.facts;

import java.util.Set;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.StepId;

/** An outcome or a reading as told. */
public sealed interface Observed extends Entry permits OutcomeTold, ReadingTold {

  /** The step in which it was seen. */
  StepId step();

  /** The bench positions that the step needs. */
  Set<BenchState> needs();
}
