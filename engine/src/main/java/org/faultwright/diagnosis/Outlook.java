package org.faultwright.diagnosis;

import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.Ordered;

/** What inference makes of the facts of a case. */
public sealed interface Outlook permits Posterior, Outlook.ImpossibleEvidence, Outlook.OverBudget {

  /**
   * The facts cannot all be true.
   *
   * @param clash a smallest set of facts that cannot hold together
   */
  record ImpossibleEvidence(Set<FactId> clash) implements Outlook {

    /** Copies the set, keeping its order. */
    public ImpossibleEvidence {
      clash = Ordered.copy(clash);
    }
  }

  /**
   * The case has grown too wide for exact answers.
   *
   * @param predicted the number of table entries that an exact answer would take
   * @param budget the number that is allowed
   */
  record OverBudget(double predicted, double budget) implements Outlook {}
}
