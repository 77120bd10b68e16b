package org.faultwright.pack;

/**
 * A switch in one of its two positions.
 *
 * @param on true for the position that the switch is named after
 */
public record BenchState(SwitchId of, boolean on) {}
