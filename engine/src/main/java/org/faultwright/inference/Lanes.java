package org.faultwright.inference;

import java.util.Arrays;

/**
 * Many sets of evidence on one circuit, evaluated side by side: each sum or product is done for all
 * of them before the next, which a processor does several at a time. Confined to one thread.
 *
 * <p>A set of evidence whose probability leaves the range of doubles is evaluated on its own, with
 * separate exponents.
 */
public final class Lanes {

  private static final double TINY = 1e-250;

  private final Circuit circuit;
  private final int count;
  private double[][] rows;
  private Circuit.Downward downward;

  /** 1 / P(evidence) in each lane, after the downward pass. */
  private final double[] inverse;

  private final Evaluation[] alone;
  private final double[] logP;

  Lanes(Circuit circuit, int count) {
    if (count < 1) {
      throw new IllegalArgumentException("count must be at least 1: " + count);
    }
    this.circuit = circuit;
    this.count = count;
    rows = new double[circuit.structure.up.end][count];
    alone = new Evaluation[count];
    inverse = new double[count];
    logP = new double[count];
    int leaves = circuit.leafValues.length;
    for (int leaf = 0; leaf < leaves; leaf++) {
      Arrays.fill(rows[leaf], circuit.leafValues[leaf]);
    }
    Arrays.fill(rows[leaves], 1);
  }

  /** Number of sets of evidence. */
  public int count() {
    return count;
  }

  /** Sets the weight of a state in one set of evidence: 0 rules it out, 1 says nothing. */
  public void setWeight(int lane, int variable, int state, double weight) {
    rows[leaf(variable, state)][lane] = weight;
  }

  private int leaf(int variable, int state) {
    return circuit.structure.indicators.leaf(variable, state);
  }

  /** The upward pass for all sets of evidence. */
  public void upward() {
    circuit.structure.up.run(rows, count);
    double[] root = rows[circuit.structure.rootCell()];
    for (int lane = 0; lane < count; lane++) {
      boolean within = root[lane] >= TINY && root[lane] <= 1 / TINY;
      alone[lane] = within ? null : alone(lane);
      logP[lane] = within ? Math.log(root[lane]) : alone[lane].upward();
    }
  }

  private Evaluation alone(int lane) {
    Evaluation one = circuit.evaluation();
    for (int v = 0; v < circuit.variables(); v++) {
      for (int s = 0; circuit.isObservable(v) && s < circuit.states(v); s++) {
        one.setWeight(v, s, rows[leaf(v, s)][lane]);
      }
    }
    return one;
  }

  /** ln P(evidence) of one set; negative infinity when it is impossible. */
  public double logPEvidence(int lane) {
    return logP[lane];
  }

  /** The downward pass for all sets of evidence. */
  public void downward() {
    downward = circuit.downward();
    int known = rows.length;
    int end = downward.program().end;
    if (known < end) {
      rows = Arrays.copyOf(rows, end);
      for (int c = known; c < end; c++) {
        rows[c] = new double[count];
      }
    }
    downward.program().run(rows, count);
    double[] root = rows[circuit.structure.rootCell()];
    for (int lane = 0; lane < count; lane++) {
      inverse[lane] = 1 / root[lane];
    }
    for (Evaluation one : alone) {
      if (one != null) {
        one.downwardEvenIfImpossible();
      }
    }
  }

  /** P(variable = state | evidence) in one set that is possible, after both passes. */
  public double marginal(int lane, int variable, int state) {
    if (alone[lane] != null) {
      return alone[lane].marginal(variable, state);
    }
    int leaf = leaf(variable, state);
    int cell = downward.cells()[leaf];
    return cell < 0 ? 0 : rows[leaf][lane] * rows[cell][lane] * inverse[lane];
  }

  /**
   * P(variable = state | evidence) in each set, after both passes; 0 in a set that is impossible.
   *
   * @param into as many as there are sets
   */
  public void marginals(int variable, int state, double[] into) {
    int leaf = leaf(variable, state);
    int cell = downward.cells()[leaf];
    if (cell < 0) {
      Arrays.fill(into, 0);
      return;
    }
    double[] weights = rows[leaf];
    double[] derivatives = rows[cell];
    for (int lane = 0; lane < into.length; lane++) {
      into[lane] = weights[lane] * derivatives[lane] * inverse[lane];
    }
    for (int lane = 0; lane < into.length; lane++) {
      if (alone[lane] != null) {
        into[lane] = logP[lane] == Double.NEGATIVE_INFINITY ? 0 : marginal(lane, variable, state);
      }
    }
  }
}
