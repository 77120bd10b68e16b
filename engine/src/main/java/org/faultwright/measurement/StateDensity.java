package org.faultwright.measurement;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.numbers.gamma.ErfDifference;
import org.apache.commons.numbers.gamma.Erfc;

/**
 * Where the true value of a point lies in one state: with some probability beyond the range of the
 * instrument, else distributed as a mixture of boxes and bells, or log-normal. All sums with normal
 * noise have closed forms, but for the log-normal.
 */
final class StateDensity {

  private static final double SQRT_2 = Math.sqrt(2);
  private static final double SQRT_2_PI = Math.sqrt(2 * Math.PI);

  /** Normal noise reaches no farther than this many standard deviations: 2e-17 lies beyond. */
  private static final double REACH = 8.5;

  /** Beyond this many standard deviations a normal tail, 4e-23, is lost beside the floor. */
  private static final double FAR = 9.8;

  /** A part of the mixture; the weights of the parts of a density sum to 1 - pOver. */
  private sealed interface Part {
    double weight();

    double pdf(double y, double noise);

    double cdf(double y, double noise);

    /** An upper bound of the density. */
    double peak(double noise);

    /** An upper bound of the density up to y (side 1), or from y on (side -1). */
    double most(double y, int side, double noise);

    /** See {@link StateDensity#finest}. */
    double finest(double y, double reach, double noise);

    /** Adds values between which the sum with the noise changes little. */
    void marks(double noise, List<Double> into);
  }

  /** Uniform between two ends, plus normal noise of its own; one of the ends is the limit. */
  private record Box(double weight, double low, double high, double blur, double limit)
      implements Part {
    @Override
    public double pdf(double y, double noise) {
      double u = root(blur, noise);
      if (u == 0) {
        double inside = y > low && y < high ? 1 : y == low || y == high ? 0.5 : 0;
        return inside / (high - low);
      }
      double fromHigh = (y - high) / u;
      double fromLow = (y - low) / u;
      if (fromLow < -FAR || fromHigh > FAR) {
        return 0;
      }
      if (fromLow > FAR && fromHigh < -FAR) {
        return 1 / (high - low);
      }
      return ErfDifference.value(fromHigh / SQRT_2, fromLow / SQRT_2) / (2 * (high - low));
    }

    @Override
    public double cdf(double y, double noise) {
      double u = root(blur, noise);
      double area =
          u == 0
              ? Math.max(0, y - low) - Math.max(0, y - high)
              : u * (meanExcess((y - low) / u) - meanExcess((y - high) / u));
      return Math.max(0, Math.min(1, area / (high - low)));
    }

    @Override
    public double peak(double noise) {
      return 1 / (high - low);
    }

    @Override
    public double most(double y, int side, double noise) {
      double middle = (low + high) / 2;
      return side > 0 == middle < y ? peak(noise) : pdf(y, noise);
    }

    @Override
    public double finest(double y, double reach, double noise) {
      double u = root(blur, noise);
      double within = reach + FAR * u;
      return Math.abs(y - low) < within || Math.abs(y - high) < within
          ? u
          : Double.POSITIVE_INFINITY;
    }

    @Override
    public void marks(double noise, List<Double> into) {
      double u = root(blur, noise);
      for (double end : new double[] {low, high}) {
        for (double k = -REACH; k <= REACH; k += 0.5) {
          into.add(end + k * u);
        }
      }
      for (int i = 1; i < 8; i++) {
        into.add(low + (high - low) * i / 8);
      }
    }
  }

  /** Normal. */
  private record Bell(double weight, double mean, double sd) implements Part {
    @Override
    public double pdf(double y, double noise) {
      double u = root(sd, noise);
      double z = (y - mean) / u;
      return Math.exp(-z * z / 2) / (u * SQRT_2_PI);
    }

    @Override
    public double cdf(double y, double noise) {
      return phi((y - mean) / root(sd, noise));
    }

    @Override
    public double peak(double noise) {
      return 1 / (root(sd, noise) * SQRT_2_PI);
    }

    @Override
    public double most(double y, int side, double noise) {
      return pdf(nearest(mean, y, side), noise);
    }

