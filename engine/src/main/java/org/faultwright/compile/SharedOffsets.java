package org.faultwright.compile;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.inference.Evaluation;
import org.faultwright.inference.Mixture;

/**
 * The systematic error of one setup as summed over: for each component of the mixture its value.
 *
 * @param z for each component, in units of the standard deviation
 */
record SharedOffsets(SharedSetup setup, int points, double[] z) {

  /**
   * As many components a mixture may have. Where several instruments together would need more,
   * those that fewest points share are summed over at each point instead.
   */
  private static final int MOST_COMPONENTS = 4096;

  private record Axis(
      SharedSetup setup, List<OffsetGrid.Placed> readings, List<OffsetGrid.Value> values) {}

  /** What the evidence says of it, after the mixture's upward passes. */
  SharedOffset given(Mixture mixture) {
    double mean = 0;
    for (int k = 0; k < z.length; k++) {
      mean += mixture.p(k) * z[k];
    }
    double variance = 0;
    for (int k = 0; k < z.length; k++) {
      variance += mixture.p(k) * (z[k] - mean) * (z[k] - mean);
    }
    return new SharedOffset(setup, points, mean, Math.sqrt(variance));
  }

  /** Enters readings that share systematic errors. */
  static Evidence.Entered sumOver(
      Evaluation others, Map<SharedSetup, List<OffsetGrid.Placed>> sharing) {
    if (sharing.isEmpty() || others.upward() == Double.NEGATIVE_INFINITY) {
      return new Evidence.Entered(Mixture.of(others), List.of());
    }
    List<Axis> axes = new ArrayList<>();
    sharing.forEach((setup, readings) -> axes.add(axis(others, setup, readings, sharing)));
    while (axes.stream().mapToDouble(a -> a.values().size()).reduce(1, (a, b) -> a * b)
            > MOST_COMPONENTS
        && axes.size() > 1) {
      Axis fewest = axes.stream().min(Comparator.comparingInt(a -> a.readings().size())).get();
      axes.remove(fewest);
      fewest.readings().forEach(p -> alone(others, p));
    }
    return product(others, axes);
  }

  /** The grid of one setup; the other setups are summed over at each point meanwhile. */
  private static Axis axis(
      Evaluation others,
      SharedSetup setup,
      List<OffsetGrid.Placed> readings,
      Map<SharedSetup, List<OffsetGrid.Placed>> sharing) {
    Map<Integer, double[]> before = new LinkedHashMap<>();
    sharing.forEach(
        (other, theirs) -> {
          if (!other.equals(setup)) {
            for (OffsetGrid.Placed p : theirs) {
              if (p.variable() >= 0) {
                before.computeIfAbsent(p.variable(), v -> weights(others, v));
                others.weigh(p.variable(), p.readings().ofTheirOwn());
              }
            }
          }
        });
    others.upward();
    Axis axis = new Axis(setup, readings, OffsetGrid.of(others, readings));
    before.forEach(
        (v, weights) -> {
          for (int s = 0; s < weights.length; s++) {
            others.setWeight(v, s, weights[s]);
          }
        });
    return axis;
  }

  private static double[] weights(Evaluation evaluation, int variable) {
    double[] weights = new double[evaluation.states(variable)];
    for (int s = 0; s < weights.length; s++) {
      weights[s] = evaluation.weight(variable, s);
    }
    return weights;
  }

  private static void alone(Evaluation others, OffsetGrid.Placed p) {
    double[] likelihood = p.readings().ofTheirOwn();
    if (p.variable() < 0) {
      others.weighAll(likelihood[p.knownState()]);
    } else {
      others.weigh(p.variable(), likelihood);
    }
  }

  private static Evidence.Entered product(Evaluation others, List<Axis> axes) {
    int components = 1;
    List<Integer> open = new ArrayList<>();
    for (Axis axis : axes) {
      components *= axis.values().size();
      for (OffsetGrid.Placed p : axis.readings()) {
        others.weighAll(p.readings().most());
        if (p.variable() >= 0) {
          open.add(p.variable());
        }
      }
    }
    double[] logWeights = new double[components];
    double[][][] likelihoods = new double[components][open.size()][];
    List<SharedOffsets> offsets = new ArrayList<>();
    int stride = 1;
    int from = 0;
    for (Axis axis : axes) {
      double[] z = new double[components];
      int next = from;
      for (int k = 0; k < components; k++) {
        OffsetGrid.Value value = axis.values().get(k / stride % axis.values().size());
        z[k] = value.z();
        logWeights[k] += value.logWeight();
        next = from;
        for (int i = 0; i < axis.readings().size(); i++) {
          if (axis.readings().get(i).variable() >= 0) {
            likelihoods[k][next++] = value.likelihoods()[i];
          }
        }
      }
      offsets.add(new SharedOffsets(axis.setup(), OffsetGrid.points(axis.readings()), z));
      stride *= axis.values().size();
      from = next;
    }
    int[] variables = open.stream().mapToInt(Integer::intValue).toArray();
    return new Evidence.Entered(new Mixture(others, variables, logWeights, likelihoods), offsets);
  }
}
