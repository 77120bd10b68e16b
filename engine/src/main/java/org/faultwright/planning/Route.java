package org.faultwright.planning;

import java.time.Duration;
import java.util.List;
import org.faultwright.pack.BenchState;

/** How to bring the bench from one state to another. */
public sealed interface Route {

  /**
   * The cheapest way.
   *
   * @param cost in the shop's currency, from 0
   * @param hands time with hands on the device
   * @param waiting time spent waiting
   * @param consumables cost of what is used up; part of {@code cost}
   * @param turns the switches to turn, in order, each with the position that it comes to; empty
   *     where the bench is ready
   */
  record Way(
      double cost, Duration hands, Duration waiting, double consumables, List<BenchState> turns)
      implements Route {

    /** Copies the list. */
    public Way {
      turns = List.copyOf(turns);
    }
  }

  /** No sequence of permitted turns leads there. */
  record Unreachable() implements Route {}
}
