package org.faultwright.rules.facts;

import org.faultwright.pack.CauseId;
import org.faultwright.pack.StepId;

/**
 * A look for a cause that the last attempt may only have hidden.
 *
 * @param step a step that looks at the cause
 * @param worth what a comeback would cost, as likely as the cause is still there, with the cost of
 *     the look taken off
 */
public record Inspection(StepId step, CauseId cause, double worth) {}
