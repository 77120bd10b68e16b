package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.casefile.Fact;
import org.faultwright.oracle.Evidence.ReadingsOf;

/**
 * Readings of points whose setup has one systematic error {@code b = z u_sys}, z drawn once in a
 * case from a standard normal distribution: a plain sum over many values of z.
 */
final class SharedReadings {

  /** The sum runs over z from minus to plus this, in steps of {@link #STEP}. */
  private static final double FARTHEST = 14;

  private static final double STEP = 1.0 / 64;
  private static final int VALUES = (int) (2 * FARTHEST / STEP) + 1;

  private final List<ReadingsOf> points = new ArrayList<>();

  /** For each point, each value of z and each state: P(readings | state, z). */
  private final List<double[][]> p = new ArrayList<>();

  private final Map<List<Integer>, Double> known = new HashMap<>();

  private SharedReadings() {}

  /** The readings, those together that share an error. */
  static List<SharedReadings> of(
      Map<ReadingsOf, List<Fact.ReadingTaken>> readings, ReadingLikelihood likelihood) {
    Map<Object, SharedReadings> groups = new LinkedHashMap<>();
    readings.forEach(
        (of, taken) -> {
          Optional<Object> shares = likelihood.shares(of.point(), taken);
          groups
              .computeIfAbsent(shares.orElse(of), k -> new SharedReadings())
              .add(of, taken, likelihood, shares.isPresent());
        });
    return List.copyOf(groups.values());
  }

  private void add(
      ReadingsOf of, List<Fact.ReadingTaken> taken, ReadingLikelihood likelihood, boolean moves) {
    points.add(of);
    double[][] values = new double[VALUES][];
    for (int k = 0; k < VALUES; k++) {
      values[k] =
          k > 0 && !moves
              ? values[0]
              : likelihood.of(of.point(), taken, moves ? -FARTHEST + k * STEP : 0);
    }
    p.add(values);
  }

  List<ReadingsOf> points() {
    return points;
  }

  /** P(readings | these states of the points). */
  double p(List<Integer> states) {
    return known.computeIfAbsent(states, this::sum);
  }

  private double sum(List<Integer> states) {
    double sum = 0;
    for (int k = 0; k < VALUES; k++) {
      double z = -FARTHEST + k * STEP;
      double product = STEP * Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
      for (int i = 0; i < states.size(); i++) {
        product *= p.get(i)[k][states.get(i)];
      }
      sum += product;
    }
    return sum;
  }
}