    @Override
    public double finest(double y, double reach, double noise) {
      double u = root(sd, noise);
      return Math.abs(y - mean) < reach + FAR * u ? u : Double.POSITIVE_INFINITY;
    }

    @Override
    public void marks(double noise, List<Double> into) {
      double u = root(sd, noise);
      for (double k = -REACH; k <= REACH; k += 0.25) {
        into.add(mean + k * u);
      }
    }
  }

  /**
   * Log-normal. With noise u it has no closed form: the trapezoidal rule over the logarithm, in
   * steps of {@value #STEP} of the narrower of the two, errs by less than 1e-9 of the density where
   * that matters (held to a plain sum by a property).
   *
   * @param mu mean of the logarithm
   * @param s its standard deviation, above 0
   */
  private record LogBell(double weight, double mu, double s) implements Part {
    private static final double STEP = 0.35;
    private static final int MOST_STEPS = 20_000;

    @Override
    public double pdf(double y, double noise) {
      if (noise == 0) {
        return y > 0 ? phiDensity((Math.log(y) - mu) / s) / (y * s) : 0;
      }
      double far = y + FAR * noise;
      double least = y - FAR * noise;
      double to = far > 0 ? Math.min(REACH, (Math.log(far) - mu) / s) : -REACH;
      double from = least > 0 ? Math.max(-REACH, (Math.log(least) - mu) / s) : -REACH;
      if (!(from < to)) {
        return 0;
      }
      double largest = Math.exp(mu + s * to);
      int steps = steps(to - from, STEP * Math.min(1, noise / (s * largest)));
      double step = (to - from) / steps;
      double sum = 0;
      for (int i = 0; i <= steps; i++) {
        double t = from + i * step;
        double z = (y - Math.exp(mu + s * t)) / noise;
        double end = i == 0 || i == steps ? 0.5 : 1;
        sum += end * Math.exp(-(t * t + z * z) / 2);
      }
      return sum * step / (2 * Math.PI * noise);
    }

    @Override
    public double cdf(double y, double noise) {
      if (noise == 0) {
        return y > 0 ? phi((Math.log(y) - mu) / s) : 0;
      }
      double middle = Math.exp(mu);
      boolean isNoiseNarrow = noise < s * middle / 8;
      double finest = isNoiseNarrow ? 1.0 / 16 : STEP * Math.min(1, noise / (s * middle)) / 2;
      int steps = steps(2 * REACH, finest);
      double step = 2 * REACH / steps;
      double sum = 0;
      for (int i = 0; i <= steps; i++) {
        double t = -REACH + i * step;
        double p = isNoiseNarrow ? cdf(y - noise * t, 0) : phi((y - Math.exp(mu + s * t)) / noise);
        sum += phiDensity(t) * p;
      }
      return Math.max(0, Math.min(1, sum * step));
    }

    private static int steps(double length, double step) {
      return (int) Math.max(8, Math.min(MOST_STEPS, Math.ceil(length / step)));
    }

    @Override
    public double peak(double noise) {
      return Math.exp(s * s / 2 - mu) / (s * SQRT_2_PI);
    }

    @Override
    public double most(double y, int side, double noise) {
      return peak(noise);
    }

    @Override
    public double finest(double y, double reach, double noise) {
      double within = reach + FAR * noise;
      if (y + within < 0 || y - within > Math.exp(mu + REACH * s)) {
        return Double.POSITIVE_INFINITY;
      }
      return root(noise, s * Math.max(Math.exp(mu - REACH * s), y - within));
    }

    @Override
    public void marks(double noise, List<Double> into) {
      for (double k = -REACH; k <= REACH; k += 0.25) {
        double x = Math.exp(mu + k * s);
        into.add(x);
        into.add(x + k * noise);
        into.add(k * noise);
      }
    }
  }

  private final double pOver;
  private final List<Part> parts;

  private StateDensity(double pOver, List<Part> parts) {
    this.pOver = pOver;
    this.parts = parts;
  }

  /** P(the true value is beyond the range of the instrument). */
  double pOver() {
    return pOver;
  }

