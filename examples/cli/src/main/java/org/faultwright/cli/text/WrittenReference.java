package org.faultwright.cli.text;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.Reference;

/**
 * A reference with as many digits as it deserves, as a pack states it. What rounding takes away is
 * added to the tolerance, so that nothing that was within is left out.
 */
sealed interface WrittenReference {

  /** A value with its tolerance. */
  record Around(Quantity nominal, Quantity tolerance) implements WrittenReference {}

  /** Limits, at least one. */
  record Limits(Optional<Quantity> low, Optional<Quantity> high) implements WrittenReference {}

  /** Over-range. */
  record OverRange() implements WrittenReference {}

  /** A tolerance of more than this part of the value is no tolerance; a pack states limits. */
  double LARGEST_PART = 0.5;

  /** One limit alone is rounded as if its tolerance were this part of it: to three digits. */
  double ONE_LIMIT_TO = 0.1;

  static WrittenReference of(Reference reference) {
    if (reference instanceof Reference.Around a) {
      BigDecimal nominal = BigDecimal.valueOf(a.nominal());
      int scale = scale(a.tolerance());
      BigDecimal rounded = nominal.setScale(scale, RoundingMode.HALF_EVEN);
      BigDecimal tolerance =
          BigDecimal.valueOf(a.tolerance())
              .add(rounded.subtract(nominal).abs())
              .setScale(scale, RoundingMode.CEILING);
      boolean huge =
          tolerance.doubleValue() > LARGEST_PART * Math.abs(rounded.doubleValue())
              && a.dimension() != Dimension.TEMPERATURE;
      return huge
          ? limits(
              Optional.of(rounded.subtract(tolerance)),
              Optional.of(rounded.add(tolerance)),
              a.dimension())
          : new Around(quantity(rounded, a.dimension()), quantity(tolerance, a.dimension()));
    } else if (reference instanceof Reference.Within w) {
      OptionalDouble low = w.low();
      OptionalDouble high = w.high();
      int scale =
          low.isPresent() && high.isPresent()
              ? scale((high.getAsDouble() - low.getAsDouble()) / 2)
              : scale(ONE_LIMIT_TO * Math.abs(low.orElse(high.orElse(0))));
      return limits(
          rounded(low, scale, RoundingMode.FLOOR),
          rounded(high, scale, RoundingMode.CEILING),
          w.dimension());
    }
    return new OverRange();
  }

  private static Optional<BigDecimal> rounded(OptionalDouble si, int scale, RoundingMode mode) {
    return si.isEmpty()
        ? Optional.empty()
        : Optional.of(BigDecimal.valueOf(si.getAsDouble()).setScale(scale, mode));
  }

  /** A lower limit of what cannot be negative says nothing. */
  private static Limits limits(
      Optional<BigDecimal> low, Optional<BigDecimal> high, Dimension dimension) {
    boolean signed =
        switch (dimension) {
          case VOLTAGE, CURRENT, TEMPERATURE -> true;
          case RESISTANCE, CAPACITANCE, TIME, FREQUENCY -> false;
        };
    return new Limits(
        low.filter(l -> signed || l.signum() > 0 || high.isEmpty())
            .map(l -> quantity(l, dimension)),
        high.map(h -> quantity(h, dimension)));
  }

  private static Quantity quantity(BigDecimal si, Dimension dimension) {
    double value = si.doubleValue();
    return new Quantity(Math.max(dimension.least(), Math.min(dimension.most(), value)), dimension);
  }

  /** Digits after the point that show two digits of a number. */
  private static int scale(double number) {
    return number == 0 ? 3 : 1 - (int) Math.floor(Math.log10(number));
  }

  /** Whether a reading of nothing at all would keep to it, though the pin reads something. */
  static boolean holdsZero(Reference reference) {
    return reference.dimension() != Dimension.TEMPERATURE
        && (reference instanceof Reference.Around a
            ? a.nominal() > 0 && a.nominal() - a.tolerance() <= 0
            : reference instanceof Reference.Within w
                && w.low().isPresent()
                && w.low().getAsDouble() <= 0
                && w.high().orElse(1) > 0);
  }
}
