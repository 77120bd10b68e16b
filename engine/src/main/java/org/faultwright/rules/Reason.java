package org.faultwright.rules;

/**
 * Why an advice is given.
 *
 * @param words for the technician
 */
public record Reason(Why why, String words) {

  /** The kinds of reasons, the weightier first where advice of one kind is compared. */
  public enum Why {
    /** What a hold forbids is going on. */
    ALARM,
    /** A hold is in force. */
    HELD,
    /** What the customer wanted is there. */
    DONE,
    /** The customer's data are not safe yet. */
    DATA,
    /** The device was changed and nothing proves yet that the function is back. */
    UNPROVED,
    /** The function counts only once the device is closed. */
    COUNTS_CLOSED,
    /** What was checked at intake has not been checked at the end. */
    CHECK_LIST,
    /** The function test passed. */
    PROVED,
    /** It worked when the device came in, and does not now. */
    BROKEN_HERE,
    /** What is proved may not last. */
    MAY_COME_BACK,
    /** Facts do not go together. */
    CONFLICT,
    /** A reading lies on a limit. */
    ON_LIMIT,
    /** It works now, but what was wrong may only be hidden. */
    MAY_BE_HIDDEN,
    /** The test is worth its cost. */
    WORTH,
    /** The test is worth its cost, and the customer has not agreed to it yet. */
    CONSENT_TO_TEST,
    /** What would put it right can lose data that cannot be saved first, and nobody has asked. */
    RISK_TO_DATA,
    /** The customer wants a price first. */
    ESTIMATE,
    /** The fault lies outside the device, or there is none. */
    NOT_THE_DEVICE,
    /** The cause calls for other hands. */
    OTHER_HANDS,
    /** What would put it right here can lose data that cannot be saved first. */
    FOR_THE_DATA,
    /** It is expected to cost less than any other way to end the job. */
    CHEAPEST,
    /** What brings another fault about is put right before that other fault. */
    ROOT_FIRST,
    /** So it is, and the customer has not agreed to it yet. */
    CONSENT_TO_REPAIR,
    /** So it is, and it costs more than the customer will pay. */
    CEILING,
    /** Nothing that is open is worth its cost. */
    NOTHING_LEFT
  }
}
