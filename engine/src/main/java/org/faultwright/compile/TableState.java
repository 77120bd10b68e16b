package org.faultwright.compile;

/**
 * A state of a variable of a network in plain tables.
 *
 * @param variable number of the variable
 * @param state number of the state
 */
public record TableState(int variable, int state) {}
