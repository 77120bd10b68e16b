package org.faultwright.compile;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleFunction;
import org.faultwright.casefile.Told;
import org.faultwright.inference.Circuit;
import org.faultwright.inference.Evaluation;
import org.faultwright.inference.Mixture;
import org.faultwright.pack.CauseId;

/**
 * Works out a {@link Sensitivity}. P(evidence) and P(cause, evidence) are polynomials in which the
 * leaves that one number stands behind are never multiplied with one another, so that both are
 * affine in those leaves and their derivatives tell everything. With a cause held present, one
 * upward and one downward pass give the derivatives by all leaves.
 */
final class SensitivityAnalysis {

  /** Steps in which a number is moved to find the interval in which the order changes. */
  private static final int STEPS = 64;

  /**
   * A number with the leaves behind it.
   *
   * @param leaves for a prior the parameters; for others the indicators
   * @param values the values of the leaves where the number has a value
   * @param scale for each leaf what its derivative is to be multiplied by: what other facts weigh
   */
  record Parameter(
      Sensitivity.Number number,
      double value,
      List<Leaf> leaves,
      DoubleFunction<double[]> values,
      double[] scale) {}

  /** A leaf: a parameter, or the weight of a state. */
  sealed interface Leaf {

    /** A parameter of the model. */
    record OfModel(int parameter) implements Leaf {}

    /** The weight of a state. */
    record OfState(int variable, int state) implements Leaf {}
  }

  private final CompiledPack compiled;
  private final Network network;
  private final Bound.Facts facts;
  private final Mixture believed;
  private final List<Told> told;

  SensitivityAnalysis(
      CompiledPack compiled,
      Network network,
      Bound.Facts facts,
      Mixture believed,
      List<Told> told) {
    this.compiled = compiled;
    this.network = network;
    this.facts = facts;
    this.believed = believed;
    this.told = told;
  }

  Sensitivity of(CauseId cause) {
    Circuit circuit = believed.circuit().askingParameters();
    List<Parameter> parameters =
        new NumbersBehind(compiled, network, facts, told).all(circuit.evaluation());
    List<Leaf> leaves = parameters.stream().flatMap(p -> p.leaves.stream()).distinct().toList();
    Map<CauseId, double[]> of = new LinkedHashMap<>();
    network.causes.forEach(
        (c, ref) -> {
          if (ref instanceof Ref.At at) {
            of.put(
                c,
                believed.sum(circuit, at.variable(), at.state(), e -> derivatives(e, leaves, at)));
          }
        });
    double[] all = believed.sum(circuit, 0, -1, e -> derivatives(e, leaves, null));
    List<Sensitivity.Influence> influences = new ArrayList<>();
    for (Parameter p : parameters) {
      influence(p, cause, leaves, of, all).ifPresent(influences::add);
    }
    influences.sort(
        Comparator.comparingDouble(Sensitivity.Influence::margin)
            .thenComparing(i -> -Math.abs(i.slope())));
    return new Sensitivity(cause, influences);
  }

  /** First 1 (which becomes the probability itself), then the derivatives by the leaves. */
  private static double[] derivatives(Evaluation e, List<Leaf> leaves, Ref.At held) {
    double[] d = new double[leaves.size() + 1];
    d[0] = 1;
    for (int i = 1; i < d.length; i++) {
      Leaf leaf = leaves.get(i - 1);
      if (leaf instanceof Leaf.OfModel m) {
        d[i] = e.parameterDerivative(m.parameter());
      } else if (leaf instanceof Leaf.OfState s) {
        boolean ruledOut =
            held != null && s.variable() == held.variable() && s.state() != held.state();
        d[i] = ruledOut ? 0 : e.derivative(s.variable(), s.state());
      }
    }
    return d;
  }

  private Optional<Sensitivity.Influence> influence(
      Parameter p, CauseId cause, List<Leaf> leaves, Map<CauseId, double[]> of, double[] all) {
    if (!of.containsKey(cause) || of.get(cause).length == 0) {
      return Optional.empty();
    }
    int[] at = p.leaves.stream().mapToInt(l -> 1 + leaves.indexOf(l)).toArray();
    double[] now = p.values.apply(p.value);
    // a one-sided step where the number is at an end
    double step = 1e-6 * Math.max(1e-3, Math.min(p.value, 1 - p.value));
    double[] up = p.values.apply(Math.min(1, p.value + step));
    double[] down = p.values.apply(Math.max(0, p.value - step));
    double span = Math.min(1, p.value + step) - Math.max(0, p.value - step);
    double pNow = of.get(cause)[0];
    double slopeJoint = 0;
    double slopeAll = 0;
    for (int i = 0; i < at.length; i++) {
      double rate = (up[i] - down[i]) / span * p.scale[i];
      slopeJoint += rate * of.get(cause)[at[i]];
      slopeAll += rate * all[at[i]];
    }
    if (slopeAll == 0 && slopeJoint == 0) {
      return Optional.empty();
    }
    Lead lead = new Lead(p, cause, at, of, now);
    return Optional.of(
        new Sensitivity.Influence(
            p.number, p.value, slopeJoint - pNow * slopeAll, lead.turn(0), lead.turn(1)));
  }

  /** By how much a cause leads as one number moves. */
  private record Lead(
      Parameter p, CauseId cause, int[] at, Map<CauseId, double[]> of, double[] now) {

    /** P(cause, evidence) up to a common factor. */
    private double joint(CauseId c, double value) {
      double[] numbers = of.get(c);
      if (numbers.length == 0) {
        return 0;
      }
      double[] moved = p.values.apply(value);
      double joint = numbers[0];
      for (int i = 0; i < at.length; i++) {
        joint += (moved[i] - now[i]) * p.scale[i] * numbers[at[i]];
      }
      return joint;
    }

    /** The likeliest other cause where it is at least as likely as this one. */
    private Optional<CauseId> overtakes(double value) {
      double own = joint(cause, value);
      Optional<CauseId> leads = Optional.empty();
      for (CauseId c : of.keySet()) {
        double other = c.equals(cause) ? 0 : joint(c, value);
        if (other > own) {
          own = other;
          leads = Optional.of(c);
        }
      }
      return leads;
    }

    /** Where another cause overtakes on the way to an end. */
    Optional<Sensitivity.Turn> turn(double end) {
      if (overtakes(p.value).isPresent()) {
        return Optional.empty();
      }
      double kept = p.value;
      for (int i = 1; i <= STEPS; i++) {
        double next = p.value + (end - p.value) * i / STEPS;
        if (overtakes(next).isPresent()) {
          double lost = next;
          for (int k = 0; k < 60; k++) {
            double middle = (kept + lost) / 2;
            if (overtakes(middle).isPresent()) {
              lost = middle;
            } else {
              kept = middle;
            }
          }
          return Optional.of(new Sensitivity.Turn(lost, overtakes(lost).get()));
        }
        kept = next;
      }
      return Optional.empty();
    }
  }
}
