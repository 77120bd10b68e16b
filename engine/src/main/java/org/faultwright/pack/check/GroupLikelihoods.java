package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A one-of group whose members' likelihoods do not fit each other. */
final class GroupLikelihoods implements PackCheck {

  /** A sum of a few decimals as written is off by less. */
  private static final double ROUNDING = 1e-9;

  @Override
  public String id() {
    return "group-likelihoods";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (OneOf group : pack.groups().values()) {
      double sum = 0;
      boolean priors = false;
      boolean shares = false;
      for (CauseId member : group.members()) {
        Cause.Likelihood likelihood = pack.causes().get(member).likelihood();
        shares |= likelihood instanceof Cause.Likelihood.Share;
        if (likelihood instanceof Cause.Likelihood.Prior p) {
          priors = true;
          sum += p.chance().p();
        }
      }
      if (priors && shares) {
        report(
            group,
            "some members state priors and others shares",
            "state the same for all members",
            at,
            found);
      } else if (priors && group.certain() && Math.abs(sum - 1) > ROUNDING) {
        report(
            group,
            "one member is certain, so priors must sum to 100 %, but they sum to " + percent(sum),
            "mend the priors, or leave out 'certain'",
            at,
            found);
      } else if (priors && !group.certain() && sum > 1 - ROUNDING) {
        report(
            group,
            "priors sum to " + percent(sum) + ", which leaves nothing for 'none of them'",
            "mend the priors, or say 'certain: yes'",
            at,
            found);
      }
    }
  }

  private void report(
      OneOf group, String message, String wayOut, Positions at, Consumer<Problem> found) {
    found.accept(
        Problem.error(
            id(),
            at.of("one-of/" + group.id() + "/members"),
            "group '" + group.id() + "': " + message,
            wayOut));
  }

  private static String percent(double sum) {
    return new java.math.BigDecimal(100 * sum)
            .round(new java.math.MathContext(6))
            .stripTrailingZeros()
            .toPlainString()
        + " %";
  }
}
