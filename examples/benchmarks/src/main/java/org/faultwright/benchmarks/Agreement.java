package org.faultwright.benchmarks;

/** Whether contenders answer the same. */
final class Agreement {

  /** Two posteriors no further apart than this are the same. */
  static final double SAME = 1e-9;

  private Agreement() {}

  /**
   * The contender, if it agrees with ours, twice in a row.
   *
   * @throws IllegalStateException when it does not
   */
  static Contender checked(Contender contender, Contender ours) throws Exception {
    for (int time = 0; time < 2; time++) {
      contender.reset();
      double apart = furthestApart(ours.answer(), contender.answer());
      if (!(apart <= SAME)) {
        throw new IllegalStateException(
            "all must give the same posteriors: "
                + contender.getClass().getSimpleName()
                + " is "
                + apart
                + " apart");
      }
    }
    return contender;
  }

  /** The greatest difference; not a number when one of them is not one. */
  static double furthestApart(double[][] ours, double[][] theirs) {
    double most = 0;
    for (int v = 0; v < ours.length; v++) {
      for (int s = 0; s < ours[v].length; s++) {
        most = Math.max(most, Math.abs(ours[v][s] - theirs[v][s]));
      }
    }
    return most;
  }
}
