package org.faultwright.inference;

import java.util.Arrays;
import java.util.BitSet;

/**
 * Evidence on a circuit, and what follows from it: one upward pass gives the probability of the
 * evidence, one downward pass every marginal. Reusable; confined to one thread.
 *
 * <p>Where the probability of the evidence leaves the range of doubles, both passes are repeated
 * with a separate exponent for each node, so that hundreds of improbable findings are no
 * difficulty. Where the weights of few variables have changed since the last upward pass, only what
 * depends on them is computed again; the result is the same to the last bit.
 */
public final class Evaluation {

  /** Below this, and above its inverse, the passes are repeated with separate exponents. */
  private static final double TINY = 1e-250;

  /** Changed variables beyond which everything is computed again. */
  private static final int FEW = 4;

  /** What one cell picked out costs, in cells computed one after another. */
  private static final int PICKED = 3;

  private final Circuit circuit;
  private double[] cells;
  private Circuit.Downward downward;
  private ScaledCells scaled;
  private boolean usesScaled;
  private double logConstant;

  /** 1 / P(evidence), after the downward pass. */
  private double inverse;

  private final int[] changed = new int[FEW];

  /** How many variables have changed since the last upward pass; above {@link #FEW}: many. */
  private int changes = FEW + 1;

  Evaluation(Circuit circuit) {
    this.circuit = circuit;
    this.cells = new double[circuit.structure.up.end];
    System.arraycopy(circuit.leafValues, 0, cells, 0, circuit.leafValues.length);
    cells[circuit.leafValues.length] = 1;
  }

  /** Forgets all evidence. */
  public void clear() {
    System.arraycopy(circuit.leafValues, 0, cells, 0, circuit.structure.indicators.end());
    logConstant = 0;
    changes = FEW + 1;
  }

  /**
   * Multiplies the weight of one state of a variable: 0 rules it out, a likelihood weighs it.
   *
   * @param weight not negative
   */
  public void weigh(int variable, int state, double weight) {
    setWeight(variable, state, weight(variable, state) * weight);
  }

  /**
   * Multiplies the weights of all states of a variable by a likelihood, one entry for each state.
   */
  public void weigh(int variable, double[] likelihood) {
    for (int s = 0; s < likelihood.length; s++) {
      weigh(variable, s, likelihood[s]);
    }
  }

  /** Multiplies the probability of the evidence by a factor that concerns no variable. */
  public void weighAll(double factor) {
    logConstant += Math.log(factor);
  }

  /** The same weights on a circuit of the same structure. */
  Evaluation on(Circuit other) {
    Evaluation same = other.evaluation();
    System.arraycopy(cells, 0, same.cells, 0, circuit.structure.indicators.end());
    same.logConstant = logConstant;
    return same;
  }

  /** The circuit. */
  Circuit circuit() {
    return circuit;
  }

  /** Number of states of a variable. */
  public int states(int variable) {
    return circuit.states(variable);
  }

  /** The weight of a state as it stands. */
  public double weight(int variable, int state) {
    return cells[leaf(variable, state)];
  }

  /** Sets the weight of a state. */
  public void setWeight(int variable, int state, double weight) {
    int leaf = leaf(variable, state);
    if (cells[leaf] != weight) {
      cells[leaf] = weight;
      change(variable);
    }
  }

  private void change(int variable) {
    for (int i = 0; i < changes && i < FEW; i++) {
      if (changed[i] == variable) {
        return;
      }
    }
    if (changes < FEW) {
      changed[changes] = variable;
    }
    changes = Math.min(changes + 1, FEW + 1);
  }

  private int leaf(int variable, int state) {
    return circuit.structure.indicators.leaf(variable, state);
  }

  /**
   * The upward pass.
   *
   * @return ln P(evidence); negative infinity when the evidence is impossible
   */
  public double upward() {
    climb();
    double p = cells[circuit.structure.rootCell()];
    usesScaled = !(p >= TINY && p <= 1 / TINY);
    if (!usesScaled) {
      return Math.log(p) + logConstant;
    }
    Circuit.Downward down = circuit.downward();
    if (scaled == null) {
      scaled = new ScaledCells(down.program().end);
    }
    for (int i = 0; i <= circuit.leafValues.length; i++) {
      scaled.set(i, cells[i]);
    }
    circuit.structure.up.run(scaled);
    return scaled.log(circuit.structure.rootCell()) + logConstant;
  }

  private void climb() {
    Program up = circuit.structure.up;
    if (changes <= FEW) {
      BitSet some = new BitSet();
      for (int i = 0; i < changes; i++) {
        some.or(circuit.structure.dependants(changed[i]));
      }
      if (some.cardinality() * PICKED < up.end - up.first) {
        up.run(cells, some);
        changes = 0;
        return;
      }
    }
    up.run(cells);
    changes = 0;
  }

  /**
   * The circuit with the evidence folded in, in which only the given variables can still be
   * weighed, starting from their weights here. To be called after {@link #upward()} has returned a
   * finite number. Where P(evidence) lies far outside the range of doubles nothing is folded.
   */
  public Circuit given(int[] kept) {
    return usesScaled ? circuit.withIndicators(cells) : Residue.of(circuit, cells, kept);
  }

  /** The downward pass, after {@link #upward()} has returned a finite number. */
  public void downward() {
    downwardEvenIfImpossible();
  }

  /**
   * The downward pass, also where the evidence is impossible: then only {@link #logDerivative} may
   * be asked, and tells what would be possible if one weight were different.
   */
  public void downwardEvenIfImpossible() {
    downward = circuit.downward();
    if (usesScaled) {
      downward.program().run(scaled);
      return;
    }
    if (cells.length < downward.program().end) {
      cells = Arrays.copyOf(cells, downward.program().end);
    }
    downward.program().run(cells);
    inverse = 1 / cells[circuit.structure.rootCell()];
  }

  /** P(variable = state | evidence), after both passes. */
  public double marginal(int variable, int state) {
    int leaf = leaf(variable, state);
    int cell = downward.cells()[leaf];
    if (cell < 0) {
      return 0;
    }
    return usesScaled
        ? scaled.share(leaf, cell, circuit.structure.rootCell())
        : cells[leaf] * cells[cell] * inverse;
  }

  /** P(state | evidence) for all states of a variable, after both passes. */
  public void marginals(int variable, double[] into) {
    for (int s = 0; s < into.length; s++) {
      into[s] = marginal(variable, s);
    }
  }

  /**
   * P(variable = state, rest of the evidence) / P(evidence): the marginal as if nothing were known
   * of the variable itself.
   */
  public double derivative(int variable, int state) {
    return derivative(leaf(variable, state));
  }

  /**
   * The derivative of ln P(evidence) by a parameter, after both passes on a circuit that was told
   * to {@link Circuit#askingParameters ask} for it.
   */
  public double parameterDerivative(int parameter) {
    int leaf = circuit.structure.parameterLeaf[parameter];
    return leaf < 0 ? 0 : derivative(leaf);
  }

  private double derivative(int leaf) {
    int cell = downward.cells()[leaf];
    if (cell < 0) {
      return 0;
    }
    return usesScaled ? scaled.quotient(cell, circuit.structure.rootCell()) : cells[cell] * inverse;
  }

  /**
   * ln of the derivative of P(evidence) by the weight of a state: what the weight 1 in place of 0
   * would add.
   */
  public double logDerivative(int variable, int state) {
    int cell = downward.cells()[leaf(variable, state)];
    if (cell < 0) {
      return Double.NEGATIVE_INFINITY;
    }
    return (usesScaled ? scaled.log(cell) : Math.log(cells[cell])) + logConstant;
  }
}
