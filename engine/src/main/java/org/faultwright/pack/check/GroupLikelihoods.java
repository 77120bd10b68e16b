package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A one-of group whose members' likelihoods do not fit each other. */
final class GroupLikelihoods implements PackCheck {

  @Override
  public String id() {
    return "group-likelihoods";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {

    for (OneOf group : pack.groups().values()) {
      double sum = 0;
      int priors = 0;
      int shares = 0;
      for (CauseId member : group.members()) {
        Cause.Likelihood likelihood = pack.causes().get(member).likelihood();
        if (likelihood instanceof Cause.Likelihood.Prior p) {
          priors++;
          sum += p.chance().p();
        } else if (likelihood instanceof Cause.Likelihood.Share) {
          shares++;
        }
      }
      String message = null;
      String wayOut = "";
      if (priors > 0 && shares > 0) {
        message = "some members state priors and others shares";
        wayOut = "state the same for all members";
      } else if (priors > 0 && group.certain() && Math.abs(sum - 1) > ROUNDING) {
        message = "one member is certain, so priors must sum to 1, but they sum to " + decimal(sum);
        wayOut = "mend the priors, or leave out 'certain'";
      } else if (priors > 0 && !group.certain() && sum > 1 - ROUNDING) {
        message = "priors sum to " + decimal(sum) + ", which leaves nothing for 'none of them'";
        wayOut = "mend the priors, or say 'certain: yes'";
      }
      if (message != null) {
        found.accept(
            Problem.error(
                id(),
                at.of("one-of/" + group.id() + "/members"),
                "group '" + group.id() + "': " + message,
                wayOut));
      }
    }
  }

  /** A sum of a few decimals as written is off by less. */
  private static final double ROUNDING = 1e-9;

  private static String decimal(double sum) {
    return new java.math.BigDecimal(sum)
        .round(new java.math.MathContext(6))
        .stripTrailingZeros()
        .toPlainString();
  }
}
