package org.faultwright.rules;

/**
 * Why an advice is given.
 *
 * @param words for the technician
 */
public record Reason(Why why, String words) {

  /** The kinds of reasons. */
  public enum Why {
    /** What a hold forbids is going on. */
    ALARM,
    /** A hold is in force. */
    HELD,
    /** The device was changed and nothing proves yet that the function is back. */
    UNPROVED,
    /** The function counts only once the device is closed. */
    COUNTS_CLOSED,
    /** The function test passed. */
    PROVED,
    /** Facts do not go together. */
    CONFLICT,
    /** A reading lies on a limit. */
    ON_LIMIT,
    /** The step is worth its cost. */
    WORTH,
    /** The customer has not agreed yet. */
    CONSENT,
    /** The repair would cost more than the customer will pay. */
    CEILING,
    /** The repair is expected to cost less than any other way to end the job. */
    CHEAPEST,
    /** The cause calls for other hands. */
    OTHER_HANDS,
    /** The fault lies outside the device, or there is none. */
    NOT_THE_DEVICE,
    /** Nothing that is open is worth its cost. */
    NOTHING_LEFT,
    /** What the customer wanted is there. */
    DONE,
    /** The customer wants a price first. */
    ESTIMATE
  }
}
