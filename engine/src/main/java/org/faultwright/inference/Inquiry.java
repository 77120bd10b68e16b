package org.faultwright.inference;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A question to a model: given evidence, how likely is each state of some variables? It is answered
 * exactly where the budget allows: by compiling the whole model, or, where that is predicted to be
 * larger, by compiling what the evidence leaves of it. Only where both are over budget, and only
 * when allowed, it is answered by drawing.
 *
 * @param likelihoods for each variable with evidence, by number, P(evidence | state) up to a factor
 * @param asked the variables whose states are asked for
 * @param budget the most table entries that compiling may make
 * @param drawing how to draw; empty where drawing is not allowed
 */
public record Inquiry(
    Map<Integer, double[]> likelihoods,
    Set<Integer> asked,
    double budget,
    Optional<Drawing> drawing) {

  /**
   * How to draw.
   *
   * @param draws how many draws, at least 1
   * @param seed the same seed gives the same answer
   */
  public record Drawing(int draws, long seed) {

    /** Checks the number of draws. */
    public Drawing {
      if (draws < 1) {
        throw new IllegalArgumentException("draws must be at least 1: " + draws);
      }
    }
  }

  /** Copies the collections. */
  public Inquiry {
    likelihoods = new LinkedHashMap<>(likelihoods);
    asked = new LinkedHashSet<>(asked);
  }

  /** A question with the usual budget, to be answered exactly or not at all. */
  public static Inquiry of(Map<Integer, double[]> likelihoods, Set<Integer> asked) {
    return new Inquiry(likelihoods, asked, CircuitCompiler.DEFAULT_BUDGET, Optional.empty());
  }

  /** The same question with another budget. */
  public Inquiry within(double tableEntries) {
    return new Inquiry(likelihoods, asked, tableEntries, drawing);
  }

  /** The same question, which may be answered by drawing where all else is over budget. */
  public Inquiry orDrawing(int draws, long seed) {
    return new Inquiry(likelihoods, asked, budget, Optional.of(new Drawing(draws, seed)));
  }

  /** The answer for a network. */
  public Marginals of(DiscreteNetwork network) {
    return of(Model.of(network));
  }

  /** The answer for a model with its own values of the parameters. */
  public Marginals of(Model model) {
    for (Map.Entry<Integer, double[]> e : likelihoods.entrySet()) {
      if (e.getValue().length != model.states(e.getKey())) {
        throw new IllegalArgumentException(
            "likelihood of "
                + model.name(e.getKey())
                + " must have "
                + model.states(e.getKey())
                + " numbers: "
                + e.getValue().length);
      }
    }
    Optional<Model> left = Reduction.of(model, likelihoods, asked);
    if (left.isEmpty()) {
      return new Marginals.Impossible();
    }
    EliminationOrder whole = EliminationOrder.best(model);
    EliminationOrder perCase = EliminationOrder.best(left.get());
    if (Math.min(whole.size(), perCase.size()) > budget) {
      return drawing
          .flatMap(d -> new Sampling(model, likelihoods, asked).draw(d))
          .orElseGet(() -> new Marginals.OverBudget(whole.size(), perCase.size(), budget));
    }
    return perCase.size() < whole.size()
        ? perCase(left.get(), perCase)
        : whole(model.observing(likelihoods.keySet(), asked), whole);
  }

  /**
   * The answer by what the evidence leaves of a model, if that is within the budget: for a model of
   * which one knows that the whole is not, so that its size need not be predicted.
   */
  public Marginals perCaseOf(Model model) {
    Optional<Model> left = Reduction.of(model, likelihoods, asked);
    if (left.isEmpty()) {
      return new Marginals.Impossible();
    }
    EliminationOrder order = EliminationOrder.best(left.get());
    return order.size() > budget
        ? new Marginals.OverBudget(Double.POSITIVE_INFINITY, order.size(), budget)
        : perCase(left.get(), order);
  }

  Marginals perCase(Model left, EliminationOrder order) {
    return read(Marginals.Route.PER_CASE, order, CircuitCompiler.compile(left, order).evaluation());
  }

  Marginals whole(Model model, EliminationOrder order) {
    Evaluation evaluation = CircuitCompiler.compile(model, order).evaluation();
    likelihoods.forEach(evaluation::weigh);
    return read(Marginals.Route.WHOLE, order, evaluation);
  }

  private Marginals read(Marginals.Route route, EliminationOrder order, Evaluation evaluation) {
    double logP = evaluation.upward();
    if (logP == Double.NEGATIVE_INFINITY) {
      return new Marginals.Impossible();
    }
    evaluation.downward();
    Map<Integer, double[]> p = new LinkedHashMap<>();
    for (int v : asked) {
      double[] of = new double[evaluation.states(v)];
      for (int s = 0; s < of.length; s++) {
        of[s] = evaluation.marginal(v, s);
      }
      p.put(v, of);
    }
    return new Marginals.Exact(route, order.size(), logP, p);
  }
}
