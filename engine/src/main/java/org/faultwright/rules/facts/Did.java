package org.faultwright.rules.facts;

import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.StepId;

/**
 * A step carried out, as told.
 *
 * @param needs the bench positions that the step needs
 */
public record Did(FactId id, StepId step, Set<BenchState> needs) {}
