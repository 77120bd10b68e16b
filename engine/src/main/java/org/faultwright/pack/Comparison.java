package org.faultwright.pack;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.measurement.PairModel;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.Reference;

/**
 * Two points that read alike on a good device, whatever else they read: two lines of one pair, two
 * phases of one supply. What shifts both alike is not seen by comparing them.
 *
 * @param point a point of the pack
 * @param with another one, whose reference is of the same kind
 * @param differsBy half-width, above 0: of 100 good devices about 95 differ by less
 * @param ofReference whether that is a part of the reference of {@code point}; else in SI units
 */
public record Comparison(PointId point, PointId with, double differsBy, boolean ofReference) {

  /** Where the two differ. */
  public static final OutcomeId DIFFERS = new OutcomeId("differs");

  /** Where they do not. */
  public static final OutcomeId ALIKE = new OutcomeId("alike");

  /** The state of two points of which one is off. */
  public static final StateId APART = new StateId("differs");

  /** P(called by the other name | looked at without numbers). Common practice, no source. */
  private static final double P_MISNAMED = 0.02;

  /** Checks the domain. */
  public Comparison {
    if (!(differsBy > 0) || Double.isInfinite(differsBy)) {
      throw new IllegalArgumentException("differsBy must be finite and above 0: " + differsBy);
    }
  }

  /** What comparing the two shows to the eye, without numbers. */
  public static Observation.OfStates toTheEye(Map<NodeId, Chance> pointsTo) {
    Map<StateId, Map<OutcomeId, Chance>> rows = new LinkedHashMap<>();
    rows.put(APART, row(1 - P_MISNAMED));
    rows.put(StateId.NORMAL, row(P_MISNAMED));
    return new Observation.OfStates(
        List.of(new Observation.TrueState(APART, pointsTo)), List.of(DIFFERS, ALIKE), rows);
  }

  private static Map<OutcomeId, Chance> row(double pDiffers) {
    Map<OutcomeId, Chance> row = new LinkedHashMap<>();
    row.put(DIFFERS, Chance.of(pDiffers, new Basis.CommonPractice()));
    row.put(ALIKE, Chance.of(1 - pDiffers, new Basis.CommonPractice()));
    return row;
  }

  /** Whether it is about this point. */
  public boolean isAbout(PointId one) {
    return one.equals(point) || one.equals(with);
  }

  /** The other one of the two. */
  public PointId other(PointId one) {
    return one.equals(point) ? with : point;
  }

  /**
   * What readings of the two say of whether they differ; empty where they cannot be compared.
   *
   * @param first the point of {@code point}, with its reading model
   * @param second that of {@code with}
   */
  public Optional<PairModel> model(
      Point first, ReadingModel ofFirst, Point second, ReadingModel ofSecond) {
    OptionalDouble by = halfWidth(first.reference());
    return first.reference() instanceof Reference.Around a
            && second.reference() instanceof Reference.Around b
            && a.dimension() == b.dimension()
            && by.isPresent()
            && PairModel.makesSense(a, b, by.getAsDouble())
        ? Optional.of(PairModel.of(ofFirst, a, ofSecond, b, by.getAsDouble()))
        : Optional.empty();
  }

  /** The half-width in SI units; empty where it is a part of what has no value. */
  public OptionalDouble halfWidth(Reference ofPoint) {
    if (!ofReference) {
      return OptionalDouble.of(differsBy);
    }
    return ofPoint instanceof Reference.Around a && a.nominal() != 0
        ? OptionalDouble.of(differsBy * Math.abs(a.nominal()))
        : OptionalDouble.empty();
  }
}
