package org.faultwright.faulttree;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.faultwright.pack.Ordered;

/**
 * The minimal cut sets of a top event: the smallest sets of basic events that, happening together
 * and no other with them, make the top event happen. Of a tree that is not coherent these are the
 * positive parts of its solutions; its {@link PrimeImplicants} say the whole.
 *
 * @param count how many there are; exact up to 2^53. One empty set: the top event is certain; none:
 *     it is impossible
 * @param byOrder how many there are of each number of events, up to {@value #ORDERS_COUNTED}
 * @param listed the most likely within the limits, most likely first
 * @param leftOut what the limits kept from the list
 * @param impossible how many more there would be with two events of a group of which at most one
 *     happens
 * @param pSum sum of the probabilities of all, listed or not: the rare-event bound, may be above 1
 * @param minCutUpperBound 1 - prod(1 - P(cut set)) over all; empty where there are more than
 *     {@value #MOST_MULTIPLIED}
 */
public record CutSets(
    double count,
    Map<Integer, Double> byOrder,
    List<CutSet> listed,
    LeftOut leftOut,
    double impossible,
    double pSum,
    OptionalDouble minCutUpperBound)
    implements CutSetResult {

  /** Orders beyond this are not counted apart. */
  public static final int ORDERS_COUNTED = 50;

  /** Most cut sets that are multiplied one by one. */
  public static final int MOST_MULTIPLIED = 1_000_000;

  /** Copies the collections. */
  public CutSets {
    byOrder = Ordered.copy(byOrder);
    listed = List.copyOf(listed);
  }

  /**
   * One minimal cut set.
   *
   * @param events its basic events, in the order of the tree
   * @param p product of their probabilities
   */
  public record CutSet(List<EventName> events, double p) {
    /** Copies the list. */
    public CutSet {
      events = List.copyOf(events);
    }
  }

  /**
   * Cut sets that are not listed. Each is counted at the first limit that it meets, in the order of
   * the components.
   *
   * @param byOrder those with too many events
   * @param byProbability those that are too unlikely
   * @param byNumber those for which there was no room
   */
  public record LeftOut(Part byOrder, Part byProbability, Part byNumber) {

    /**
     * Some cut sets.
     *
     * @param count how many
     * @param pSum sum of their probabilities
     */
    public record Part(double count, double pSum) {

      /** None. */
      public static final Part NONE = new Part(0, 0);

      Part and(double more, double pMore) {
        return new Part(count + more, pSum + pMore);
      }
    }

    /** All together. */
    public Part all() {
      return byOrder
          .and(byProbability.count(), byProbability.pSum())
          .and(byNumber.count(), byNumber.pSum());
    }
  }
}
