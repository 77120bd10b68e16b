package org.faultwright.oracle;

import java.util.SplittableRandom;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.Point;

/** What a simulated instrument shows. */
public interface Meter {

  /** For packs without points. */
  Meter NONE =
      new Meter() {
        @Override
        public double trueValue(Point point, int state, SplittableRandom random) {
          throw new IllegalStateException("no meter for " + point.id());
        }

        @Override
        public ReadingValue read(Point point, double trueValue, SplittableRandom random) {
          throw new IllegalStateException("no meter for " + point.id());
        }
      };

  /**
   * The true value of a point, drawn once and kept until an attempt touches the point.
   *
   * @param state 0 for normal, or the place of the state among those of the point, from 1
   */
  double trueValue(Point point, int state, SplittableRandom random);

  /**
   * The true values of two points that are compared, both normal.
   *
   * @param differ whether they differ
   */
  default double[] trueValues(Point first, Point second, boolean differ, SplittableRandom random) {
    throw new IllegalStateException("no comparison of " + first.id());
  }

  /** One reading of a true value. */
  ReadingValue read(Point point, double trueValue, SplittableRandom random);
}
