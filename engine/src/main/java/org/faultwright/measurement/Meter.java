package org.faultwright.measurement;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What is known of an instrument besides its accuracy. All values in SI units; what is empty is not
 * known.
 *
 * @param diode whether it reads the drop in diode mode
 * @param testCurrent the current that it drives through what it measures, above 0
 * @param inputResistance the resistance with which it loads a voltage, above 0
 * @param leadResistance what its leads add to a resistance, from 0; empty where they are subtracted
 * @param largest the largest value it shows; beyond it shows over-range
 * @param ranges its ranges by their ends, ascending, each with its own accuracy; above the last one
 *     the accuracy is that of the instrument
 */
public record Meter(
    boolean diode,
    OptionalDouble testCurrent,
    OptionalDouble inputResistance,
    OptionalDouble leadResistance,
    Optional<Quantity> largest,
    List<Range> ranges) {

  /** Nothing known. */
  public static final Meter UNKNOWN =
      new Meter(
          false,
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          Optional.empty(),
          List.of());

  /** Checks the domain. */
  public Meter {
    positive("testCurrent", testCurrent);
    positive("inputResistance", inputResistance);
    positive("largest", largestOf(largest));
    if (leadResistance.isPresent() && !(leadResistance.getAsDouble() >= 0)) {
      throw new IllegalArgumentException(
          "leadResistance must not be negative: " + leadResistance.getAsDouble());
    }
    ranges = List.copyOf(ranges);
    for (int i = 1; i < ranges.size(); i++) {
      if (!(ranges.get(i - 1).upTo() < ranges.get(i).upTo())) {
        throw new IllegalArgumentException(
            "ranges must ascend: " + ranges.get(i - 1).upTo() + ", " + ranges.get(i).upTo());
      }
    }
  }

  private static OptionalDouble largestOf(Optional<Quantity> q) {
    return q.map(x -> OptionalDouble.of(x.si())).orElse(OptionalDouble.empty());
  }

  /** The largest value that it shows of a kind of quantity, in SI units; empty: not known. */
  public OptionalDouble largest(Dimension kind) {
    return largestOf(largest.filter(q -> q.dimension() == kind));
  }

  private static void positive(String name, OptionalDouble value) {
    if (value.isPresent() && !(value.getAsDouble() > 0)) {
      throw new IllegalArgumentException(name + " must be above 0: " + value.getAsDouble());
    }
  }

  /**
   * A range.
   *
   * @param upTo its largest value in SI units, above 0
   */
  public record Range(double upTo, Accuracy accuracy) {

    /** Checks the domain. */
    public Range {
      if (!(upTo > 0)) {
        throw new IllegalArgumentException("upTo must be above 0: " + upTo);
      }
    }
  }

  /**
   * The accuracy at a value: that of the smallest range that holds it.
   *
   * @param otherwise the accuracy where no range does
   */
  public Accuracy accuracyAt(double value, Accuracy otherwise) {
    return ranges.stream()
        .filter(r -> Math.abs(value) <= r.upTo())
        .findFirst()
        .map(Range::accuracy)
        .orElse(otherwise);
  }

  /**
   * A voltage as it was before the instrument loaded it: {@code reading * (R + source) / R}.
   *
   * @param source the resistance of what was measured, in ohms, from 0
   */
  public double unloaded(double reading, double source) {
    return inputResistance.isEmpty()
        ? reading
        : reading * (inputResistance.getAsDouble() + source) / inputResistance.getAsDouble();
  }
}
