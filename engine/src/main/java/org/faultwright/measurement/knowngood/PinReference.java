package org.faultwright.measurement.knowngood;

import java.util.List;
import java.util.OptionalDouble;
import org.faultwright.measurement.Reference;

/**
 * What the readings of a pin on known-good boards say.
 *
 * @param of the readings
 * @param used how many values the mean, the deviation and the reference rest on, without over-range
 *     and what was dropped
 * @param overRange how many boards read over-range
 * @param mean of the used values in SI units; empty where there are none
 * @param deviation standard deviation of the used values in SI units; empty for less than two
 * @param outliers readings that stand out, whether dropped or not
 * @param normality of the used values
 * @param result the reference, or why there is none
 */
public record PinReference(
    PinReadings of,
    int used,
    int overRange,
    OptionalDouble mean,
    OptionalDouble deviation,
    List<Outlier> outliers,
    Normality normality,
    Result result) {

  /** Copies the list. */
  public PinReference {
    outliers = List.copyOf(outliers);
  }

  /** A reading that stands out. */
  public record Outlier(PinReadings.OnBoard reading, boolean dropped) {}

  /** A reference, or none. */
  public sealed interface Result permits Established, Missing {}

  /** A reference, and what it is worth. */
  public sealed interface Established extends Result {

    /** The reference. */
    Reference reference();

    /** Whether it rests on counted boards; else on common practice. */
    default boolean isCounted() {
      return !(this instanceof ByPractice);
    }
  }

  /**
   * Mean and factor times deviation, as for a normal distribution.
   *
   * @param reference a value with its tolerance, or one limit
   * @param factor see {@link ToleranceFactor}
   */
  public record AsNormal(Reference reference, double factor) implements Established {}

  /**
   * Between two of the sorted readings, each widened by half a step of the display, whatever the
   * distribution.
   *
   * @param rank 1 for smallest and largest, 2 for the next ones, and so on
   * @param pCoverage the part of good boards that it holds with the wanted confidence: the part
   *     that was wanted, or less where there are too few boards for it
   * @param boardsNeeded how many it takes to hold the wanted part
   */
  public record DistributionFreely(
      Reference.Within reference, int rank, double pCoverage, int boardsNeeded)
      implements Established {}

  /**
   * From so few boards nothing follows about others: the mean with the tolerance that benches go
   * by.
   *
   * @param reference a value with its tolerance, or one limit
   * @param factor of a normal tolerance interval from so many boards; empty for one
   */
  public record ByPractice(Reference reference, OptionalDouble factor) implements Established {}

  /** Every board reads over-range. */
  public record AlwaysOverRange(Reference.OverRange reference) implements Established {}

  /** No reference. */
  public record Missing(Reason reason) implements Result {}

  /** Why there is no reference. */
  public enum Reason {
    /** The pin was read on no board. */
    NOT_READ,
    /** Over-range on some boards, and a value on others. */
    SOMETIMES_OVER_RANGE,
    /** So few boards, and they differ by more than the tolerance of practice. */
    BOARDS_DISAGREE,
    /** The limits make no sense at a bench, or say nothing, as a lower one of nothing at all. */
    TOO_WIDE
  }
}
