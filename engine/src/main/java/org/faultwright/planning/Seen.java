package org.faultwright.planning;

import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;

/**
 * What may come out of a step, as far as planning tells it apart. Readings are told apart coarsely:
 * by the first point off normal, in the order in which they are read, and its state as classified.
 */
public sealed interface Seen {

  /** An outcome. */
  record Shown(OutcomeId outcome) implements Seen {}

  /** The first point whose reading is classified as off normal. */
  record OffNormal(PointId point, StateId state) implements Seen {}

  /** All readings are classified as normal. */
  record AllNormal() implements Seen {}

  /** An outcome together with what was read in the same step. */
  record Both(Shown shown, Seen read) implements Seen {}
}
