package org.faultwright.oracle;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.Fact;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.Point;

/** How likely readings of one point are in each of its states. */
@FunctionalInterface
public interface ReadingLikelihood {

  /** For packs without points. */
  ReadingLikelihood NONE =
      (point, readings) -> {
        throw new IllegalStateException("no likelihood for readings at " + point.id());
      };

  /**
   * P(readings | state), up to a factor that all states share.
   *
   * @param readings taken at the point while nothing touched it
   * @return for {@code normal} first, then for the states of the point in their order
   */
  double[] of(Point point, List<Fact.ReadingTaken> readings);

  /**
   * What readings of two points that are compared say on top of what each says by itself: a ratio
   * for where one of them is not normal (1), where both are normal and alike, and where both are
   * normal and differ. Empty where nothing is compared.
   *
   * @param first readings of the first point, numbers only; empty: it was not read
   * @param second of the second
   * @param z as in {@link #of(Point, List, double)}; empty where they share nothing with others
   */
  default Optional<double[]> ofPair(
      Comparison comparison, Optional<Read> first, Optional<Read> second, OptionalDouble z) {
    return Optional.empty();
  }

  /** A point with its readings. */
  record Read(Point point, List<Fact.ReadingTaken> readings) {}

  /** What names the systematic error that the readings share with others of the case. */
  default Optional<Object> shares(Point point, List<Fact.ReadingTaken> readings) {
    return Optional.empty();
  }

  /** As {@link #of(Point, List)}, where that error is z times its standard deviation. */
  default double[] of(Point point, List<Fact.ReadingTaken> readings, double z) {
    return of(point, readings);
  }
}
