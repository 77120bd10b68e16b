package org.faultwright.pack;

import java.util.Map;

/**
 * An intermediate event, made of causes and other events.
 *
 * <p>{@code E = g(X1 & U1, ..., Xn & Un) or L} with strength bits U and an otherwise-bit L,
 * independent and drawn once per case.
 *
 * @param combination g
 * @param inputs the inputs, each with its strength P(U)
 * @param otherwise P(L), default 0
 */
public record Event(
    EventId id,
    String title,
    Combination combination,
    Map<NodeId, Chance> inputs,
    Chance otherwise) {

  /** Copies the inputs, keeping their order. */
  public Event {
    inputs = Ordered.copy(inputs);
  }

  /** How the inputs of an event combine. */
  public sealed interface Combination {

    /** At least one input acts. */
    record Any() implements Combination {}

    /** Every input acts. */
    record All() implements Combination {}

    /**
     * At least {@code k} inputs act.
     *
     * @param k from 1
     */
    record AtLeast(int k) implements Combination {}

    /** No input acts. */
    record None() implements Combination {}
  }
}
