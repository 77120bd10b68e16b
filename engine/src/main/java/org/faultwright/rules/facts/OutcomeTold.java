package org.faultwright.rules.facts;

import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.StepId;

/**
 * How a step came out, as told.
 *
 * @param alwaysTheSame whether a repeat must come out the same while nothing changes
 * @param proves the complaint whose function the step proves
 * @param lost whether it says that this function is lost
 */
public record OutcomeTold(
    FactId id,
    Topic topic,
    Set<CauseId> ancestors,
    int epoch,
    StepId step,
    OutcomeId outcome,
    Set<BenchState> needs,
    boolean alwaysTheSame,
    Optional<ComplaintId> proves,
    boolean lost)
    implements Observed {}
