package org.faultwright.faulttree;

import java.util.List;

/**
 * The prime implicants of a top event: the smallest statements "these happen and those do not" that
 * make it certain, whatever the other events do. For a coherent tree they are the minimal cut sets.
 *
 * @param count how many there are
 * @param listed the most likely, most likely first
 */
public record PrimeImplicants(double count, List<Implicant> listed) {

  /** Copies the list. */
  public PrimeImplicants {
    listed = List.copyOf(listed);
  }

  /**
   * One prime implicant.
   *
   * @param happen basic events that happen
   * @param absent basic events that do not
   * @param p probability of all that
   */
  public record Implicant(List<EventName> happen, List<EventName> absent, double p) {
    /** Copies the lists. */
    public Implicant {
      happen = List.copyOf(happen);
      absent = List.copyOf(absent);
    }
  }
}
