package org.faultwright.rules.facts;

import org.faultwright.casefile.FactId;

/**
 * The latest word of a function test about the device as it is now.
 *
 * @param fact the outcome
 * @param lost whether the function is lost
 * @param closedThen whether the device was closed
 * @param afterAttempt whether an attempt that touches the function came before it
 */
public record Proof(FactId fact, boolean lost, boolean closedThen, boolean afterAttempt) {}
