package org.faultwright.oracle;

import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.Fact;
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

  /** What names the systematic error that the readings share with others of the case. */
  default Optional<Object> shares(Point point, List<Fact.ReadingTaken> readings) {
    return Optional.empty();
  }

  /** As {@link #of(Point, List)}, where that error is z times its standard deviation. */
  default double[] of(Point point, List<Fact.ReadingTaken> readings, double z) {
    return of(point, readings);
  }
}
