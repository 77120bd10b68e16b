package org.faultwright.oracle;

import java.util.Map;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.StepId;

/** What can be asked about a pack and what is told of a device, whoever answers. */
public interface Answers {

  /** P(evidence); 0 when it is impossible. */
  double pEvidence();

  /** Whether the evidence is impossible. */
  boolean isImpossible();

  /** P(cause present now | evidence). */
  double p(CauseId cause);

  /** P(event holds now, with the device at rest | evidence). */
  double p(EventId event);

  /** P(outcome of the step if it is carried out now | evidence); those missing cannot be. */
  Map<OutcomeId, Double> outcomes(StepId step);
}
