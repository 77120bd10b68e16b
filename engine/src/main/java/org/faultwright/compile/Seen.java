package org.faultwright.compile;

import java.util.List;
import org.faultwright.pack.OutcomeId;

/**
 * How the outcomes of an observation depend on one variable of a network.
 *
 * @param variable the variable; -1 where nothing of the network matters, and then there is one row
 * @param holds for an observation of one node the state in which it holds; else -1
 * @param outcomes the outcomes
 * @param rows for each state of the variable, P(outcome)
 */
record Seen(int variable, int holds, List<OutcomeId> outcomes, double[][] rows) {

  /** Outcomes that do not look at one node. */
  Seen(int variable, List<OutcomeId> outcomes, double[][] rows) {
    this(variable, -1, outcomes, rows);
  }

  /** P(outcome | state) over the states. */
  double[] likelihood(OutcomeId outcome) {
    int o = outcomes.indexOf(outcome);
    if (o < 0) {
      throw new IllegalArgumentException("outcome must be one of " + outcomes + ": " + outcome);
    }
    double[] likelihood = new double[rows.length];
    for (int s = 0; s < rows.length; s++) {
      likelihood[s] = rows[s][o];
    }
    return likelihood;
  }

  /** Rows for two outcomes that look at a true-or-false node. */
  static Seen of(Ref node, int states, List<OutcomeId> outcomes, double pIfTrue, double pIfFalse) {
    if (node instanceof Ref.Known k) {
      double p = k.value() ? pIfTrue : pIfFalse;
      return new Seen(-1, outcomes, new double[][] {{p, 1 - p}});
    }
    Ref.At at = (Ref.At) node;
    double[][] rows = new double[states][];
    for (int s = 0; s < states; s++) {
      double p = s == at.state() ? pIfTrue : pIfFalse;
      rows[s] = new double[] {p, 1 - p};
    }
    return new Seen(at.variable(), at.state(), outcomes, rows);
  }
}
