package org.faultwright.measurement.knowngood;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.ReadingValue.Measured;
import org.faultwright.measurement.Reference;
import org.faultwright.measurement.knowngood.PinReference.AlwaysOverRange;
import org.faultwright.measurement.knowngood.PinReference.AsNormal;
import org.faultwright.measurement.knowngood.PinReference.ByPractice;
import org.faultwright.measurement.knowngood.PinReference.DistributionFreely;
import org.faultwright.measurement.knowngood.PinReference.Missing;
import org.faultwright.measurement.knowngood.PinReference.Outlier;
import org.faultwright.measurement.knowngood.PinReference.Reason;
import org.faultwright.measurement.knowngood.PinReference.Result;

/**
 * Makes references of readings on known-good boards.
 *
 * <p>From {@value #FEWEST} values on: a normal tolerance interval, or one between sorted readings
 * where a test says that they are not normal. Below: the tolerance of practice. Over-range is a
 * state of its own: no mean is taken over it, and a pin that reads it on some boards only has no
 * reference. The order of boards does not matter.
 *
 * <p>Not thread-safe; keeps the factors that it has worked out.
 */
public final class KnownGood {

  /** Fewest values of which a deviation is taken. */
  public static final int FEWEST = 4;

  /** Common practice, no source. */
  private static final double PRACTICE_PART = 0.1;

  /**
   * Least tolerance of a voltage and thus of a diode value, in volts. Common practice, no source.
   */
  private static final double PRACTICE_VOLTS = 0.03;

  /** Least tolerance of a resistance, in ohms: leads add 0.1 to 0.5. Common practice, no source. */
  private static final double PRACTICE_OHMS = 0.5;

  /** Least tolerance of another quantity, in steps of the display. */
  private static final double PRACTICE_STEPS = 10;

  private final ReferencePolicy policy;
  private final Map<Integer, Double> twoSided = new HashMap<>();
  private final Map<Integer, Double> oneSided = new HashMap<>();

  /** Makes references that hold to a policy. */
  public KnownGood(ReferencePolicy policy) {
    this.policy = policy;
  }

  /** The references of pins, in the same order. */
  public List<PinReference> references(List<PinReadings> pins) {
    return pins.stream().map(this::reference).toList();
  }

  /** The reference of a pin. */
  public PinReference reference(PinReadings pin) {
    double[] values =
        pin.readings().stream()
            .filter(r -> r.value() instanceof Measured)
            .mapToDouble(r -> ((Measured) r.value()).quantity().si())
            .toArray();
    int over = pin.readings().size() - values.length;
    if (values.length == 0) {
      Result result =
          over == 0
              ? new Missing(Reason.NOT_READ)
              : new AlwaysOverRange(new Reference.OverRange(pin.dimension()));
      return new PinReference(
          pin,
          0,
          over,
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          List.of(),
          new Normality.TooFew(),
          result);
    }
    Sample all = new Sample(values, pin.step());
    List<Double> outlying = Grubbs.outliers(all, policy.pSignificance());
    Sample used = policy.dropsOutliers() ? without(all, outlying) : all;
    Normality normality = AndersonDarling.test(used);
    return new PinReference(
        pin,
        used.n(),
        over,
        OptionalDouble.of(used.mean()),
        used.n() < 2 ? OptionalDouble.empty() : OptionalDouble.of(used.deviation()),
        named(outlying, pin),
        normality,
        over > 0 ? new Missing(Reason.SOMETIMES_OVER_RANGE) : result(used, normality, pin));
  }

  private static Sample without(Sample sample, List<Double> outlying) {
    Sample left = sample;
    for (double value : outlying) {
      left = left.without(value == left.least() ? 0 : left.n() - 1);
    }
    return left;
  }

  /** The boards behind the outlying values, in the order of the readings. */
  private List<Outlier> named(List<Double> outlying, PinReadings pin) {
    List<Double> left = new ArrayList<>(outlying);
    return pin.readings().stream()
        .filter(r -> r.value() instanceof Measured m && left.remove(m.quantity().si()))
        .map(r -> new Outlier(r, policy.dropsOutliers()))
        .toList();
  }

