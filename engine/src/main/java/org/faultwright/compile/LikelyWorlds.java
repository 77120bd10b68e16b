package org.faultwright.compile;

import java.util.Arrays;
import java.util.List;

/**
 * The worlds of the current epoch that are likely given all evidence, in order of decreasing
 * probability.
 *
 * <p>A world gives each coordinate a bit. {@link #UNRESOLVED} says that neither the evidence nor
 * the rest of this world tells anything about the bit, so that it still has the probability that
 * the pack states, independently of all other bits, or that it can never matter again: for example
 * the strength bits of an absent cause, or, in {@link Belief#worldsAhead}, those on which nothing
 * hangs but what has been seen. Such a world stands for all worlds that resolve it. {@link
 * Coordinate.Present} and {@link Coordinate.Hidden} are always resolved. A coordinate that is not
 * listed is absent, not hidden, or unresolved.
 *
 * <p>The arrays are handed over, not copied: nobody may change them afterwards.
 *
 * @param coordinates what the bits stand for, each once
 * @param bits for each world, one bit for each coordinate: 0, 1 or {@link #UNRESOLVED}
 * @param p the probability of each world given the evidence, above 0; different worlds exclude each
 *     other, and the sum is {@code 1 - pLeftOut}
 * @param pLeftOut the probability of all worlds that are not listed, in [0, 1)
 */
public record LikelyWorlds(
    List<Coordinate> coordinates, byte[][] bits, double[] p, double pLeftOut) {

  /** The value of a bit about which nothing is known beyond what the pack states. */
  public static final byte UNRESOLVED = 2;

  /** How far the probabilities may be from their sum, and from their order, by rounding. */
  private static final double ROUNDING = 1e-9;

  /**
   * Checks lengths, order and sum.
   *
   * @throws IllegalArgumentException where one of them is not as stated, or there is no world
   */
  public LikelyWorlds {
    coordinates = List.copyOf(coordinates);
    if (bits.length == 0 || bits.length != p.length) {
      throw new IllegalArgumentException(
          "worlds must be one or more, each with its p: " + bits.length + ", " + p.length);
    }
    if (!(pLeftOut >= 0 && pLeftOut < 1)) {
      throw new IllegalArgumentException("pLeftOut must be in [0, 1): " + pLeftOut);
    }
    double sum = pLeftOut;
    for (int w = 0; w < p.length; w++) {
      if (bits[w].length != coordinates.size()) {
        throw new IllegalArgumentException(
            "world "
                + w
                + " must have a bit for each of the "
                + coordinates.size()
                + " coordinates: "
                + bits[w].length);
      }
      if (!(p[w] > 0) || w > 0 && p[w] > p[w - 1] + ROUNDING) {
        throw new IllegalArgumentException(
            "p must be above 0 and not increase: world " + w + " has " + p[w]);
      }
      sum += p[w];
    }
    if (!(Math.abs(sum - 1) <= ROUNDING)) {
      throw new IllegalArgumentException("p and pLeftOut must sum to 1: " + sum);
    }
  }

  /**
   * The likeliest of these worlds; the others count among those left out.
   *
   * @param most so many at most, at least 1
   */
  public LikelyWorlds likeliest(int most) {
    if (p.length <= most) {
      return this;
    }
    double[] few = Arrays.copyOf(p, most);
    return new LikelyWorlds(
        coordinates, Arrays.copyOf(bits, most), few, 1 - Arrays.stream(few).sum());
  }

  /** How many worlds are listed. */
  public int size() {
    return p.length;
  }
}
