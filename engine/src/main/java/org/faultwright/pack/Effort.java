package org.faultwright.pack;

import java.time.Duration;

/**
 * Time that something takes.
 *
 * @param hands time with hands on the device
 * @param waiting time spent waiting, free for other work
 */
public record Effort(Duration hands, Duration waiting) {

  /** No time at all. */
  public static final Effort NONE = new Effort(Duration.ZERO, Duration.ZERO);

  /** Checks that no time is negative. */
  public Effort {
    if (hands.isNegative() || waiting.isNegative()) {
      throw new IllegalArgumentException("times must not be negative: " + hands + ", " + waiting);
    }
  }

  /** Minutes with hands on the device. */
  public double handsMinutes() {
    return hands.toMillis() / 60_000.0;
  }

  /** Minutes of waiting. */
  public double waitMinutes() {
    return waiting.toMillis() / 60_000.0;
  }
}
