package org.faultwright.compile;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiConsumer;
import org.faultwright.inference.Circuit;
import org.faultwright.inference.CircuitCompiler;
import org.faultwright.inference.Compilation;
import org.faultwright.inference.Evaluation;
import org.faultwright.inference.Model;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;

/**
 * A network that is too wide to compile, compiled for the facts at hand: what they rule out cuts
 * it, and what nobody looked at is not in it. Readings rule nothing out; they are entered
 * afterwards.
 */
sealed interface PerCase {

  /** Evidence on what is left. */
  record Possible(Evidence.Entered entered) implements PerCase {}

  /** The facts cannot all be true. */
  record Impossible() implements PerCase {}

  /** What is left is too wide as well. */
  record TooWide(double predicted, double budget) implements PerCase {}

  /**
   * Compiles for a case.
   *
   * @param network of the observations of the case alone
   */
  static PerCase of(
      Pack pack,
      Network network,
      ReadingModels readings,
      Map<CauseId, Double> priors,
      List<Bound> facts,
      BiConsumer<Network, Evaluation> supposed,
      double budget) {
    Model model = network.model(priors);
    Evaluation weights = CircuitCompiler.weightsOnly(model).evaluation();
    supposed.accept(network, weights);
    List<Bound> taken =
        facts.stream()
            .filter(b -> b instanceof Bound.ReadingAt || b instanceof Bound.KnownGoodAt)
            .toList();
    List<Bound> certain = facts.stream().filter(b -> !taken.contains(b)).toList();
    Evidence.enter(pack, network, readings, certain, weights);
    double logConstant = weights.upward();
    if (logConstant == Double.NEGATIVE_INFINITY) {
      return new Impossible();
    }
    Compilation compilation =
        CircuitCompiler.compilePerCase(model, weighed(weights, model), budget);
    if (compilation instanceof Compilation.OverBudget over) {
      return new TooWide(over.predicted(), over.budget());
    } else if (compilation instanceof Compilation.Impossible) {
      return new Impossible();
    }
    Evaluation left = ((Circuit) compilation).evaluation();
    left.weighAll(Math.exp(logConstant));
    return new Possible(Evidence.enter(pack, network, readings, taken, left));
  }

  /** The weights that are not indifferent, by variable. */
  static Map<Integer, double[]> weighed(Evaluation evaluation, Model model) {
    Map<Integer, double[]> weights = new LinkedHashMap<>();
    for (int v = 0; v < model.variables(); v++) {
      if (!model.isObservable(v)) {
        continue;
      }
      double[] of = new double[model.states(v)];
      boolean indifferent = true;
      for (int s = 0; s < of.length; s++) {
        of[s] = evaluation.weight(v, s);
        indifferent &= of[s] == 1;
      }
      if (!indifferent) {
        weights.put(v, of);
      }
    }
    return weights;
  }
}