  private Result result(Sample sample, Normality normality, PinReadings pin) {
    if (sample.n() < FEWEST) {
      return byPractice(sample, pin);
    }
    boolean normal = !(normality instanceof Normality.Tested t && t.p() < policy.pSignificance());
    return normal ? asNormal(sample, pin) : distributionFreely(sample, pin);
  }

  private Result asNormal(Sample sample, PinReadings pin) {
    double factor = factor(sample.n(), pin.side());
    return around(sample.mean(), factor * sample.cautiousDeviation(), pin)
        .<Result>map(reference -> new AsNormal(reference, factor))
        .orElse(new Missing(Reason.TOO_WIDE));
  }

  /** A value with its tolerance or the limit that is wanted of it, if that says something. */
  private static Optional<Reference> around(double mean, double tolerance, PinReadings pin) {
    if (pin.side() != Side.BOTH) {
      return within(mean - tolerance, mean + tolerance, pin).map(w -> w);
    }
    return tolerance > pin.dimension().most()
        ? Optional.empty()
        : Optional.of(new Reference.Around(pin.dimension(), mean, tolerance));
  }

  /** The limits that are wanted of two, if they say something. */
  private static Optional<Reference.Within> within(double low, double high, PinReadings pin) {
    Dimension dimension = pin.dimension();
    boolean lower = pin.side() != Side.AT_MOST;
    boolean upper = pin.side() != Side.AT_LEAST;
    boolean saysNothing =
        pin.side() == Side.AT_LEAST && low <= 0 && dimension != Dimension.TEMPERATURE;
    if (saysNothing || lower && low < dimension.least() || upper && high > dimension.most()) {
      return Optional.empty();
    }
    return Optional.of(
        new Reference.Within(
            dimension,
            lower ? OptionalDouble.of(low) : OptionalDouble.empty(),
            upper ? OptionalDouble.of(high) : OptionalDouble.empty()));
  }

  private Result distributionFreely(Sample sample, PinReadings pin) {
    int n = sample.n();
    int sides = pin.side().limits();
    int rank = DistributionFree.rank(n, sides, policy.pCoverage(), policy.pConfidence());
    double pHeld = DistributionFree.pCoverage(n, sides, policy.pConfidence());
    double half = sample.step() / 2;
    return within(sample.sorted()[rank - 1] - half, sample.sorted()[n - rank] + half, pin)
        .<Result>map(
            reference ->
                new DistributionFreely(
                    reference,
                    rank,
                    Math.min(policy.pCoverage(), pHeld),
                    DistributionFree.boardsNeeded(sides, policy.pCoverage(), policy.pConfidence())))
        .orElse(new Missing(Reason.TOO_WIDE));
  }

  private Result byPractice(Sample sample, PinReadings pin) {
    double mean = sample.mean();
    double least =
        switch (pin.dimension()) {
          case VOLTAGE -> PRACTICE_VOLTS;
          case RESISTANCE -> PRACTICE_OHMS;
          default -> PRACTICE_STEPS * sample.step();
        };
    double tolerance = Math.max(PRACTICE_PART * Math.abs(mean), least);
    if (sample.most() - mean > tolerance || mean - sample.least() > tolerance) {
      return new Missing(Reason.BOARDS_DISAGREE);
    }
    OptionalDouble factor =
        sample.n() < 2 ? OptionalDouble.empty() : OptionalDouble.of(factor(sample.n(), pin.side()));
    return around(mean, tolerance, pin)
        .<Result>map(reference -> new ByPractice(reference, factor))
        .orElse(new Missing(Reason.TOO_WIDE));
  }

  private double factor(int n, Side side) {
    double p = policy.pCoverage();
    return side == Side.BOTH
        ? twoSided.computeIfAbsent(n, k -> ToleranceFactor.twoSided(k, p, policy.pConfidence()))
        : oneSided.computeIfAbsent(n, k -> ToleranceFactor.oneSided(k, p, policy.pConfidence()));
  }
}
