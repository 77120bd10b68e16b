package org.faultwright.pack;

/** A warning shown beside a step. */
public record Caution(CautionId id, String text) {}
