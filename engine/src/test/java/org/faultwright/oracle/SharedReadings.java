package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.Fact;
import org.faultwright.oracle.Evidence.Pair;
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

  private final List<Pair> pairs = new ArrayList<>();

  /** For each pair, each value of z and each state of it: the ratio on top of the points' own. */
  private final List<double[][]> ratios = new ArrayList<>();

  private final Map<List<Integer>, Double> known = new HashMap<>();

  private SharedReadings() {}

  /** The readings, those together that share an error. */
  static List<SharedReadings> of(Evidence evidence, ReadingLikelihood likelihood) {
    Map<ReadingsOf, List<Fact.ReadingTaken>> readings = evidence.readings;
    Map<ReadingsOf, Optional<Object>> shares = new LinkedHashMap<>();
    readings.forEach((of, taken) -> shares.put(of, likelihood.shares(of.point(), taken)));
    for (Pair pair : evidence.pairs()) {
      if (evidence.hasNumbers(pair.first()) && evidence.hasNumbers(pair.second())) {
        Optional<Object> one = shares.get(pair.first());
        Optional<Object> other = shares.get(pair.second());
        if (one.isPresent() && other.isPresent() && !one.equals(other)) {
          shares.put(pair.first(), Optional.empty());
          shares.put(pair.second(), Optional.empty());
        }
      }
    }
    Map<Object, SharedReadings> groups = new LinkedHashMap<>();
    readings.forEach(
        (of, taken) ->
            groups
                .computeIfAbsent(shares.get(of).orElse(of), k -> new SharedReadings())
                .add(of, taken, likelihood, shares.get(of).isPresent()));
    for (Pair pair : evidence.pairs()) {
      Optional<Object> of =
          List.of(pair.first(), pair.second()).stream()
              .filter(evidence::hasNumbers)
              .flatMap(r -> shares.get(r).stream())
              .findFirst();
      groups
          .computeIfAbsent(of.orElse(pair), k -> new SharedReadings())
          .add(pair, evidence, likelihood, of.isPresent());
    }
    return List.copyOf(groups.values());
  }

  private void add(Pair pair, Evidence evidence, ReadingLikelihood likelihood, boolean moves) {
    double[][] values = new double[VALUES][];
    for (int k = 0; k < VALUES; k++) {
      values[k] =
          k > 0 && !moves
              ? values[0]
              : likelihood
                  .ofPair(
                      pair.step().compares().orElseThrow(),
                      read(pair.first(), evidence),
                      read(pair.second(), evidence),
                      moves ? OptionalDouble.of(-FARTHEST + k * STEP) : OptionalDouble.empty())
                  .orElse(new double[] {1, 1, 1});
    }
    pairs.add(pair);
    ratios.add(values);
  }

  private static Optional<ReadingLikelihood.Read> read(ReadingsOf of, Evidence evidence) {
    return evidence.hasNumbers(of)
        ? Optional.of(new ReadingLikelihood.Read(of.point(), evidence.readings.get(of)))
        : Optional.empty();
  }

  List<Pair> pairs() {
    return pairs;
  }

  private void add(
      ReadingsOf of, List<Fact.ReadingTaken> taken, ReadingLikelihood likelihood, boolean moves) {
    points.add(of);
    double[][] values = new double[VALUES][];
    for (int k = 0; k < VALUES; k++) {
      values[k] =
          k > 0 && !moves
              ? values[0]
              : moves
                  ? likelihood.of(of.point(), taken, -FARTHEST + k * STEP)
                  : likelihood.of(of.point(), taken);
    }
    p.add(values);
  }

  List<ReadingsOf> points() {
    return points;
  }

  /** P(readings | these states of the points, and of the pairs). */
  double p(List<Integer> states, List<Integer> ofPairs) {
    List<Integer> all = new ArrayList<>(states);
    all.addAll(ofPairs);
    return known.computeIfAbsent(all, this::sum);
  }

  private double sum(List<Integer> states) {
    double sum = 0;
    for (int k = 0; k < VALUES; k++) {
      double z = -FARTHEST + k * STEP;
      double product = STEP * Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
      for (int i = 0; i < points.size(); i++) {
        product *= p.get(i)[k][states.get(i)];
      }
      for (int i = 0; i < pairs.size(); i++) {
        product *= ratios.get(i)[k][states.get(points.size() + i)];
      }
      sum += product;
    }
    return sum;
  }
}
