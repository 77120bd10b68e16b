package org.faultwright.planning;

import org.faultwright.planning.Assessment.Repairing;
import org.faultwright.planning.Assessment.Testing;

/**
 * A rule that says, at each place of a job, what to do next. It is asked only where a function is
 * still lost, and answers with what is open there.
 */
interface Policy {

  /** What to do at a place. */
  Choice choose(Place place);

  /** The rule to go on with after a test; most rules stay as they are. */
  default Policy afterTest(Seen seen) {
    return this;
  }

  /** The rule to go on with after a repair that has not helped. */
  default Policy afterFailure() {
    return this;
  }

  /** What a rule says. */
  sealed interface Choice {

    /** Do a test. */
    record Test(Testing test) implements Choice {}

    /** Do a repair and its function tests. */
    record Repair(Repairing repair) implements Choice {}

    /** End the job without a repair. */
    record End() implements Choice {}
  }
}
