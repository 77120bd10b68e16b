package org.faultwright.pack;

/**
 * Harm that a step may do.
 *
 * @param cause the cause that it may bring about
 * @param chance P(it does | the cause is absent)
 * @param cost what the harm costs, in the shop's currency, beyond being a new cause
 */
public record Harm(CauseId cause, Chance chance, double cost) {}
