package org.faultwright.rules.facts;

import org.faultwright.pack.Clash;
import org.faultwright.pack.Condition;

/**
 * A clash of the pack.
 *
 * @param order its place in the pack
 * @param says what is wrong, in words
 */
public record PackClash(int order, Condition together, String says) {

  /** The clash with the given place in the pack. */
  public static PackClash of(int order, Clash clash) {
    return new PackClash(order, new Condition.All(clash.together()), clash.says());
  }
}
