package org.faultwright.pack;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.measurement.Reference;

/**
 * A point where a reading is taken in a step.
 *
 * @param pin the pin as the socket is seen, where it is one
 * @param reference the known-good value
 * @param basis what the reference rests on
 * @param states the states off normal in order of dominance, each with what triggers it and where
 *     readings then lie
 * @param boards the board variants that have the point; empty: all
 */
public record Point(
    PointId id,
    String title,
    Optional<String> pin,
    Reference reference,
    Basis basis,
    List<ReadingState> states,
    Set<BoardId> boards) {

  /** Copies the collections, keeping their order. */
  public Point {
    states = List.copyOf(states);
    boards = Ordered.copy(boards);
  }

  /**
   * A state off normal.
   *
   * @param id {@code open}, {@code short}, {@code low}, {@code high}, or a name of the pack's own
   * @param triggers a noisy any, as in {@link Observation.TrueState}
   * @param lies where readings lie in this state; empty: as the measurement package says for the
   *     four common names
   */
  public record ReadingState(StateId id, Map<NodeId, Chance> triggers, Optional<Reference> lies) {

    /** Copies the triggers, keeping their order. */
    public ReadingState {
      triggers = Ordered.copy(triggers);
    }
  }
}
