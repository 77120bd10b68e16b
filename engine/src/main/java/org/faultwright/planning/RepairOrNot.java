package org.faultwright.planning;

import java.util.OptionalDouble;

/**
 * Whether a repair is worth it, and from which value of the device on. Defined in {@code
 * policies.md}. Immutable.
 *
 * @param turning where the answer turns
 * @param deviceValue what a working device is worth, where that is stated
 * @param expectedCost of the plan at the stated value, what is lost with the device included; where
 *     no value is stated, with sending on as the only other way out
 * @param returnedAtOnce what it would cost to give the device back as it is, what is lost with it
 *     included; empty where its value is not stated
 * @param quote what the customer can be told
 */
public record RepairOrNot(
    Turning turning,
    OptionalDouble deviceValue,
    double expectedCost,
    OptionalDouble returnedAtOnce,
    Quote quote) {

  /** Where the answer turns. Money is in the shop's currency. */
  public sealed interface Turning {

    /**
     * A repair is worth trying from this value of the device on.
     *
     * @param isExact whether it is not worth it below; else a better plan may be worth it there
     */
    record From(double deviceValue, boolean isExact) implements Turning {}

    /**
     * A repair is worth trying whatever the device is worth: the data pay for it, or it costs
     * nothing.
     */
    record Always() implements Turning {}

    /**
     * Nothing that could be done here pays at any value.
     *
     * @param sendOnFrom from this value of the device on sending it on costs less than returning it
     * @param isExact whether that is certain; else a better plan may find something that pays
     */
    record Never(double sendOnFrom, boolean isExact) implements Turning {}
  }

  /** What to do, as far as money goes. */
  public enum Verdict {
    /** Follow the plan. */
    REPAIR,
    /** Send it on at once. */
    SEND_ON,
    /** Give it back as it is. */
    RETURN,
    /** The value of the device is not stated. */
    NOT_STATED
  }

  /** The answer at the stated value. */
  public Verdict verdict() {
    if (turning instanceof Turning.Always) {
      return Verdict.REPAIR;
    } else if (deviceValue.isEmpty()) {
      return Verdict.NOT_STATED;
    } else if (turning instanceof Turning.From from) {
      return deviceValue.getAsDouble() >= from.deviceValue() ? Verdict.REPAIR : Verdict.RETURN;
    }
    Turning.Never never = (Turning.Never) turning;
    return deviceValue.getAsDouble() > never.sendOnFrom() ? Verdict.SEND_ON : Verdict.RETURN;
  }
}