  /** Density of a reading at y, not over-range, with noise of the given standard deviation. */
  double pdf(double y, double noise) {
    double sum = 0;
    double edge = Double.NaN; // boxes of one mixture mostly begin at one limit
    double blur = Double.NaN;
    double u = 0;
    double pEdge = 0;
    for (Part part : parts) {
      if (part instanceof Box box && (noise > 0 || box.blur > 0)) {
        if (box.blur != blur || box.low != edge && box.high != edge) {
          blur = box.blur;
          u = Math.sqrt(blur * blur + noise * noise);
          edge = box.limit;
          pEdge = cut(y, edge, u);
        }
        double pFar = cut(y, box.low == edge ? box.high : box.low, u);
        sum += box.weight * Math.abs(pEdge - pFar) / (box.high - box.low);
      } else {
        sum += part.weight() * part.pdf(y, noise);
      }
    }
    return sum;
  }

  /** PHI((y - edge) / u), without its far tails. */
  private static double cut(double y, double edge, double u) {
    double z = (y - edge) / u;
    return z > FAR ? 1 : z < -FAR ? 0 : phi(z);
  }

  /** An upper bound of the density of a reading, wherever it lies. */
  double peak(double noise) {
    double sum = 0;
    for (Part part : parts) {
      sum += part.weight() * part.peak(noise);
    }
    return sum;
  }

  /** An upper bound of the density of all readings up to y (side 1), or from y on (side -1). */
  double most(double y, int side, double noise) {
    double sum = 0;
    for (Part part : parts) {
      sum += part.weight() * part.most(y, side, noise);
    }
    return sum;
  }

  /** Where a density that falls from its middle both ways is largest on one side of y. */
  private static double nearest(double middle, double y, int side) {
    return side > 0 ? Math.min(middle, y) : Math.max(middle, y);
  }

  /**
   * The smallest standard deviation over which the density changes anywhere within reach of y;
   * infinite where it does not change there.
   */
  double finest(double y, double reach, double noise) {
    double finest = Double.POSITIVE_INFINITY;
    for (Part part : parts) {
      finest = Math.min(finest, part.finest(y, reach, noise));
    }
    return finest;
  }

  /** P(the reading is not over-range and at most y). */
  double cdf(double y, double noise) {
    double sum = 0;
    for (Part part : parts) {
      sum += part.weight() * part.cdf(y, noise);
    }
    return sum;
  }

  void marks(double noise, List<Double> into) {
    parts.forEach(p -> p.marks(noise, into));
  }

  /** The root of the sum of squares; nothing here is so large or small that it must be scaled. */
  private static double root(double a, double b) {
    return Math.sqrt(a * a + b * b);
  }

  private static double phiDensity(double z) {
    return Math.exp(-z * z / 2) / SQRT_2_PI;
  }

  /** P(Z at most z) for a standard normal Z. */
  static double phi(double z) {
    return 0.5 * Erfc.value(-z / SQRT_2);
  }

  /** Integral of phi up to z. */
  private static double meanExcess(double z) {
    return z * phi(z) + Math.exp(-z * z / 2) / SQRT_2_PI;
  }

  /** Collects the parts of a density. */
  static final class Mixture {
    private final double pOver;
    private double left;
    private final List<Part> parts = new ArrayList<>();

    /** Starts with the probability of over-range. */
    Mixture(double pOver) {
      this.pOver = pOver;
      this.left = 1 - pOver;
    }

    /** The whole rest, normal about a mean. */
    StateDensity bell(double mean, double sd) {
      parts.add(new Bell(left, mean, sd));
      return new StateDensity(pOver, parts);
    }

    /** The whole rest, log-normal about {@code exp(mu)}. */
    StateDensity logBell(double mu, double s) {
      parts.add(new LogBell(left, mu, s));
      return new StateDensity(pOver, parts);
    }

    /** The whole rest, uniform. */
    StateDensity box(double end, double otherEnd, double blur) {
      part(1, end, otherEnd, blur);
      return new StateDensity(pOver, parts);
    }

    /** Nothing but over-range. */
    static StateDensity overRange() {
      return new StateDensity(1, List.of());
    }

    /** A uniform part with this part of what is left. */
    Mixture part(double ofRest, double end, double otherEnd, double blur) {
      double weight = left * ofRest;
      left -= weight;
      parts.add(new Box(weight, Math.min(end, otherEnd), Math.max(end, otherEnd), blur, end));
      return this;
    }
  }
}
