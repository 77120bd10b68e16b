package org.faultwright.measurement.knowngood;

import java.util.List;
import java.util.Optional;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.ReadingValue;

/**
 * What one pin read on known-good boards.
 *
 * @param id the name of the point in a pack: lower-case letters, digits and single hyphens
 * @param pin as the socket is seen, where it is stated
 * @param net where it is stated
 * @param step of the display in SI units, above 0: the last digit that is written
 * @param side where its reference is to have limits
 * @param readings one for each board on which the pin was read; may be empty
 */
public record PinReadings(
    String id,
    Optional<String> pin,
    Optional<String> net,
    Dimension dimension,
    double step,
    Side side,
    List<OnBoard> readings) {

  /** Checks the kinds of the readings. */
  public PinReadings {
    readings = List.copyOf(readings);
    if (!(step > 0) || Double.isInfinite(step)) {
      throw new IllegalArgumentException("step must be finite and above 0: " + step);
    }
    for (OnBoard reading : readings) {
      if (reading.value().kind() != dimension) {
        throw new IllegalArgumentException(
            "expected a %s, not a %s: %s"
                .formatted(dimension.word(), reading.value().kind().word(), reading.value()));
      }
    }
  }

  /** What the pin read on one board. */
  public record OnBoard(String board, ReadingValue value) {}
}
