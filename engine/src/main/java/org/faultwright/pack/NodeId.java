package org.faultwright.pack;

/**
 * Names a node of the fault tree: a cause or an event. The two share one name space within a pack.
 */
public sealed interface NodeId extends Id permits CauseId, EventId {}
