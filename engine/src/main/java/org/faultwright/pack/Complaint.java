package org.faultwright.pack;

/**
 * What the customer reports; the top of a fault tree (IEC 61025, top event).
 *
 * @param title in the customer's words
 * @param event its event: function lost
 * @param reportedByMistake P(reported | function not lost), default 0
 * @param rate P(function lost) per device taken in, default {@value #DEFAULT_RATE}; used where
 *     causes state shares
 * @param countsClosed whether the function must be proved once more after closing
 */
public record Complaint(
    ComplaintId id,
    String title,
    EventId event,
    Chance reportedByMistake,
    Chance rate,
    boolean countsClosed) {

  /** P(function lost) per device taken in where the pack says nothing. */
  public static final double DEFAULT_RATE = 0.05;
}
