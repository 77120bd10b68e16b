package org.faultwright.compile;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.IntFunction;
import org.faultwright.inference.Evaluation;

/**
 * The values that the shared systematic error of an instrument may have, in units of its standard
 * deviation, each with the weight that the sum over them needs.
 *
 * <p>The sum is the trapezoidal rule. Against a function that is a product of normal distributions
 * with a combined standard deviation of s, a spacing h errs by {@code 2 exp(-2 PI^2 s^2 / h^2)}:
 * with h = {@value #SPACING} s by 3e-12. Values that cannot matter are left out.
 *
 * @see "L. N. Trefethen and J. A. C. Weideman, The exponentially convergent trapezoidal rule, SIAM
 *     Review 56, 2014, 385-458"
 */
final class OffsetGrid {

  /** Spacing as a part of the width of what is summed over. */
  private static final double SPACING = 0.85;

  /**
   * The finest spacing. Only readings without any noise of their own, right at a sharp limit, would
   * need a finer one.
   */
  private static final double FINEST = 1.0 / 64;

  /** What lies so many nepers below the most likely value is left out: 2e-15. */
  private static final double LEFT_OUT = 34;

  /** As far as an offset is ever sought. */
  static final double FARTHEST = 60;

  /** How far an offset is sought when nothing speaks for a large one. */
  static final double NEAR = 12;

  private record Node(double logP, Value value) {}

  private final List<Placed> readings;
  private final double[] scale;
  private final Evaluation rest;

  /**
   * ln of the most that the evidence can come to: as if all readings fitted as well as they can.
   */
  private final double logPAtMost;

  /** Readings with the variable of what they tell of; negative where its state is known. */
  record Placed(int variable, SetupReadings readings) {
    /** Readings of what is known to be in a state. */
    static Placed known(int state, SetupReadings readings) {
      return new Placed(-1 - state, readings);
    }

    int knownState() {
      return -1 - variable;
    }
  }

  /** Of how many points these are readings. */
  static int points(List<Placed> readings) {
    int points = 0;
    int compared = 0;
    for (Placed p : readings) {
      if (p.readings() instanceof PairReadings pair) {
        compared = Math.max(compared, pair.isOfBoth() ? 2 : 1);
      } else {
        points++;
      }
    }
    return Math.max(points, compared);
  }

  /**
   * A value of the offset.
   *
   * @param logWeight ln of its weight, with the likelihoods of known states
   * @param likelihoods for each of the readings P(readings | state, z), in units of {@link
   *     SetupReadings#most()}
   */
  record Value(double z, double logWeight, double[][] likelihoods) {}

  private OffsetGrid(Evaluation others, List<Placed> readings) {
    this.readings = readings;
    scale = readings.stream().mapToDouble(p -> p.readings().most()).toArray();
    int[] open = readings.stream().mapToInt(Placed::variable).filter(v -> v >= 0).toArray();
    rest = others.given(open).evaluation();
    logPAtMost = rest.upward();
  }

  /**
   * The grid for readings that share an offset.
   *
   * @param others all other evidence, after its upward pass, and possible
   */
  static List<Value> of(Evaluation others, List<Placed> readings) {
    return new OffsetGrid(others, readings).values(NEAR);
  }

  private List<Value> values(double reach) {
    double spacing = spacing(reach);
    Map<Integer, Node> nodes = new TreeMap<>();
    IntFunction<Node> at = k -> nodes.computeIfAbsent(k, i -> node(i * spacing, spacing));
    double best = climb(at, (int) Math.ceil(1 / spacing));
    for (int side : new int[] {1, -1}) {
      int past = 0;
      for (int k = 0; ; k++) {
        double z = k * spacing;
        // beyond this no value can matter, however well it fits
        if (z * z / 2 > LEFT_OUT + logPAtMost - best || z > FARTHEST) {
          break;
        }
        if (z > reach && spacing(2 * reach) < spacing) {
          return values(2 * reach);
        }
        double logP = at.apply(side * k).logP();
        best = Math.max(best, logP);
        // a bound costs as much as a value: it is looked at ever more seldom
        if (logP <= best - LEFT_OUT
            && Integer.bitCount(++past) == 1
            && logMostFrom(side * z, side, spacing) <= best - LEFT_OUT) {
          break;
        }
      }
    }
    double least = best - LEFT_OUT;
    return nodes.values().stream().filter(n -> n.logP() > least).map(Node::value).toList();
  }

  /** Uphill from no offset to a likely one: the sooner one is known, the more is left out. */
  private static double climb(IntFunction<Node> at, int stride) {
    int top = 0;
    for (int step = stride; step > 0; step /= 2) {
      for (int side : new int[] {1, -1}) {
        while (at.apply(top + side * step).logP() > at.apply(top).logP()) {
          top += side * step;
        }
      }
    }
    return at.apply(top).logP();
  }

  /**
   * ln of the most that any offset from z on can come to: as if the readings had any of them, each
   * reading in each state the one that fits it best.
   */
  private double logMostFrom(double z, int side, double spacing) {
    double logWeight = logWeight(z, spacing);
    for (int i = 0; i < scale.length; i++) {
      Placed p = readings.get(i);
      double[] most = p.readings().mostFrom(z, side);
      for (int s = 0; s < most.length && p.variable() >= 0; s++) {
        rest.setWeight(p.variable(), s, most[s] / scale[i]);
      }
      if (p.variable() < 0) {
        logWeight += Math.log(most[p.knownState()] / scale[i]);
      }
    }
    return logWeight + rest.upward();
  }

  private static double logWeight(double z, double spacing) {
    return Math.log(spacing / Math.sqrt(2 * Math.PI)) - z * z / 2;
  }

  private double spacing(double reach) {
    double precision = 1; // that of the offset itself
    for (Placed p : readings) {
      double finest = p.readings().finest(reach);
      precision += 1 / (finest * finest);
    }
    return Math.max(FINEST, SPACING / Math.sqrt(precision));
  }

  private Node node(double z, double spacing) {
    double logWeight = logWeight(z, spacing);
    double[][] likelihoods = new double[readings.size()][];
    for (int i = 0; i < likelihoods.length; i++) {
      Placed p = readings.get(i);
      double[] of = p.readings().likelihood(z);
      for (int s = 0; s < of.length; s++) {
        of[s] /= scale[i];
        if (p.variable() >= 0) {
          rest.setWeight(p.variable(), s, of[s]);
        }
      }
      if (p.variable() < 0) {
        logWeight += Math.log(of[p.knownState()]);
      }
      likelihoods[i] = of;
    }
    return new Node(logWeight + rest.upward(), new Value(z, logWeight, likelihoods));
  }
}
