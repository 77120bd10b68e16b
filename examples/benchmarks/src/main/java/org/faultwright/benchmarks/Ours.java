package org.faultwright.benchmarks;

import java.util.Map;
import org.faultwright.inference.Circuit;
import org.faultwright.inference.CircuitCompiler;
import org.faultwright.inference.DiscreteNetwork;
import org.faultwright.inference.Evaluation;
import org.faultwright.inference.Lanes;
import org.faultwright.inference.Model;

/** A network as a circuit. */
final class Ours implements Contender {

  private final Circuit circuit;
  private final Map<Integer, double[]> likelihoods;
  private final Evaluation evaluation;
  private final Evaluation other;
  private final double[][] all;

  Ours(DiscreteNetwork network, Map<Integer, double[]> likelihoods) {
    this.circuit = compile(network);
    this.likelihoods = likelihoods;
    this.evaluation = circuit.evaluation();
    this.other = circuit.evaluation();
    all = new double[network.nodes().size()][];
    for (int v = 0; v < all.length; v++) {
      all[v] = new double[circuit.states(v)];
    }
  }

  /** Up to what can be asked. */
  static Circuit compile(DiscreteNetwork network) {
    Circuit circuit =
        (Circuit) CircuitCompiler.compile(Model.of(network), CircuitCompiler.DEFAULT_BUDGET);
    Evaluation first = circuit.evaluation();
    first.upward();
    first.downward();
    return circuit;
  }

  int nodes() {
    return all.length;
  }

  int states(int node) {
    return all[node].length;
  }

  int operations() {
    return circuit.operations();
  }

  @Override
  public void reset() {}

  @Override
  public double[][] answer() {
    logPEvidence();
    evaluation.downward();
    for (int v = 0; v < all.length; v++) {
      evaluation.marginals(v, all[v]);
    }
    return all;
  }

  /** By an upward pass over the whole circuit. */
  double logPEvidence() {
    evaluation.clear();
    likelihoods.forEach(evaluation::weigh);
    return evaluation.upward();
  }

  /** After one finding has been taken back or told again: only what depends on it is computed. */
  double logPEvidenceAfterOneChange() {
    Map.Entry<Integer, double[]> one = likelihoods.entrySet().iterator().next();
    double[] likelihood = one.getValue();
    boolean told = false;
    for (int s = 0; s < likelihood.length; s++) {
      told |= other.weight(one.getKey(), s) != 1;
    }
    for (int s = 0; s < likelihood.length; s++) {
      other.setWeight(one.getKey(), s, told ? 1 : likelihood[s]);
    }
    return other.upward();
  }

  /** The same evidence in every lane; it costs as much as different evidence would. */
  Lanes lanes(int count) {
    return circuit.lanes(count);
  }

  void enter(Lanes lanes) {
    likelihoods.forEach(
        (v, likelihood) -> {
          for (int s = 0; s < likelihood.length; s++) {
            for (int lane = 0; lane < lanes.count(); lane++) {
              lanes.setWeight(lane, v, s, likelihood[s]);
            }
          }
        });
  }
}
